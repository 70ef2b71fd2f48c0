"""`hobwort kit` types in a kit, says how it comes out, and writes it."""

import json

import pytest

from designer.command_line import run
from designer.library.recipe_file import load

RED = [
    "kit", "Breakwater Red", "--tin", "1.7 kg", "--tin", "1.7 kg Second tin", "--sugar", "500 g",
    "--grain", "200 g Crystal malt 120 °L", "--hop", "Challenger 18 g 20 min 7.2 %",
    "--hop", "10 g Fuggle whole flame-out", "--yeast", "6 g", "--makes", "20 L",
    "--og", "1.055..1.062", "--ibu", "24 IBU", "--pot", "9 L", "--fermenter", "12 L",
]  # fmt: skip


def test_a_kit_is_printed_beside_its_leaflet_and_written_locked(tmp_path, capsys):
    path = tmp_path / "red.hobwort"
    assert run([*RED, "-o", str(path)]) == 0
    printed = capsys.readouterr().out
    assert printed.startswith("Breakwater Red\n  Comes to OG 1.05")
    assert "OG: stated 1.055 to 1.062; here 1.05" in printed
    assert "Does not fit a 12 L fermenter" in printed
    assert f"Written to {path}" in printed
    recipe = load(path)
    assert [each.name for each in recipe.fermentables][1] == "Second tin"
    assert all(each.locked for each in (*recipe.fermentables, *recipe.hops))
    assert recipe.hops[0].alpha.text == "7.2 %"
    assert (recipe.hops[1].form, recipe.hops[1].when.text) == ("whole", "flame-out")
    assert recipe.leaflet.original_gravity.text == "1.055 to 1.062"
    assert run([*RED, "-o", str(path)]) == 1  # it is there already


def test_the_same_is_told_as_json_and_a_slip_with_its_cure(capsys):
    words = [*RED, "--json"]
    words[words.index("20 L")] = "20 gal"
    assert run(words) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["leaflet"]["stated"][0]["verdict"] == "differs"
    assert document["leaflet"]["makes_l"] == pytest.approx(75.7, abs=0.1)
    (doubt,) = [each for each in document["watch_out"] if each["code"] == "leaflet-differs"]
    assert "20 L, not 20 gal" in doubt["message"]
    assert doubt["fix"].startswith("Make up to 20 L")
    assert len(document["fits"]) == 2
    assert document["written"] is None
    assert run(words[:-1]) == 0
    assert "[Make up to 20 L: that makes OG 1.0" in capsys.readouterr().out


def test_every_fault_of_a_kit_is_told_in_a_line(capsys):
    words = ["kit", "X", "--tin", "Amber", "--hop", "20 g Fuggle 300 %", "--makes", "5 kg"]
    assert run([*words, "--og", "5"]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert [line.split(":")[0] for line in lines] == ["--makes", "--tin", "--hop", "--og"]
    assert "says no amount" in lines[1]
    assert run(["kit", "X", "--makes", "20 L"]) == 1
    assert "at least one tin or bag" in capsys.readouterr().err
