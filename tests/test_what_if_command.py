"""`hobwort forecast --what-if`: variants side by side, in words and as numbers; what is refused."""

import json

import pytest

from designer.brewday.outlook import look_ahead
from designer.command_line import run
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.resource_files import resource_path

BITTER = resource_path("examples/slipway_bitter.hobwort")
SHORT = ("--what-if", "process.boil_time=45 min")
DARK = ("--what-if", "fermentables.4.amount=300 g", "hops.1.amount=20 g")
THIN = ("--what-if", "process.top_up_to=11.5 L")


@pytest.fixture
def said(capsys):
    """Run the command and return its exit code, its output and its complaints."""

    def run_and_read(*words):
        code = run(("forecast", str(BITTER), *words))
        out, err = capsys.readouterr()
        return code, out, err

    return run_and_read


def test_three_variants_stand_beside_the_recipe_with_what_differs_and_what_comes_of_it(said):
    code, out, err = said(*SHORT, *DARK, *THIN, "--colour", "srm")
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[2:5] == [
        "A  Boil for: 45 min, not 60 min",
        "B  Crystal malt 80 °L: 300 g, not 150 g; Northdown: 20 g, not 13 g",
        "C  Top-up mark: 11.5 L, not 10 L",
    ]
    rows = {line[2:24].strip(): line[24:].split() for line in lines[6:] if line[2:24].strip()}
    assert rows["Original gravity"] == ["1.042", "1.043", "1.044", "1.037"]
    assert rows["Bitterness"][::2] == ["28", "27", "37", "24"]
    assert rows["Colour"][::2] == ["9", "9", "13", "8"]
    assert len(lines) < 25
    assert max(map(len, lines)) <= 100
    assert "little room for" in out
    assert "krausen" in out


def test_as_numbers_a_variant_is_the_forecast_of_the_recipe_so_changed(said):
    code, out, _ = said(*SHORT, "--json")
    assert code == 0
    document = json.loads(out)
    (variant,) = document["what_if"]
    fresh = look_ahead(set_field(load(BITTER), "process.boil_time", "45 min"))
    for key, found in fresh.forecasts.items():
        assert variant["forecasts"][key]["value"] == pytest.approx(found.value)
        assert variant["forecasts"][key]["low"] == pytest.approx(found.low)
    assert variant["differs"] == [{"what": "Boil for", "before": "60 min", "after": "45 min"}]
    assert (
        document["original_gravity"]["value"] != variant["forecasts"]["original_gravity"]["value"]
    )


def test_what_cannot_be_tried_is_refused_with_its_place_and_all_at_once(said):
    code, out, err = said("--what-if", "process.boil_time=45 lb", "--what-if", "hops.9.amount=2 g")
    assert (code, out) == (1, "")
    first, second = err.splitlines()
    assert first.startswith("--what-if process.boil_time: “45 lb” is not a time")
    assert second == "--what-if hops.9.amount: hops has 3 lines, counted from 1"
    code, _, err = said(*SHORT, *SHORT, *SHORT, *SHORT)
    assert code == 2
    assert err == "--what-if may be given 3 times at most.\n"
