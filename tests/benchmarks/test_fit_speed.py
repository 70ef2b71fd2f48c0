"""How fast all ways to fit a recipe are found, beside one plain-Python run of the day.

    python -m pytest tests/benchmarks/test_fit_speed.py --benchmark-only

The bound, 100 ms median for all ways of one pot and fermenter, is held on a two-core desktop
machine of about 2020. Time of the processor is counted, so that other work on it does not count.
"""

import statistics
import time
from dataclasses import replace
from pathlib import Path

import pytest

from designer.brewday.day import run_day
from designer.brewday.fit.changed_recipe import forget_days
from designer.brewday.fit.scaling import scale
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import HopInHand, wish_for
from designer.brewday.tolerances import Nominal
from designer.library.recipe_file import load
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from tests.benchmarks.figures import note

MAGNUM = HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.05)
MOST_MS = 100.0
EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
KITCHENS = {
    "the locked kit": ("breakwater_red", 9.0, 12.0, {}),
    "the locked kit, frozen water": ("breakwater_red", 9.0, 12.0, {"most_frozen_kg": 3.0}),
    "the porter in a tiny pot": ("harbour_lamp_porter", 5.0, 12.0, {}),
    "the wheat beer, hops in hand": (
        "foghorn_wheat",
        7.0,
        23.0,
        {
            "hops_in_hand": (HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.05),),
            "most_frozen_kg": 3.0,
        },
    ),
    "nothing works": ("breakwater_red", 2.0, 25.0, {}),
}


@pytest.fixture(params=KITCHENS)
def kitchen(request):
    name, pot, fermenter, changes = KITCHENS[request.param]
    recipe = load(EXAMPLES / f"{name}.hobwort")
    return recipe, replace(wish_for(recipe, pot, (fermenter,)), **changes)


def ways_anew(recipe, wish):
    """All ways, with no day that another search has left."""
    forget_days()
    return ways(recipe, wish)


@pytest.mark.benchmark(group="fit")
def test_all_ways(benchmark, kitchen):
    ways(*kitchen)
    assert benchmark(ways_anew, *kitchen).sentence.text


@pytest.mark.benchmark(group="fit")
def test_scaling(benchmark, kitchen):
    recipe, _ = kitchen
    assert benchmark(scale, recipe, 8.0).recipe.fermentables


def median_ms(work, times):
    took = []
    for _ in range(times):
        start = time.process_time()
        work()
        took.append(1000.0 * (time.process_time() - start))
    return statistics.median(took)


def test_all_ways_stay_within_the_bound(kitchen, capsys):
    recipe, wish = kitchen
    ways(recipe, wish)
    whole = median_ms(lambda: ways_anew(recipe, wish), 15)
    plain = median_ms(lambda: run_day(recipe, Nominal(), noting=False), 40)
    note(f"fit, all ways: {recipe.name}, {wish.pot.name}", whole, "ms", bound=MOST_MS)
    with capsys.disabled():
        print(  # noqa: T201 - what the benchmark is for
            f"\n{recipe.name}, {wish.pot.name}: all ways {whole:.0f} ms, one plain run "
            f"{plain:.2f} ms, ratio {whole / plain:.0f}"
        )
    assert whole <= MOST_MS
