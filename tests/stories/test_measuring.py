"""Whoever measures one thing better sees a narrower range, as it is printed.

Typed as a brewer types it, with its give or take. The figures before and after are Hobwort's own;
what is asked is that they differ, by the share that stands beside each.
"""

import pytest

from designer.brewday.instrument import reading_range
from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import BY_KEY
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.resource_files import resource_path

BITTER = resource_path("examples") / "slipway_bitter.hobwort"


def recipe_with(typed):
    recipe = load(BITTER)
    for place, text in typed.items():
        recipe = set_field(recipe, place, text)
    return recipe


def printed(key, ends):
    return tuple(f"{end:.{BY_KEY[key].decimals}f}" for end in ends)


# what was known before, what is measured, the forecast, most of its width that is left
MEASURED = {
    "small hops weighed to 1 g and not by eye": (
        {"hops.1.amount": "6 g ± 3 g"}, {"hops.1.amount": "6 g ± 1 g"}, "bitterness_ibu", 0.82),
    "hops weighed to 0.1 g": (
        {"hops.1.amount": "6 g"}, {"hops.1.amount": "6 g ± 0.1 g"}, "bitterness_ibu", 0.93),
    "the packet's alpha acid": (
        {"hops.1.alpha": "8 % (5-11 %)"}, {"hops.1.alpha": "8 % ± 0.3 %"}, "bitterness_ibu", 0.76),
    "the fermenter weighed": (
        {}, {"process.top_up_to": "10 L ± 0.05 L"}, "original_gravity", 0.80),
    "own marks": (
        {}, {"fermenter.marks": "own, set by weighing"}, "original_gravity", 0.80),
    "what stays in the pot": (
        {}, {"process.left_in_pot": "0.3 L ± 0.05 L"}, "original_gravity", 0.80),
    "what the yeast did before": (
        {}, {"yeast.attenuation": "77 % ± 1.5 %"}, "final_gravity", 0.75),
}  # fmt: skip


@pytest.mark.parametrize("what", MEASURED)
def test_what_is_measured_narrows_the_range_as_it_is_printed(what):
    before, after, key, most = MEASURED[what]
    guess, sure = (
        look_ahead(recipe_with(typed)).forecasts[key] for typed in (before, {**before, **after})
    )
    assert sure.high - sure.low <= most * (guess.high - guess.low)
    assert printed(key, (sure.low, sure.high)) != printed(key, (guess.low, guess.high))


@pytest.mark.parametrize("key", ["original_gravity", "final_gravity"])
def test_a_hydrometer_that_was_floated_in_water_is_expected_to_show_less_apart(key):
    ends = []
    for typed in ({}, {"process.hydrometer_in_water": "1.000 ± 0.0005"}):
        recipe = recipe_with(typed)
        low, high = reading_range(look_ahead(recipe).forecasts[key], recipe.process)
        ends.append(high - low)
    guess, sure = ends
    assert sure <= guess - 0.001
