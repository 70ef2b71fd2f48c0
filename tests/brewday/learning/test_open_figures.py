"""The figures of a kitchen as they are left open for readings, each by what the recipe says of it.

How wide they are left open is judgement; a pot cools in step with its wetted surface a litre, so
as the third root of the litres where nobody measured it (geometry, `designer.wort.chilling`).
"""

from dataclasses import replace
from math import exp, hypot

import pytest
from scipy import stats

from designer.brewday.learning.figures import Figure
from designer.brewday.learning.open_figures import opened, usual_cooling
from designer.brewday.learning.priors import DRIFTS, PRIORS, SCATTERS
from designer.recipe.quantity import Quantity
from tests.brewday.quantities import q

TO_95 = stats.norm.ppf(0.95)
F = Figure


def figures(recipe):
    made, found = opened(recipe)
    return made, {each.figure: each for each in found}


def with_process(recipe, **changes):
    return replace(recipe, process=replace(recipe.process, **changes))


def test_what_the_recipe_says_stays_the_middle_and_is_left_wide_open(harbour_porter):
    made, found = figures(harbour_porter)
    process = made.process
    assert (process.evaporation.value, process.evaporation.spread) == pytest.approx((0.9, 0.72))
    assert (process.left_in_pot.value, process.left_in_pot.spread) == pytest.approx((0.3, 1.0))
    assert (process.extract_got.value, process.extract_got.spread) == (1.0, 0.12)
    assert (process.steep_yield.value, process.steep_yield.spread) == (1.0, 0.5)
    assert made.yeast.attenuation.spread == 0.15
    assert (made.fermenter.marks_hold.value, made.fermenter.marks_hold.spread) == (1.0, 0.12)
    assert process.cooling_constant.spread == pytest.approx(0.8 * process.cooling_constant.value)
    assert found[F.EVAPORATION].believed == found[F.EVAPORATION].usual
    assert process.top_up_to.value == 10.0
    assert process.top_up_to.spread is None


def test_a_mark_keeps_no_doubt_of_its_own_and_none_is_made_up(harbour_porter):
    sure = with_process(harbour_porter, top_up_to=Quantity(10.0, "10 L", 0.5))
    assert figures(sure)[0].process.top_up_to.spread is None
    none = with_process(harbour_porter, top_up_to=None)
    made, found = figures(none)
    assert made.process.top_up_to is None
    assert found[F.VOLUME_BIAS].half_width == pytest.approx(0.12)
    with_eye = figures(harbour_porter)[1][F.VOLUME_BIAS]
    assert with_eye.half_width == pytest.approx(hypot(0.12, 0.15 / 10.0))
    assert with_eye.usual == pytest.approx(hypot(0.04, 0.15 / 10.0))
    known = replace(harbour_porter.fermenter, marks_hold=Quantity(1.04, "104 %", 0.0104))
    told = figures(replace(harbour_porter, fermenter=known))
    assert told[1][F.VOLUME_BIAS].believed == pytest.approx(hypot(0.01, 0.015))
    assert told[0].fermenter.marks_hold.spread == pytest.approx(0.12 * 1.04)


def test_what_is_known_with_its_spread_is_believed_by_that(harbour_porter):
    known = with_process(harbour_porter, evaporation=Quantity(1.2, "1.2 L/h", 0.06))
    found = figures(known)[1][F.EVAPORATION]
    assert (found.value, found.believed) == (1.2, 0.06)
    assert found.usual == pytest.approx(PRIORS[F.EVAPORATION].half_width * 1.2)
    assert found.half_width == pytest.approx(0.96)
    nothing = with_process(harbour_porter, evaporation=q(0, "L/h"))
    usual = figures(nothing)[1][F.EVAPORATION]
    assert usual.value == PRIORS[F.EVAPORATION].value
    assert usual.believed == usual.usual


def test_only_what_there_is_is_left_open(harbour_porter):
    assert F.COOLING in figures(harbour_porter)[1]
    assert F.COOLING in figures(with_process(harbour_porter, cooling="cold water bath"))[1]
    assert F.COOLING not in figures(with_process(harbour_porter, cooling="coil"))[1]
    assert F.STEEP_YIELD in figures(harbour_porter)[1]
    no_grain = replace(harbour_porter, fermentables=harbour_porter.fermentables[:2])
    made, found = figures(no_grain)
    assert F.STEEP_YIELD not in found
    assert made.process.steep_yield == harbour_porter.process.steep_yield


def test_a_small_pot_cools_faster_as_the_third_root_of_its_litres(harbour_porter):
    at = {
        litres: usual_cooling(with_process(harbour_porter, start_water=q(litres, "L")))
        for litres in (2.0, 4.0, 8.0)
    }
    assert at[4.0] / at[8.0] == pytest.approx(2.0 ** (1.0 / 3.0))
    assert usual_cooling(with_process(harbour_porter, start_water=None)) == at[8.0]


def test_a_figure_moves_by_its_scores_a_share_by_their_exponential(harbour_porter):
    found = figures(harbour_porter)[1]
    left, mark = found[F.LEFT_IN_POT], found[F.VOLUME_BIAS]
    assert left.at(TO_95) == pytest.approx(0.3 + 1.0)
    assert left.at(-TO_95) == pytest.approx(0.3 - 1.0)
    assert mark.at(TO_95) == pytest.approx(exp(mark.half_width))
    assert mark.at(0.0) == 1.0


def test_a_figure_stands_for_what_no_kitchen_can_tell_from_it(harbour_porter):
    found = figures(harbour_porter)[1]
    assert found[F.EXTRACT_BIAS].stands_for("kitchen scale")
    assert found[F.STEEP_YIELD].stands_for("water held by grain")
    assert not found[F.EVAPORATION].stands_for("kitchen scale")


def test_scatters_and_drifts_are_whole_and_the_usual_is_the_likeliest():
    for shares in (SCATTERS, DRIFTS):
        assert sum(share for _, share in shares) == pytest.approx(1.0)
        assert max(shares, key=lambda each: each[1])[0] == 1.0


def test_what_is_believed_of_a_kitchen_is_what_its_source_says():
    """Marks within 4 %, a refractometer 1.00 to 1.06 about 1.04: common practice, no source."""
    assert (PRIORS[F.VOLUME_BIAS].value, PRIORS[F.VOLUME_BIAS].half_width) == (1.0, 0.04)
    factor = PRIORS[F.WORT_CORRECTION]
    assert (factor.value, factor.half_width) == (1.04, 0.03)
    assert (PRIORS[F.EXTRACT_BIAS].value, PRIORS[F.EXTRACT_BIAS].half_width) == (1.0, 0.03)
    assert (PRIORS[F.HYDROMETER].value, PRIORS[F.HYDROMETER].half_width) == (1.0, 0.002)
    for each in PRIORS.values():
        assert 0.0 < each.drift < each.scatter < each.half_width < 2.0 * each.slip
        assert 0.0 <= each.alike < 1.0
        assert each.enough == (2 if each is PRIORS[F.HYDROMETER] else 3)
