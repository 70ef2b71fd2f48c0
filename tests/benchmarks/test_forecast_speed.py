"""How fast a keystroke is answered, beside one plain-Python run of the same model.

    python -m pytest tests/benchmarks --benchmark-only

Each recipe is timed as a whole forecast (day, ranges, causes, findings and their cures) and as one
day run with plain floats; the last line of each says how many plain runs a whole forecast costs.
The bound for forty lines is 8 ms median on an otherwise idle machine; compare ratios elsewhere.
"""

import statistics
import time
from dataclasses import replace

import pytest

from designer.brewday.day import run_day
from designer.brewday.measured.expecting import expected
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.brewday.tolerances import SAMPLES, Nominal


@pytest.fixture(params=["porter", "forty_lines"])
def recipe(request):
    return request.getfixturevalue(request.param)


def plain_run(recipe):
    return run_day(recipe, Nominal(), noting=False)[0]


@pytest.mark.benchmark(group="forecast")
def test_a_whole_forecast(benchmark, recipe):
    look_ahead(recipe)  # the columns of the samples are kept from one keystroke to the next
    outlook = benchmark(look_ahead, recipe)
    assert outlook.forecasts["bitterness_ibu"].causes


@pytest.mark.benchmark(group="forecast")
def test_a_forecast_without_ranges(benchmark, recipe):
    outlook = benchmark(look_ahead, recipe, ranges=False)
    assert outlook.day.moments


@pytest.mark.benchmark(group="forecast")
def test_one_plain_run(benchmark, recipe):
    assert benchmark(plain_run, recipe).beer.original_gravity > 1.0


@pytest.mark.benchmark(group="forecast")
def test_a_forecast_after_six_readings(benchmark, recipe):
    outlook = benchmark(day_measured, recipe, six_readings(recipe))
    assert outlook.forecasts["bitterness_ibu"].causes


def six_readings(recipe):
    """What is forecast, as if it had been read so."""
    planned = look_ahead(recipe)
    kinds = {
        Measured.WATER_IN: By.MARK,
        Measured.BOIL_START_VOLUME: By.DIPSTICK,
        Measured.BOIL_END_VOLUME: By.DIPSTICK,
        Measured.BOIL_END_GRAVITY: By.HYDROMETER,
        Measured.INTO_FERMENTER: By.MARK,
        Measured.ORIGINAL_GRAVITY: By.HYDROMETER,
    }
    blanks = [Reading(what, 0.0, by) for what, by in kinds.items()]
    return [replace(blank, value=expected(planned, blank).value) for blank in blanks]


def median_ms(work, times=60):
    took = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        took.append(1000.0 * (time.perf_counter() - start))
    return statistics.median(took)


def test_samples_are_run_at_once_and_not_one_by_one(recipe, capsys):
    """Interleaved medians, so that both meet the same machine."""
    look_ahead(recipe)
    pairs = [
        (median_ms(lambda: look_ahead(recipe), 10), median_ms(lambda: plain_run(recipe), 10))
        for _ in range(8)
    ]
    whole, plain = (statistics.median(each) for each in zip(*pairs, strict=True))
    with capsys.disabled():
        print(  # noqa: T201 - what the benchmark is for
            f"\n{recipe.name}: whole forecast {whole:.2f} ms, one plain run {plain:.2f} ms, "
            f"ratio {whole / plain:.1f}; {SAMPLES} plain runs would take {SAMPLES * plain:.0f} ms"
        )
    assert whole < 0.2 * SAMPLES * plain
