"""How warm a first recipe is pitched, with how much yeast, and how long it ferments.

Judgement and common practice, no source; a dry packet holds 11 g.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.first.amounts import Amounts
from designer.brewday.first.fermenting import cooled, pitching_c, time_for, with_yeast
from designer.recipe.document import Yeast
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.wort.pitching import LARGEST_PACKET_G
from tests.brewday.days import with_figures
from tests.brewday.first.larders import task


def yeast(low=None, high=None):
    ends = {"lowest": low, "highest": high}
    return Yeast(**{
        key: typed(Kind.TEMPERATURE, each) for key, each in ends.items() if each is not None
    })  # fmt: skip


@pytest.mark.parametrize(
    ("low", "high", "tap", "pitch"),
    [
        (15.0, 25.0, 10.0, 19.0),
        (16.0, 21.0, 10.0, 18.0),
        (10.0, 14.0, 5.0, 12.0),
        (10.0, 14.0, 11.0, 13.0),
        (10.0, 14.0, 20.0, 14.0),
        (16.0, 22.0, 17.5, 20.0),
    ],
)
def test_it_is_pitched_two_fifths_up_and_two_degrees_above_the_tap(low, high, tap, pitch):
    assert pitching_c(yeast(low, high), tap) == pitch


def test_a_yeast_of_which_nothing_is_known_is_pitched_at_nineteen():
    assert pitching_c(yeast(), 5.0) == 19.0
    assert pitching_c(yeast(low=10.0), 5.0) == 19.0
    assert pitching_c(yeast(high=30.0), 5.0) == 19.0


@pytest.mark.parametrize(
    ("pitch", "og", "days"),
    [
        (19.0, 1.050, 14),
        (19.0, 1.070, 14),
        (19.0, 1.071, 21),
        (15.0, 1.050, 14),
        (14.9, 1.050, 28),
        (12.0, 1.090, 28),
    ],
)
def test_strong_beer_takes_three_weeks_and_cool_beer_four(pitch, og, days):
    found = time_for(pitch, og)
    assert (found.text, found.value) == (f"{days} d", days * 24.0 * 60.0)


@pytest.fixture
def brewed():
    recipe = Amounts(task()).recipe()
    return recipe, brew(recipe)


@pytest.mark.parametrize(
    ("packets_wanted", "packets"), [(0.1, 1), (1.0, 1), (1.04, 1), (1.06, 2), (2.3, 3)]
)
def test_yeast_comes_in_whole_packets_and_a_twentieth_is_not_worth_another(
    brewed, packets_wanted, packets
):
    recipe, day = brewed
    day = with_figures(day, yeast_wanted_g=packets_wanted * LARGEST_PACKET_G)
    found = with_yeast(recipe, day).yeast.amount
    assert (found.value, found.unit) == (11.0 * packets, "g")
    liquid = replace(recipe, yeast=replace(recipe.yeast, form="liquid"))
    found = with_yeast(liquid, day).yeast.amount
    assert (found.value, found.unit) == (packets, "packet" if packets == 1 else "packets")


def test_what_would_be_pitched_too_warm_gets_some_of_its_top_up_frozen(brewed):
    recipe, day = brewed
    assert cooled(recipe, with_figures(day, mixed_c=21.0), 18.0) is recipe
    assert cooled(recipe, with_figures(day, mixed_c=15.0), 18.0) is recipe
    warm = replace(
        recipe, process=replace(recipe.process, tap_temperature=typed(Kind.TEMPERATURE, 26.0))
    )
    after = cooled(warm, brew(warm), 18.0)
    assert after.process.frozen_top_up.value > 0.1
    assert float(brew(after).fermenter.mixed_c) < 21.0
