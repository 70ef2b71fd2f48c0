"""What a kit says is to be read, reckoned anew from what the box tells.

Points of sucrose: 385.6 L/kg (46.2 points of a pound in a US gallon; common practice), solids of
syrup 80 % and powder 96.5 % as the program takes them; Balling's alcohol, 1865 (quoted in
`designer.wort.fermentation`). Ranges are those of normal and log-normal draws, by scipy.
"""

import numpy as np
import pytest
from scipy import stats

from designer.brewday.explaining.beliefs import Brings, range_of, reads_within
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.results import Range
from designer.wort.density import plato_from_gravity

TO_95 = stats.norm.ppf(0.95)
SYRUP, POWDER, SUGAR = (
    ExtractStated(1.7),
    ExtractStated(0.5, "dry extract"),
    ExtractStated(0.8, "sugar"),
)


def half_width(drawn):
    return TO_95 * float(np.std(drawn))


def test_a_band_is_the_range_of_the_wort_in_the_litres_that_it_names():
    found = beliefs_of_kit(KitStated(20.0, 1.048, 1.042, 8.0))
    assert found.expected.value == pytest.approx(1.045)
    assert found.points.mean() == pytest.approx(45.0, abs=0.01)
    assert half_width(found.points) == pytest.approx(3.0, rel=0.03)
    assert (found.batch_l == 20.0).all()
    assert found.planned_l == 20.0
    assert found.top_up_share == pytest.approx(1.0 - 8.0 / 20.0, abs=0.01)
    assert half_width(np.log(found.pot_l)) == pytest.approx(0.1, rel=0.03)
    assert found.pot_points * found.pot_l == pytest.approx(found.points * 20.0)
    in_pot = 1.0 + 0.045 * 20.0 / 8.0
    assert found.expected_in_pot.value == pytest.approx(in_pot, abs=2e-3)
    reads = reads_within(found.expected, 0.002)
    assert (found.reads_from, found.reads_to) == pytest.approx(reads)


def test_without_a_band_the_wort_is_doubted_by_its_extract_and_its_litres():
    found = beliefs_of_kit(KitStated(23.0, extract=(SYRUP, POWDER, SUGAR)))
    by_hand = 385.6 * (1.7 * 0.80 + 0.5 * 0.965 + 0.8) / 23.0
    assert found.planned_points == pytest.approx(by_hand, abs=0.4)
    assert found.points.mean() == pytest.approx(by_hand, abs=0.6)
    spread = half_width(np.log(found.points))
    assert spread == pytest.approx(np.hypot(0.03, 0.05), rel=0.08)
    assert half_width(np.log(found.batch_l)) == pytest.approx(0.05, rel=0.03)
    assert found.points * found.batch_l == pytest.approx(found.pot_points * found.pot_l)


def test_steeped_grain_is_doubted_more():
    grain = ExtractStated(1.0, "steeping grain")
    alone, mixed = (
        half_width(np.log(beliefs_of_kit(KitStated(10.0, extract=each)).points))
        for each in ((grain,), (grain, SYRUP))
    )
    assert alone == pytest.approx(np.hypot(0.25, 0.05), rel=0.08)
    assert 0.06 < mixed < 0.6 * alone


def test_of_a_pot_nobody_told_of_it_is_a_kitchen_pot_and_half_the_batch_at_most():
    for batch_l, pot_l in ((20.0, 9.0), (10.0, 5.0)):
        found = beliefs_of_kit(KitStated(batch_l, 1.044, 1.048))
        assert float(np.median(found.pot_l)) == pytest.approx(pot_l, rel=0.02)
    wide = beliefs_of_kit(KitStated(40.0, 1.044, 1.048))
    assert half_width(np.log(wide.pot_l)) == pytest.approx(0.3, rel=0.03)
    big = beliefs_of_kit(KitStated(10.0, 1.044, 1.048, 30.0))
    assert (big.pot_l <= big.batch_l).all()
    assert big.top_up_share == 0.0


def test_lines_share_the_points_by_their_solids():
    found = beliefs_of_kit(KitStated(23.0, extract=(SYRUP, SUGAR, ExtractStated(0.0))))
    syrup, sugar = found.lines
    assert syrup.points + sugar.points == pytest.approx(found.planned_points)
    assert syrup.points / sugar.points == pytest.approx(1.7 * 0.80 / 0.8, rel=0.01)
    assert (syrup.kg, sugar.kg, syrup.from_a_tin, sugar.from_a_tin) == (1.7, 0.8, True, False)
    tin, bag = beliefs_of_kit(KitStated(20.0, 1.044, 1.048)).lines
    assert (tin.points, bag.points) == pytest.approx((0.6 * 46.0, 0.4 * 46.0))
    assert (tin.from_a_tin, bag.kind, tin.kg) == (True, "sugar", 0.0)


def test_alcohol_is_ballings_and_sugar_ferments_away():
    malt = beliefs_of_kit(KitStated(23.0, extract=(SYRUP,)))
    half = beliefs_of_kit(KitStated(23.0, extract=(SYRUP, SUGAR)))
    assert malt.final_gravity - 1.0 > 0.2 * (malt.expected.value - 1.0)
    assert half.final_gravity - 1.0 < 0.2 * (half.expected.value - 1.0)
    for each in (malt, half):
        og, fg = plato_from_gravity(each.expected.value), plato_from_gravity(each.final_gravity)
        real = 0.1808 * og + 0.8192 * fg
        by_weight = (og - real) / (2.0665 - 0.010665 * og)
        assert each.abv_percent == pytest.approx(by_weight * each.final_gravity / 0.7907, rel=0.01)


@pytest.mark.parametrize(
    "stated",
    [
        KitStated(0.0, 1.044, 1.048),
        KitStated(-1.0, 1.044, 1.048),
        KitStated(20.0, 1.044),
        KitStated(20.0, None, 1.048),
        KitStated(20.0, extract=(ExtractStated(0.0),)),
    ],
)
def test_a_kit_of_which_too_little_is_told_is_refused(stated):
    with pytest.raises(ValueError, match="litres, and a band"):
        beliefs_of_kit(stated)


def test_a_reading_lies_within_the_wort_and_the_instrument_together():
    plain = Range(1.046, 1.043, 1.050)
    low, high = reads_within(plain, 0.004)
    assert (low, high) == pytest.approx((1.046 - 0.005, 1.046 + np.hypot(0.004, 0.004)))
    skewed = Range(1.046, 1.043, 1.050, middle=1.047)
    assert reads_within(skewed, 0.003)[1] == pytest.approx(1.047 + np.hypot(0.003, 0.003))


def test_the_range_of_samples_holds_nine_in_ten_and_its_value():
    drawn = stats.norm(1.05, 0.004).ppf((np.arange(256) + 0.5) / 256)
    found = range_of(drawn)
    assert (found.low, found.high) == pytest.approx(
        (1.05 - TO_95 * 0.004, 1.05 + TO_95 * 0.004), abs=2e-4
    )
    assert found.value == found.middle == pytest.approx(1.05)
    assert found.third_quartile == pytest.approx(1.05 + 0.6745 * 0.004, abs=1e-4)
    assert range_of(drawn, 1.07).high == 1.07
    assert range_of(drawn, 1.02).low == 1.02


def test_alcohol_of_another_wort_is_in_step_and_less_without_the_sugar():
    half = beliefs_of_kit(KitStated(23.0, extract=(SYRUP, SUGAR)))
    planned = half.planned_points
    assert half.abv_of(planned) == pytest.approx(half.abv_percent)
    assert half.abv_of(0.5 * planned) == pytest.approx(0.5 * half.abv_percent, rel=0.03)
    _, sugar = half.lines
    without = half.abv_of(planned - sugar.points, 1, -1.0)
    malt = beliefs_of_kit(KitStated(23.0, extract=(SYRUP,)))
    assert without == pytest.approx(malt.abv_percent, rel=0.03)
    assert half.abv_of(planned + sugar.points, 1, 1.0) > half.abv_of(planned + sugar.points)
    assert half.abv_of(planned, 0, 0.0) == pytest.approx(half.abv_percent)


def test_bitterness_is_thinned_and_what_is_on_a_label_goes_with_its_tin():
    found = beliefs_of_kit(KitStated(20.0, 1.044, 1.048, bitterness_ibu=30.0))
    assert found.bitterness_of(1.2) == pytest.approx(25.0)
    assert found.bitterness_of(1.0, 0.25) == pytest.approx(22.5)
    assert found.bitterness_of(1.0, 1.4) == 0.0
    assert beliefs_of_kit(KitStated(20.0, 1.044, 1.048)).bitterness_of(1.0) is None
    assert Brings(1, "", "steeping grain", 0.2, 2.0).is_grain
    assert not Brings(1, "", "dry extract", 0.2, 2.0).is_grain


def test_layers_can_form_from_a_hundredth_of_top_up_on():
    found = beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 19.9))
    assert not found.is_topped_up
    assert beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 19.5)).is_topped_up
