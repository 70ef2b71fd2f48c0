"""What a run of the day changes about the amounts: each in proportion, and none by a leap."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.first.amounts import FLAME_OUT, Amounts
from designer.brewday.first.larder import Role
from designer.brewday.first.turning import smaller_batch, turn
from designer.brewday.time_line import Span
from tests.brewday.days import with_figures
from tests.brewday.first.larders import aim, kitchen, malt, task

PACKS = ((malt("Light dry malt extract"), 1.0),)
NO_HEATING = {"spans": ()}


def begun(of=None, where=None, **others):
    amounts = Amounts(task(of, where, **others))
    return amounts, brew(amounts.recipe())


@pytest.mark.parametrize(
    ("found", "times"),
    [(1.045, 1.0), (1.030, 1.5), (1.060, 0.75), (1.010, 2.0), (1.100, 0.5), (1.000, 2.0)],
)
def test_a_wort_of_two_thirds_takes_half_as_much_again_and_never_more_than_twice(found, times):
    amounts, day = begun()
    before = amounts.grist_kg
    turn(amounts, with_figures(day, original_gravity=found))
    assert amounts.grist_kg == pytest.approx(times * before)
    assert sum(each.kg for each in amounts.fermentables) == pytest.approx(amounts.grist_kg)


def test_no_recipe_has_more_than_eight_tenths_of_a_kilogram_for_a_litre():
    amounts, day = begun()
    amounts.grist_kg = 6.0
    turn(amounts, with_figures(day, original_gravity=1.020))
    assert amounts.grist_kg == pytest.approx(8.0)


def test_of_whole_packs_the_batch_is_made_to_fit():
    amounts, day = begun(packs=PACKS)
    amounts.batch_l = 4.0
    turn(amounts, with_figures(day, original_gravity=1.090))
    assert amounts.batch_l == pytest.approx(8.0)
    base = amounts.task.grist.shares[0][1]
    assert amounts.grist_kg == pytest.approx(1.0 / base)
    turn(amounts, with_figures(day, original_gravity=1.090))
    assert amounts.batch_l == pytest.approx(10.2)
    amounts.batch_l = 0.6
    turn(amounts, with_figures(day, original_gravity=1.020))
    assert amounts.batch_l == 0.5


def test_where_the_boil_would_be_dense_late_extract_goes_in_at_flame_out():
    amounts, day = begun()
    turn(amounts, with_figures(day, boil_gravity_end=1.114))
    assert amounts.late_when.minutes == 10.0
    turn(amounts, with_figures(day, boil_gravity_end=1.116))
    assert amounts.late_when == FLAME_OUT
    assert amounts.base[-1].when == FLAME_OUT


def test_water_fills_the_pot_to_a_decilitre_below_its_foam_line():
    """Hot it takes 4 % more room; of a pot of 9 L four fifths are filled."""
    amounts, day = begun()
    amounts.water_l = 4.0
    turn(amounts, with_figures(replace(day, **NO_HEATING), fullest_boiling_l=6.06, from_pot_l=4.0))
    assert amounts.water_l == pytest.approx(5.0)
    amounts.water_l = 4.0
    turn(amounts, with_figures(replace(day, **NO_HEATING), fullest_boiling_l=8.14, from_pot_l=4.0))
    assert amounts.water_l == pytest.approx(3.0)


def test_water_leaves_some_of_the_batch_to_be_topped_up():
    """0.3 L below the mark."""
    amounts, day = begun()
    amounts.water_l = 4.0
    turn(amounts, with_figures(replace(day, **NO_HEATING), fullest_boiling_l=2.0, from_pot_l=9.2))
    assert amounts.water_l == pytest.approx(4.5)


@pytest.mark.parametrize(("minutes", "water"), [(100.0, 4.0), (125.0, 3.2), (80.0, 4.0)])
def test_no_more_water_is_heated_than_comes_to_the_boil_in_good_time(minutes, water):
    """A hundred minutes for all heating together."""
    amounts, day = begun()
    amounts.water_l = 4.0
    spans = (
        Span("heat water", "", 0.0, 0.25 * minutes),
        Span("steep", "", 0.0, 500.0),
        Span("heat to boil", "", 10.0, 10.0 + 0.75 * minutes),
    )
    day = with_figures(replace(day, spans=spans), fullest_boiling_l=7.1, from_pot_l=4.0)
    turn(amounts, day)
    assert amounts.water_l == pytest.approx(water)


def with_ibu(day, amounts, *ibu):
    first = len(amounts.fermentables) + 1
    return with_figures(day, hop_ibu={first + n: each for n, each in enumerate(ibu)})


def test_bittering_hops_make_up_for_what_late_ones_do_not_bring():
    amounts, day = begun()
    kg = amounts.hops[0].kg
    turn(amounts, with_ibu(day, amounts, 18.0, 6.0))
    assert amounts.hops[0].kg == pytest.approx(kg * 24.0 / 18.0)
    assert amounts.hops[1].kg == pytest.approx(0.010)


def test_late_hops_bring_no_more_than_two_fifths_of_the_bitterness():
    """Three fifths where the beer is hopped dry."""
    amounts, day = begun()
    kg = amounts.hops[0].kg
    turn(amounts, with_ibu(day, amounts, 18.0, 24.0))
    assert amounts.hops[1].kg == pytest.approx(0.005)
    assert amounts.hops[0].kg == pytest.approx(kg)
    amounts, day = begun(aim(dry_hopped=True))
    kg = amounts.hops[0].kg
    turn(amounts, with_ibu(day, amounts, 6.0, 24.0))
    assert amounts.hops[1].kg == pytest.approx(0.0075)
    assert amounts.hops[0].kg == pytest.approx(2.0 * kg)
    assert amounts.hops[2].kg == pytest.approx(0.015)
    assert amounts.hops[2].role is Role.DRY


def test_hops_that_bring_nothing_are_left_alone_and_none_is_more_than_twelve_grams_a_litre():
    amounts, day = begun()
    kg = amounts.hops[0].kg
    turn(amounts, with_ibu(day, amounts, 0.0, 0.0))
    assert [each.kg for each in amounts.hops] == pytest.approx([kg, 0.010])
    amounts.hops[0].kg = 0.1
    turn(amounts, with_ibu(day, amounts, 10.0, 0.0))
    assert amounts.hops[0].kg == pytest.approx(0.12)


def test_a_boil_that_would_end_denser_than_1150_is_one_for_less_beer():
    amounts, day = begun(batch_l=10.0)
    smaller_batch(amounts, with_figures(day, boil_gravity_end=1.149))
    assert amounts.batch_l == 10.0
    kg, hops = amounts.grist_kg, [each.kg for each in amounts.hops]
    smaller_batch(amounts, with_figures(day, boil_gravity_end=1.200))
    assert amounts.batch_l == 7.5
    assert amounts.grist_kg == pytest.approx(0.75 * kg)
    assert [each.kg for each in amounts.hops] == pytest.approx([0.75 * each for each in hops])
    smaller_batch(amounts, with_figures(day, boil_gravity_end=1.900))
    assert amounts.batch_l == pytest.approx(3.7)


def quiet(day, **figures):
    """A day whose pot carries its bitterness."""
    return with_figures(
        day, boil_gravity_end=1.060, from_pot_l=5.0, batch_l=10.0, undissolved_ibu=0.0, **figures
    )


def test_a_batch_that_nobody_asked_for_is_no_larger_than_the_pot_has_bitterness_for():
    """100 IBU dissolve at most, 97 of them are counted on: 80 IBU from half of the beer are 160."""
    amounts, day = begun(aim(ibu=80.0))
    smaller_batch(amounts, quiet(day))
    assert amounts.batch_l == pytest.approx(6.0)
    amounts, day = begun(aim(ibu=80.0), batch_l=10.0)
    smaller_batch(amounts, quiet(day))
    assert amounts.batch_l == 10.0
    amounts, day = begun(aim(ibu=48.0))
    smaller_batch(amounts, quiet(day))
    assert amounts.batch_l == 10.0
    amounts, day = begun(aim(ibu=150.0))
    smaller_batch(amounts, quiet(day))
    assert amounts.batch_l == pytest.approx(5.0)
    amounts.batch_l = 5.1
    smaller_batch(amounts, quiet(day))
    assert amounts.batch_l == 5.1


def test_a_batch_is_made_smaller_a_little_where_hops_nearly_do_not_dissolve():
    """From four fifths of what is said on: 8 % of the bitterness."""
    amounts, day = begun()
    smaller_batch(amounts, with_figures(quiet(day), undissolved_ibu=2.3))
    assert amounts.batch_l == 10.0
    smaller_batch(amounts, with_figures(quiet(day), undissolved_ibu=2.5))
    assert amounts.batch_l == 9.0
    packs, day = begun(packs=PACKS)
    before = packs.batch_l
    smaller_batch(packs, with_figures(quiet(day), undissolved_ibu=2.5))
    assert packs.batch_l == before


def test_a_pot_that_gives_next_to_nothing_is_no_fault():
    amounts, day = begun(where=kitchen(5.0, 12.0))
    smaller_batch(amounts, with_figures(quiet(day), from_pot_l=0.0))
    assert amounts.batch_l >= 1.0
