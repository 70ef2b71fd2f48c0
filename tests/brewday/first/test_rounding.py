"""Amounts rounded to what a kitchen weighs: gravity, shares and bitterness are put right after it.

In metric steps: extract in 25 g, from 2.5 kg on in 50 g; grain in 5 g, from 50 g on in 10, from
200 g on in 25; hops in half grams, from 8 g on in grams; water in decilitres.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.first.amounts import Amounts
from designer.brewday.first.larder import Role
from designer.brewday.first.rounding import (
    _beyond,
    _bittered,
    _kept_in_shares,
    _nearer,
    _round,
    _too_full,
    _with_base,
    rounded,
)
from tests.brewday.days import with_figures
from tests.brewday.first.larders import aim, kitchen, malt, task


def is_whole(value, step):
    return value / step == pytest.approx(round(value / step), abs=1e-6)


def begun(of=None, where=None, **others):
    return Amounts(task(of, where, **others))


def with_crystal(*kg):
    """1.3 kg of base in two parts, and crystal malts."""
    amounts = begun()
    amounts.base[0].kg, amounts.base[1].kg = 0.7, 0.6
    (crystal,) = (each for each in amounts.others if each.role is Role.CRYSTAL)
    amounts.others = [replace(crystal, kg=each) for each in kg]
    return amounts


def test_all_is_weighed_in_steps_and_water_measured_down():
    amounts = begun(aim(srm=20.0, fg=1.006))
    amounts.water_l, amounts.batch_l = 5.57, 9.77
    amounts.hops[0].kg, amounts.hops[1].kg = 0.0208, 0.0063
    amounts.others[0].kg, amounts.others[1].kg, amounts.others[2].kg = 0.221, 0.156, 0.0432
    amounts.base[0].kg = 0.637
    _round(amounts)
    assert (amounts.water_l, amounts.batch_l) == pytest.approx((5.5, 9.8))
    assert [each.kg for each in amounts.hops] == pytest.approx([0.021, 0.0065])
    assert [each.kg for each in amounts.others] == pytest.approx([0.225, 0.16, 0.045])
    assert amounts.base[0].kg == pytest.approx(0.625)


def test_what_goes_in_beside_the_base_is_weighed_like_it():
    amounts = begun()
    amounts.others[0].role = Role.BESIDE
    amounts.others[0].kg = 0.156
    _round(amounts)
    assert amounts.others[0].kg == pytest.approx(0.15)


def test_a_batch_that_was_asked_for_stays_as_it_is_and_no_other_is_larger_than_the_fermenter():
    asked = begun(batch_l=9.77)
    _round(asked)
    assert asked.batch_l == 9.77
    full = begun(where=kitchen(9.0, 11.84))  # 10.064 L with room for krausen
    full.batch_l = 10.064
    _round(full)
    assert full.batch_l == pytest.approx(10.0)
    packs = begun(batch_l=9.77, packs=((malt("Light dry malt extract"), 1.0),))
    _round(packs)
    assert packs.batch_l == pytest.approx(9.8)


def test_a_tin_that_is_put_in_in_two_parts_is_used_whole():
    tin = malt("Light dry malt extract")
    amounts = begun(packs=((tin, 1.013),))
    assert len(amounts.base) == 2
    _round(amounts)
    assert is_whole(amounts.base[0].kg, 0.025)
    assert sum(each.kg for each in amounts.base) == pytest.approx(1.013)
    two = begun(packs=((tin, 0.513), (malt("Wheat dry malt extract"), 0.237)))
    _round(two)
    assert [each.kg for each in two.base] == pytest.approx([0.525, 0.237])


@pytest.mark.parametrize(
    ("kg", "left"),
    [(0.20, 0.20), (0.05, 0.06), (0.30, 0.275), (0.048, 0.053), (0.002, 0.007)],
)
def test_a_step_is_taken_off_or_put_on_where_rounding_has_left_the_usual_shares(kg, left):
    """From 5 to 15 % of crystal malt are usual, of about 1.4 kg."""
    amounts = with_crystal(kg)
    assert _kept_in_shares(amounts) is (kg != left)
    assert amounts.others[0].kg == pytest.approx(left)


def test_the_end_of_the_usual_shares_is_usual():
    amounts = with_crystal(0.1)
    amounts.base[0].kg, amounts.base[1].kg = 0.95, 0.95
    assert not _kept_in_shares(amounts)
    amounts.others[0].kg = 0.0001
    assert _kept_in_shares(amounts)
    assert amounts.others[0].kg == pytest.approx(0.0051)


def test_of_several_of_a_role_the_larger_one_is_changed():
    amounts = with_crystal(0.06, 0.25)
    assert _kept_in_shares(amounts)
    assert [each.kg for each in amounts.others] == pytest.approx([0.06, 0.225])


@pytest.mark.parametrize(
    ("figures", "off"),
    [
        ({"original_gravity": 1.045, "abv_percent": 4.5}, 0.0),
        ({"original_gravity": 1.040, "abv_percent": 5.0}, 0.0),
        ({"original_gravity": 1.035, "abv_percent": 4.5}, 0.5),
        ({"original_gravity": 1.055, "abv_percent": 5.5}, 1.0),
        ({"original_gravity": 1.045, "abv_percent": 3.0}, 1.0),
    ],
)
def test_how_far_a_beer_is_out_of_its_ranges_is_counted_in_their_widths(figures, off):
    bands = {
        "original_gravity": (1.040, 1.050),
        "abv_percent": (4.0, 5.0),
        "colour_srm": (1.0, 2.0),
    }
    amounts = begun(aim(bands=bands))
    day = with_figures(brew(amounts.recipe()), **figures)
    assert _beyond(amounts, day) == pytest.approx(off)


@pytest.mark.parametrize(
    ("fullest", "batch", "full"),
    [(7.2, 10.0, False), (7.21, 10.0, True), (6.0, 10.02, False), (6.0, 10.03, True)],
)
def test_a_pot_is_too_full_above_its_foam_line_or_with_more_wort_than_the_batch(
    fullest, batch, full
):
    """A pot of 9 L is filled to 7.2, and nobody sees two hundredths of a litre."""
    amounts = begun()
    day = with_figures(brew(amounts.recipe()), fullest_boiling_l=fullest, batch_l=batch)
    assert _too_full(amounts, day) is full


def test_bittering_hops_are_weighed_for_what_is_missing_in_whole_steps():
    amounts = begun()
    amounts.hops[0].kg = 0.015
    day = _bittered(amounts, brew(amounts.recipe()))
    assert is_whole(amounts.hops[0].kg, 0.001)
    off = abs(float(day.beer.bitterness_ibu) - 30.0)
    for other in (-0.001, 0.001):
        amounts.hops[0].kg += other
        assert off <= abs(float(brew(amounts.recipe()).beer.bitterness_ibu) - 30.0) + 0.05
        amounts.hops[0].kg -= other
    assert day == brew(amounts.recipe())


def test_hops_that_are_weighed_right_are_left_and_no_more_than_doubled_in_one_turn():
    amounts = begun()
    right = _bittered(amounts, brew(amounts.recipe()))
    kg = amounts.hops[0].kg
    assert _bittered(amounts, right) is right
    assert amounts.hops[0].kg == kg
    amounts.hops[0].kg = 0.002
    _bittered(amounts, brew(amounts.recipe()))
    assert amounts.hops[0].kg == pytest.approx(0.008)
    nothing = replace(amounts.task.aim, near={**amounts.task.aim.near, "bitterness_ibu": 0.0})
    amounts.task = replace(amounts.task, aim=nothing)
    _bittered(amounts, brew(amounts.recipe()))
    assert amounts.hops[0].kg == pytest.approx(0.0005)


@pytest.mark.parametrize("og", [1.040, 1.060])
def test_the_base_is_weighed_for_the_gravity(og):
    amounts = begun(aim(og=og))
    _round(amounts)
    amounts.base[-1].kg *= 0.7
    day = _with_base(amounts)
    assert day.beer.original_gravity == pytest.approx(og, abs=0.0006)
    assert is_whole(amounts.base[-1].kg, 0.025)
    assert day == brew(amounts.recipe())


def test_the_base_is_weighed_for_the_alcohol_that_was_asked_for():
    amounts = begun(aim(original_gravity=None, abv_percent=5.5))
    _round(amounts)
    day = _with_base(amounts)
    assert day.beer.abv_percent == pytest.approx(5.5, abs=0.08)


@pytest.mark.parametrize(
    ("low", "high", "more"),
    [(0.0006, 0.0016, 0.025), (-0.0016, -0.0006, -0.025), (-0.0010, 0.0010, 0.0)],
)
def test_a_step_of_the_base_more_or_less_is_taken_where_that_is_nearer_to_the_ranges(
    low, high, more
):
    """25 g more of 1.5 kg are about a thousandth of gravity."""
    amounts = begun(aim(original_gravity=None))
    _round(amounts)
    day = _with_base(amounts)
    found, kg = float(day.beer.original_gravity), amounts.base[-1].kg
    bands = {"original_gravity": (found + low, found + high)}
    amounts.task = replace(amounts.task, aim=replace(amounts.task.aim, bands=bands))
    after = _nearer(amounts, day)
    assert amounts.base[-1].kg == pytest.approx(kg + more)
    assert after == brew(amounts.recipe())
    assert _beyond(amounts, after) == 0.0


def test_no_step_is_taken_off_what_there_is_not():
    amounts = begun(aim(original_gravity=None, bands={"original_gravity": (1.0, 1.001)}))
    amounts.base[-1].kg = 0.02
    _nearer(amounts, brew(amounts.recipe()))
    assert amounts.base[-1].kg == 0.02


@pytest.mark.parametrize("og", [1.040, 1.070])
def test_what_is_rounded_holds_and_boils_over_nowhere(og):
    amounts = begun(aim(og=og))
    amounts.water_l = 8.0
    amounts.base[-1].kg *= 1.3
    day = rounded(amounts)
    assert day.beer.original_gravity == pytest.approx(og, abs=0.002)
    assert day.pot.fullest_boiling_l <= 7.2
    assert amounts.water_l < 7.5
    assert is_whole(amounts.water_l, 0.1)
    amounts.water_l += 0.1
    assert _too_full(amounts, brew(amounts.recipe()))
