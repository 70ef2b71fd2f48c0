"""Ranges from a few hundred samples are those of many thousands, on every machine."""

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from designer.brewday.day import brew, brew_samples
from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.sampling import samples_for
from designer.brewday.sensitivity import ranges_and_causes
from designer.brewday.tolerances import SAMPLES
from designer.library.recipe_file import load
from designer.recipe.document import Hop
from tests.some_cases import some_of

EXAMPLES = sorted((Path(__file__).parents[2] / "resources" / "examples").glob("*.hobwort"))
MANY = 50 * SAMPLES


def ends_of_many(recipe):
    """Plain percentiles of a run fifty times larger, nothing steadied."""
    day, _ = brew_samples(recipe, MANY)
    return {each.key: np.percentile(np.asarray(each.compute(day)), (5, 95)) for each in PREDICTIONS}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_low_and_high_are_those_of_a_run_fifty_times_larger(path):
    recipe = load(path)
    found = look_ahead(recipe).forecasts
    for key, (low, high) in ends_of_many(recipe).items():
        tolerance = 0.03 * (high - low)
        assert found[key].low == pytest.approx(low, abs=tolerance), key
        assert found[key].high == pytest.approx(high, abs=tolerance), key


@pytest.mark.parametrize("path", some_of(EXAMPLES, 2), ids=lambda path: path.stem)
def test_causes_are_those_of_a_run_fifty_times_larger(path):
    recipe = load(path)
    found = look_ahead(recipe).forecasts
    day, tolerances = brew_samples(recipe, MANY)
    values = {each.key: float(each.compute(brew(recipe))) for each in PREDICTIONS}
    sampled = {each.key: each.compute(day) for each in PREDICTIONS}
    many = ranges_and_causes(values, sampled, tolerances, MANY)
    for key, forecast in many.items():
        shares = {cause.key: cause.share for cause in found[key].causes}
        for cause in forecast.causes:
            assert shares.get(cause.key, 0.0) == pytest.approx(cause.share, abs=0.03), key


def test_a_long_recipe_is_sampled_more_often_than_it_has_inputs(harbour_porter, kitchen):
    hops = tuple(
        replace(
            harbour_porter.hops[0], name=f"Hop {i}", line_id=100 + i, amount=kitchen.q(0.001, "kg")
        )
        for i in range(90)
    )
    long = replace(harbour_porter, hops=hops)
    assert samples_for(harbour_porter) == SAMPLES
    _, tolerances = brew_samples(long, 8)
    assert 2 * len(tolerances) <= samples_for(long) == 2 * SAMPLES
    malts = tuple(
        replace(harbour_porter.fermentables[0], name=f"Malt {i}", line_id=200 + i)
        for i in range(20)
    )
    assert samples_for(replace(harbour_porter, fermentables=malts)) == SAMPLES
    _, tolerances = brew_samples(replace(long, fermentables=malts), 8)
    assert 2 * len(tolerances) > 2 * SAMPLES
    assert samples_for(replace(long, fermentables=malts)) == 4 * SAMPLES
    assert samples_for(replace(long, fermentables=3 * malts)) == 4 * SAMPLES
    causes = look_ahead(long).forecasts["bitterness_ibu"].causes
    assert "bitterness model" in {cause.key for cause in causes}
    assert 0.5 < sum(cause.share for cause in causes) <= 1.0


def test_a_forecast_without_doubt_has_no_width(kitchen):
    recipe = kitchen.recipe(hops=(Hop("A"),))
    forecast = look_ahead(recipe).forecasts["final_gravity"]
    assert forecast.low == forecast.value == forecast.high == 1.0
    assert forecast.causes == ()


def test_two_fresh_interpreters_give_the_same_range_to_the_last_digit():
    code = (
        "import json, sys\n"
        "from pathlib import Path\n"
        "from designer.brewday.outlook import look_ahead\n"
        "from designer.library.recipe_file import load\n"
        "found = look_ahead(load(Path(sys.argv[1]))).forecasts\n"
        "print(json.dumps({key: [x.low.hex(), x.high.hex(), [[c.key, c.share.hex()] for c in "
        "x.causes]] for key, x in found.items()}))\n"
    )
    answers = [
        subprocess.run(
            [sys.executable, "-c", code, str(path)],
            check=True,
            capture_output=True,
            text=True,
            env={"PYTHONHASHSEED": seed, "PATH": ""},
        ).stdout
        for path in EXAMPLES[:2]
        for seed in ("1", "2")
    ]
    assert answers[0] == answers[1]
    assert answers[2] == answers[3]
    assert json.loads(answers[0]) != json.loads(answers[2])
