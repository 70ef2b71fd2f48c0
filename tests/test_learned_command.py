"""What brews taught, from the command line: listed, taken, given back, left out, reckoned with."""

import json

import pytest

from designer.brewday.learning.figures import Figure
from designer.command_line import run
from designer.command_line.learned_command import code_of
from designer.command_line.words.learned import LEARNED
from designer.library.recipe_file import load, save
from designer.library.store import Store
from tests.taught_kitchen import brewed, porter

YEAST = "Dry English ale yeast"


@pytest.fixture
def box(tmp_path, monkeypatch):
    folder = tmp_path / "box"
    monkeypatch.setenv("HOBWORT_STORE", str(folder))
    with Store.open(folder) as store:
        brewed(store)
    return folder


@pytest.fixture
def file(tmp_path):
    save(porter(), tmp_path / "porter.hobwort")
    return str(tmp_path / "porter.hobwort")


def learned(capsys):
    assert run(["learned", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    return {(each["figure"], each["subject"]): each for each in found["figures"]}


def final(capsys, *words):
    assert run(["forecast", *words, "--json"]) == 0
    return json.loads(capsys.readouterr().out)["final_gravity"]


def test_a_kitchen_without_a_box_fills_nothing_and_says_so(file, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "none"))
    told = final(capsys, file)
    assert run(["forecast", file, "--kitchen", "--json"]) == 0
    said = capsys.readouterr()
    assert json.loads(said.out)["final_gravity"] == told
    assert "There is no Recipe box in" in said.err


def test_every_figure_has_its_code():
    assert set(LEARNED) == {code_of(each) for each in Figure}


def test_five_brews_are_told_with_where_they_started_and_what_they_say_now(box, capsys):
    assert run(["learned"]) == 0
    said = capsys.readouterr().out
    assert "Attenuation, Dry English ale yeast (attenuation)" in said
    assert "from 5 brews" in said
    assert "Bitterness is not learned" in said
    found = learned(capsys)["evaporation", "Kitchen pot"]
    assert [each["counts"] for each in found["steps"]] == [True] * 5
    start, now = found["start"], found["now"]
    assert now["high"] - now["low"] < 0.5 * (start["high"] - start["low"])
    assert start["value"] > now["value"] > 0.9


def test_a_figure_is_taken_and_used_in_empty_fields_and_given_back(box, file, capsys):
    before = final(capsys, file)
    assert run(["learned", "take", "attenuation"]) == 0
    assert "is taken" in capsys.readouterr().out
    taken = learned(capsys)["attenuation", YEAST]["taken"]
    assert len(taken["brews"]) == 5
    assert final(capsys, file) == before
    after = final(capsys, file, "--kitchen")
    assert after["high"] - after["low"] < 0.9 * (before["high"] - before["low"])
    assert {each["input"]: each["brews"] for each in after["causes"]}["attenuation"] == 5
    assert run(["forecast", file, "--kitchen"]) == 0
    assert f"apparent attenuation {taken['value']} (5 brews)" in capsys.readouterr().out
    typed = final(capsys, file, "--kitchen", "--set", "yeast.attenuation=80 %")
    assert typed == final(capsys, file, "--set", "yeast.attenuation=80 %")
    assert run(["learned", "undo", "attenuation"]) == 0
    assert capsys.readouterr().out == "Attenuation is back to nothing.\n"
    assert final(capsys, file, "--kitchen") == before


def test_a_plan_that_is_written_has_nothing_in_it_that_was_taught(box, file, tmp_path, capsys):
    run(["learned", "take", "evaporation", "Kitchen pot"])
    out = str(tmp_path / "planned.hobwort")
    words = ["--pot", "9 L", "--fermenter", "12 L", "--kitchen", "--use", "1", "-o", out]
    assert run(["fit", file, *words]) == 0
    assert load(tmp_path / "planned.hobwort").process.evaporation is None


def test_a_figure_of_one_brew_is_left_out_and_counts_again(box, capsys):
    assert run(["learned", "leave-out", "3", "evaporation"]) == 0
    assert "is left out" in capsys.readouterr().out
    steps = learned(capsys)["evaporation", "Kitchen pot"]["steps"]
    assert [each["counts"] for each in steps] == [True, True, False, True, True]
    assert run(["learned", "count", "3", "evaporation"]) == 0
    capsys.readouterr()
    steps = learned(capsys)["evaporation", "Kitchen pot"]["steps"]
    assert all(each["counts"] for each in steps)


def test_what_is_not_sure_enough_or_not_there_is_refused_in_words(box, capsys):
    assert run(["learned", "take", "cooling"]) == 1
    assert "No brew tells of cooling yet." in capsys.readouterr().err
    assert run(["learned", "take", "extract_bias"]) == 1
    assert "not sure enough yet" in capsys.readouterr().err
    assert run(["learned", "take", "evaporation", "Another pot"]) == 1
    assert "Kitchen pot" in capsys.readouterr().err
    assert run(["learned", "leave-out", "9", "evaporation"]) == 1
    assert "There is no brew 9" in capsys.readouterr().err
