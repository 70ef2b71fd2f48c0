"""`hobwort design`: a first recipe for a brewer, for a program, and what is refused."""

import json

import pytest

from designer.command_line import run
from designer.library.recipe_file import load
from designer.library.store.kitchen import CupboardRecord
from designer.library.store.store import Store

KITCHEN = ("--pot", "9 L", "--fermenter", "12 L")
BITTER = ("design", "best bitter, not too sweet", *KITCHEN)


@pytest.fixture
def said(capsys):
    """Run the command and return its exit code, its output and its complaints."""

    def run_and_read(*words):
        code = run(words)
        out, err = capsys.readouterr()
        return code, out, err

    return run_and_read


def test_three_recipes_and_a_study_are_told_with_a_reason_for_every_line(said):
    code, out, err = said(*BITTER, "--strength", "4.2 %", "--bitterness", "30", "--colour",
                          "18 EBC", "--taste", "toffee", "--taste", "flowers")  # fmt: skip
    assert (code, err) == (0, "")
    assert out.startswith(
        "read as: Best Bitter, drier than usual\nOG near 1.041; balanced, leaning bitter, 30 IBU"
    )
    for name in ("1. Drier", "2. Rounder", "3. Hoppier", "4. One malt, one hop"):
        assert f"\n{name}: " in out
    assert "Alcohol 4.2 %" in out
    assert "9 SRM · 18 EBC" in out
    assert "flowers" in out
    assert "things to buy." in out


def test_json_has_the_same_recipes_as_numbers(said):
    code, out, _ = said(*BITTER, "--json")
    found = json.loads(out)
    assert code == 0
    assert found["style"] == "Best Bitter"
    assert [each["key"] for each in found["alternatives"]] == [
        "drier", "rounder", "hoppier", "study",
    ]  # fmt: skip
    for each in found["alternatives"]:
        assert 1.038 < each["forecasts"]["original_gravity"] < 1.050
        assert all(line["why"] for line in (*each["fermentables"], *each["hops"]))
        assert each["batch_l"] == 10.0
        assert not [finding for finding in each["findings"] if finding["severity"] == "stop"]


def test_one_of_them_is_written_and_never_over_a_file(said, tmp_path):
    path = tmp_path / "mine.hobwort"
    code, out, err = said(*BITTER, "--use", "3", "-o", str(path))
    assert (code, err) == (0, "")
    assert "Hoppier" in out
    assert load(path).style == "Best Bitter"
    code, _, err = said(*BITTER, "--use", "1", "-o", str(path))
    assert code == 1
    assert "is there already" in err
    assert said(*BITTER, "--use", "9", "-o", str(tmp_path / "x.hobwort"))[0] == 1
    assert said(*BITTER, "--use", "1")[0] == 2


def test_what_lies_in_the_cupboard_is_used_where_that_is_asked_for(said, tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path))
    with Store.open(tmp_path) as store:
        store.cupboard.insert(CupboardRecord("Light dry malt extract", amount="500 g"))
    assert "500 g in hand" in said(*BITTER, "--cupboard")[1]
    assert "in hand" not in said(*BITTER)[1]


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("--pot", "0 L"), "Pot: 0 L is outside 3 L to 1000 L"),
        (("--strength", "9.9"), "--strength: "),
        (("--strength", "40 %"), "Alcohol: "),
        (("--taste", "fish"), "--taste: “fish” is none of toffee, flowers"),
        (("--batch", "many"), "--batch: "),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(said, words, complaint):
    code, out, err = said(*BITTER, *words)
    assert (code, out) == (1, "")
    assert err.startswith(complaint)
    assert err.count("\n") == 1


def test_pot_and_fermenter_have_to_be_said(said):
    assert said("design", "best bitter")[0] == 2
