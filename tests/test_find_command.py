"""The Recipe box searched from the command line, by the words of its search field."""

import json

import pytest

from designer.command_line import run
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.resource_files import resource_path
from designer.workbench.recipe_summary import summary_of


@pytest.fixture
def box(tmp_path, monkeypatch):
    """A box with the porter (4.4 %, 29 IBU, 6.7 L at its fullest) and the kit of 20 L."""
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    with Store.open(tmp_path / "box") as store:
        for name in ("harbour_lamp_porter", "breakwater_red"):
            recipe = load(resource_path(f"examples/{name}.hobwort"))
            store.recipes.add(document_text(recipe), summary_of(recipe))


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["abv <4.4"], ["Breakwater Red"]),
        (["abv", "<=4.4"], ["Breakwater Red", "Harbour Lamp Porter"]),
        (["ibu>25", "abv < 5"], ["Harbour Lamp Porter"]),
        (["fits", "9 L"], ["Harbour Lamp Porter"]),
        ([], ["Breakwater Red", "Harbour Lamp Porter"]),
    ],
)
def test_recipes_are_found_by_the_words_of_the_search_field(box, capsys, words, found):
    assert run(["find", *words, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert sorted(each["name"] for each in told["recipes"]) == found
    assert run(["find", *words]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert sorted(each.split(" · ")[0] for each in lines[: len(found)]) == found


def test_what_fits_counts_the_room_for_foam_and_says_so(box, capsys):
    assert run(["find", "fits 9 L"]) == 0
    assert capsys.readouterr().out.splitlines()[-1] == (
        "“fits 9 L” leaves room for foam: at its fullest below the foam line, 7.2 L."
    )


def test_what_is_found_is_told_in_the_units_and_scales_that_are_asked_for(box, capsys):
    assert run(["find", "porter", "--units", "us", "--gravity", "plato"]) == 0
    assert capsys.readouterr().out.split(" · ")[2:] == [
        "OG 11.4 °P", "4.4 %", "29 IBU", "23 SRM", "2.64 gal\n",
    ]  # fmt: skip
    assert run(["find", "porter", "--units", "metric", "--gravity", "sg"]) == 0
    assert capsys.readouterr().out.split(" · ")[2:] == [
        "OG 1.046", "4.4 %", "29 IBU", "45 EBC", "10 L\n",
    ]  # fmt: skip


def test_what_is_not_understood_is_refused_with_what_would_be(box, capsys):
    assert run(["find", "abv <x"]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert "abv 4..5.5 or abv <5.5" in told.err


def test_a_search_makes_no_box_where_there_is_none(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "none"))
    assert run(["find", "porter"]) == 0
    told = capsys.readouterr()
    assert told.out == "Nothing matches.\n"
    assert "no Recipe box" in told.err
    assert not (tmp_path / "none").exists()
