"""`hobwort styles`: the nearest styles, bringing a recipe into one, and what is refused."""

import json

import pytest

from designer.command_line import run
from designer.library.sources import STYLE_NUMBERS
from designer.resource_files import resource_path

BITTER = str(resource_path("examples/slipway_bitter.hobwort"))


@pytest.fixture
def said(capsys):
    """Run the command and return its exit code, its output and its complaints."""

    def run_and_read(*words):
        code = run(words)
        out, err = capsys.readouterr()
        return code, out, err

    return run_and_read


def test_the_nearest_styles_are_printed_with_what_keeps_the_beer_out(said):
    code, out, err = said("styles", BITTER)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert "11B  Best Bitter               just inside" in lines[2]
    assert "7B  Altbier                    just outside: original gravity 0.002 too low" in out
    assert len([line for line in lines if line.startswith("  ")]) == 6
    assert STYLE_NUMBERS in out
    document = json.loads(said("styles", BITTER, "--json", "--all")[1])
    assert document["chosen"]["code"] == "11B"
    assert len(document["nearest"]) == 71
    alt = next(each for each in document["nearest"] if each["code"] == "7B")
    assert alt["keeps_out"] == [
        {"forecast": "original_gravity", "value": 1.042, "low": 1.044, "high": 1.052, "by": -0.002}
    ]


def test_a_recipe_brought_in_is_written_and_lies_in_the_style(said, tmp_path):
    out = tmp_path / "alt.hobwort"
    code, told, _ = said("styles", BITTER, "--bring-in", "7B", "-o", str(out))
    assert code == 0
    assert told.startswith("Brings it into Altbier: ")
    found = json.loads(said("styles", str(out), "--json")[1])["chosen"]
    assert (found["name"], found["inside"], found["keeps_out"]) == ("Altbier", True, [])
    code, _, err = said("styles", BITTER, "--bring-in", "7B", "-o", str(out))
    assert code == 1
    assert "is there already" in err


def test_a_style_out_of_reach_or_unknown_is_refused_and_nothing_written(said, tmp_path):
    out = tmp_path / "stout.hobwort"
    code, told, err = said("styles", BITTER, "--bring-in", "Imperial Stout", "-o", str(out))
    assert (code, told) == (1, "")
    assert err.startswith("No change of amounts, times or water brings it into Imperial Stout. ")
    assert not out.exists()
    code, _, err = said("styles", BITTER, "--bring-in", "Harbour Fog")
    assert code == 1
    assert "no style called “Harbour Fog”" in err
    assert said("styles", BITTER, "-o", str(out))[0] == 2


def test_the_forecast_says_once_that_the_chosen_style_is_missed_and_what_brings_it_in(said):
    words = ("forecast", BITTER, "--set", "style=Strong Bitter")
    out = said(*words)[1]
    assert out.count("Strong Bitter") == 1
    assert "note: Outside Strong Bitter: original gravity 1.042 is below 1.048" in out
    assert "[Bring it in: top-up mark 10 L to " in out
    document = json.loads(said(*words, "--json")[1])
    (missed,) = [each for each in document["watch_out"] if each["code"] == "style-missed"]
    assert missed["severity"] == "note"
    assert missed["leads_to"] == "styles"
    assert missed["fix"].startswith("Bring it in: ")
    assert document["styles"]["nearest"][0]["name"] == "Best Bitter"
