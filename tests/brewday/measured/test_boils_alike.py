"""How far what was read of one boil holds for another: correlations reckoned from variances.

Two boils, each off by what the pot is off by and independently by a scatter, have the correlation
(width² - scatter²) / width²: the law of variances that add up. Scatters are judgement.
"""

import numpy as np
import pytest

from designer.brewday.heat_doubts import EVAPORATION_SCATTER
from designer.brewday.measured.other_boils import EVAPORATION, Alike, OtherBoil, measured_alike
from designer.brewday.measured.reading_errors import FERMENTER_MARK, WATER_IN
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.tolerances import WEIGHT, Tolerance, input_of
from designer.brewday.vessel_doubts import LEFT_IN_POT, LEFT_IN_POT_SCATTER_L

SHARE = Tolerance(1.8, 0.35, relative=True)
LITRES = Tolerance(2.0, 0.7, relative=False)


def other(recipe, *, same=True, **differs):
    told = {"same_day": same, "same_fermenter": same, "same_measure": same, **differs}
    return OtherBoil(2, recipe, (), **told)


def correlation(scatter, width):
    return max((width**2 - scatter**2) / width**2, 0.0)


def test_vessels_and_days_are_alike_where_they_are_the_same(harbour_porter):
    all_same = other(harbour_porter)
    for key, differs in (
        (FERMENTER_MARK, "same_fermenter"),
        (WATER_IN, "same_measure"),
        ("tap water temperature", "same_day"),
        ("freezer temperature", "same_day"),
    ):
        assert all_same.alike(key, LITRES) == 1.0
        assert other(harbour_porter, **{differs: False}).alike(key, LITRES) == 0.0
        assert other(harbour_porter, same=False, **{differs: True}).alike(key, LITRES) == 1.0


def test_what_is_weighed_is_another_each_time_and_an_instrument_never(harbour_porter):
    boil = other(harbour_porter, same=False)
    assert boil.alike(input_of(WEIGHT, "Pale syrup"), SHARE) == 0.0
    assert boil.alike("hydrometer", None) == 1.0
    assert boil.alike("how hops are used", SHARE) == 1.0


def test_flames_and_sludge_differ_by_their_scatter(harbour_porter):
    boil = other(harbour_porter)
    assert boil.alike(EVAPORATION, SHARE) == pytest.approx(correlation(EVAPORATION_SCATTER, 0.35))
    of_value = correlation(EVAPORATION_SCATTER, 0.7 / 2.0)
    assert boil.alike(EVAPORATION, LITRES) == pytest.approx(of_value)
    narrow = Tolerance(1.8, EVAPORATION_SCATTER / 2.0, relative=True)
    assert boil.alike(EVAPORATION, narrow) == 0.0
    left = LEFT_IN_POT.words
    assert boil.alike(left, LITRES) == pytest.approx(correlation(LEFT_IN_POT_SCATTER_L, 0.7))
    of_value = correlation(LEFT_IN_POT_SCATTER_L, 1.8 * 0.35)
    assert boil.alike(left, SHARE) == pytest.approx(of_value)


def test_scores_of_the_other_boil_keep_their_width_and_go_along_as_far_as_they_are_alike(
    harbour_porter,
):
    weight = input_of(WEIGHT, "Pale syrup")
    alike = Alike.of(other(harbour_porter), {EVAPORATION: SHARE, weight: SHARE, "hydrometer": None})
    assert set(alike.needed) == {
        EVAPORATION, "hydrometer", f"{EVAPORATION}, boil 2", f"{weight}, boil 2",
    }  # fmt: skip
    assert [alike.shares(each) for each in (EVAPORATION, weight, "hydrometer")] == [
        True, False, True,
    ]  # fmt: skip
    drawn = np.random.default_rng(4).standard_normal((len(alike.needed), 40_000))
    scores = dict(zip(alike.needed, drawn, strict=True))
    found = alike.followed(scores)
    assert found["hydrometer"] is scores["hydrometer"]
    assert found[weight] is scores[f"{weight}, boil 2"]
    assert found[EVAPORATION].std() == pytest.approx(1.0, abs=0.02)
    together = np.corrcoef(found[EVAPORATION], scores[EVAPORATION])[0, 1]
    assert together == pytest.approx(correlation(EVAPORATION_SCATTER, 0.35), abs=0.01)


@pytest.mark.parametrize(
    ("first", "second", "alike"),
    [
        ([], [], True),
        ([By.MARK], [], True),
        ([By.DIPSTICK], [By.DIPSTICK], True),
        ([By.DIPSTICK], [], False),
        ([By.SCALE], [By.SCALE], False),
        ([By.SCALE], [By.MARK], False),
    ],
)
def test_water_of_two_boils_is_measured_alike_by_the_same_marks_or_stick(first, second, alike):
    level = Reading(Measured.BOIL_END_VOLUME, 5.0, By.SCALE)
    one, two = (
        [level, *(Reading(Measured.WATER_IN, 6.0, each) for each in ways)]
        for ways in (first, second)
    )
    assert measured_alike(one, two) == alike
