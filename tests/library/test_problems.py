"""Of a file with very many problems the first are told and the rest are counted."""

import json

import pytest

from designer.command_line import run
from designer.errors import RefusedInputError
from designer.library import document_reading
from designer.library.recipe_file import load, read_document
from designer.recipe.limits import DEEPEST, MOST_LINES, MOST_OBJECTS, MOST_PROBLEMS

MANY = 200_000


def problems_of(document):
    with pytest.raises(RefusedInputError) as told:
        read_document(document if isinstance(document, str) else json.dumps(document), "brew")
    return told.value.problems


def unknown(count):
    return {f"k{number}": 1 for number in range(count)}


@pytest.mark.parametrize(
    ("document", "place"),
    [
        ({"hobwort": 1, **unknown(MANY)}, ""),
        ({"hobwort": 1, "process": unknown(MANY)}, "process: "),
        ({"hobwort": 1, "fermentables": [unknown(MANY)]}, "fermentables[1]: "),
    ],
)
def test_the_first_unknown_keys_are_told_and_the_rest_counted(document, place):
    problems = problems_of(document)
    assert len(problems) == MOST_PROBLEMS + 1
    assert problems[0].startswith(f"brew: {place}unknown key “k0”")
    assert problems[-2].startswith(f"brew: {place}unknown key “k{MOST_PROBLEMS - 1}”")
    assert problems[-1] == "brew: and 199,980 more unknown keys"


def test_words_are_made_only_for_the_problems_that_are_told(monkeypatch):
    made = []
    monkeypatch.setattr(
        document_reading, "_unknown", lambda key, place, known: made.append(key) or "unknown key"
    )
    problems_of({"hobwort": 1, **unknown(MANY)})
    assert len(made) == MOST_PROBLEMS


def test_problems_of_two_kinds_are_counted_apart():
    hops = [{"amount": "soon", "colour": "5 °L"}] * MOST_LINES
    assert problems_of({"hobwort": 1, "hops": hops})[-1] == (
        "brew: and 490 more values that cannot be taken and 490 more unknown keys"
    )


def test_as_many_problems_as_are_told_have_no_line_after_them():
    assert len(problems_of({"hobwort": 1, **unknown(MOST_PROBLEMS)})) == MOST_PROBLEMS
    last = problems_of({"hobwort": 1, **unknown(MOST_PROBLEMS + 1)})[-1]
    assert last == "brew: and 1 more unknown key"


def test_more_objects_than_a_recipe_has_are_told_where_they_begin_to_be_too_many():
    many = '{"hobwort": 1, "hops": [\n' + ",\n".join(["{}"] * 100_000) + "]}"
    assert problems_of(many) == (
        f"brew: line {MOST_OBJECTS + 1}, column 1: more than 5,000 objects {{ ... }} are too many "
        "for a recipe",
    )


def test_the_fullest_recipe_has_fewer_objects_than_are_too_many():
    lists = {name: [{}] * MOST_LINES for name in ("fermentables", "hops", "extras")}
    parts = {name: {} for name in ("pot", "fermenter", "process", "methods", "yeast")}
    assert len(read_document(json.dumps({"hobwort": 1, **lists, **parts}), "").hops) == MOST_LINES


@pytest.mark.parametrize("opens", ["[", '{"a":'])
def test_depth_is_told_where_it_begins_to_be_too_deep(opens):
    said = problems_of('{"hobwort": 1, "x": ' + MANY * opens)
    assert len(said) == 1
    column = len('{"hobwort": 1, "x": ') + (DEEPEST - 1) * len(opens) + 1
    assert f"line 1, column {column}: this is nested too deeply" in said[0] or "not JSON" in said[0]


def test_a_huge_number_of_a_format_is_told_in_short():
    (said,) = problems_of('{"hobwort": ' + 3000 * "9" + "}")
    assert "format 999999… is of a newer Hobwort" in said
    assert len(said) < 200


def test_the_command_line_says_one_line_a_problem_and_one_for_the_rest(written, capsys):
    path = written({"hobwort": 1, **unknown(MANY)})
    assert run(["check", str(path)]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == MOST_PROBLEMS + 1
    assert lines[-1] == f"{path}: and 199,980 more unknown keys"


def test_a_million_empty_lines_are_no_problem(written):
    path = written('{"hobwort": 1,' + 1_000_000 * "\n" + '"name": "Foghorn Wheat"}')
    assert load(path).name == "Foghorn Wheat"
