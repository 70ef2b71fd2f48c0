"""How far a beer is from the original, weight by weight, and what counts as held.

The weights and the differences that nobody can tell are those of the docstrings: a judgement and
common practice, no source. Here each is asked for alone, with the day's numbers put where they are
easy to reckon with.
"""

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.original import apart, apart_day, original_of, over_ceiling_ibu
from designer.brewday.outlook import look_ahead
from tests.brewday.days import with_figures


@pytest.fixture(scope="module")
def day(porter):
    return with_figures(
        brew(porter), original_gravity=1.050, bitterness_ibu=40.0, colour_srm=20.0, batch_l=20.0
    )


def off(day, og=0.0, ibu=0.0, srm=0.0, share=1.0, over=0.0):
    return apart(
        day,
        {
            "original_gravity": day.beer.original_gravity + og,
            "bitterness_ibu": day.beer.bitterness_ibu + ibu,
            "colour_srm": day.beer.colour_srm + srm,
        },
        share * day.fermenter.batch_l,
        over,
    )


def test_the_same_beer_is_not_apart(day):
    assert off(day) == 0.0


@pytest.mark.parametrize("sign", [1, -1])
def test_what_nobody_can_tell_counts_nothing(day, sign):
    """A point of gravity, an IBU, half an SRM: common practice, no source."""
    assert off(day, og=sign * 0.001, ibu=sign * 1.0, srm=sign * 0.5, share=0.97) == 0.0


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize("times", [1, 3])
def test_each_weight_counts_one_beyond_what_can_be_told(day, sign, times):
    assert off(day, og=sign * (0.001 + 0.002 * times)) == times
    assert off(day, ibu=sign * (1.0 + 4.0 * times)) == times  # a tenth of 40 IBU
    assert off(day, srm=sign * (0.5 + 2.0 * times)) == times


def test_a_mild_beer_is_not_judged_more_finely_than_by_two_ibu(day):
    mild = with_figures(day, bitterness_ibu=5.0)
    assert off(mild, ibu=3.0) == 1.0
    assert off(with_figures(day, bitterness_ibu=30.0), ibu=4.0) == 1.0


def test_a_third_of_the_volume_counts_one_and_a_larger_batch_counts_nothing(day):
    assert off(day, share=0.97 - 1.0 / 3.0) == 1.0
    assert off(day, share=0.97 - 2.0 / 3.0) == 2.0
    assert off(day, share=2.0) == 0.0


def test_bitterness_beyond_what_a_pot_carries_counts_one_for_25_ibu(day):
    assert off(day, over=25.0) == 1.0
    assert off(day, over=50.0) == 2.0
    assert off(day, over=-50.0) == 0.0


def test_all_that_differs_is_added_up(day):
    assert off(day, og=0.003, ibu=-5.0, srm=2.5, share=0.97 - 1.0 / 3.0, over=25.0) == 5.0


def test_a_difference_is_rounded_to_a_tenth_so_that_effort_decides_among_equals(day):
    assert off(day, srm=0.5 + 0.32) == 0.2
    assert off(day, srm=0.5 + 0.06) == 0.0


def test_a_pot_carries_a_hundred_ibu_or_what_the_recipe_itself_boils(day):
    """100 IBU: common practice, no source. A strong recipe is no other beer as it is written."""
    mild, strong = (with_figures(day, pot_ibu=each) for each in (60.0, 150.0))
    assert over_ceiling_ibu(mild, 125.0) == 25.0
    assert over_ceiling_ibu(strong, 125.0) == -25.0
    assert apart_day(mild, with_figures(mild, pot_ibu=125.0)) == 1.0
    assert apart_day(strong, with_figures(strong, pot_ibu=125.0)) == 0.0
    weak = with_figures(
        mild, original_gravity=1.043, bitterness_ibu=35.0, colour_srm=22.5, batch_l=9.4
    )
    assert apart_day(mild, weak) == 3.0 + 1.0 + 1.0 + 1.5


def test_half_of_what_can_be_told_counts_as_held(porter):
    original = original_of(porter)
    assert original.day.beer.original_gravity - original.least_gravity == pytest.approx(0.0005)
    assert original.most_ibu - original.day.beer.bitterness_ibu == pytest.approx(0.5)


def test_the_original_is_the_recipe_s_own_day_and_outlook(porter):
    original = original_of(porter)
    outlook = look_ahead(porter)
    assert original.recipe is porter
    assert original.batch_l == outlook.day.fermenter.batch_l == brew(porter).fermenter.batch_l
    assert {key: each.value for key, each in original.forecasts.items()} == {
        key: each.value for key, each in outlook.forecasts.items()
    }
