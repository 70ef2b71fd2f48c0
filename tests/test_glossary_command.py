"""`hobwort glossary`: a term of the trade and what it means."""

import json

import pytest

from designer.command_line import run
from designer.library.glossary import terms


@pytest.fixture
def said(capsys):
    def run_and_read(*words):
        code = run(("glossary", *words))
        out, err = capsys.readouterr()
        return code, out, err

    return run_and_read


def test_a_term_is_told_by_any_of_its_names(said):
    code, out, _ = said("OG")
    assert code == 0
    assert out.startswith("Original gravity (OG): The gravity of the wort before yeast")
    assert max(map(len, out.splitlines())) <= 100


def test_without_a_term_all_are_told_also_as_json(said):
    code, out, _ = said("--json")
    assert code == 0
    told = json.loads(out)["terms"]
    assert [each["term"] for each in told] == [each.term for each in terms()]
    assert all(each["meaning"] for each in told)
    _, text, _ = said()
    assert sum(not line.startswith("  ") for line in text.splitlines()) == len(told)


def test_what_is_not_in_it_is_refused_with_a_way_out(said):
    code, out, err = said("zeppelin")
    assert (code, out) == (1, "")
    assert err.startswith("The glossary has no term “zeppelin”")
    assert f"leave it out to see all {len(terms())} terms" in err
