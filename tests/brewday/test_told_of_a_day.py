"""What a range, a cause, a finding and the vessels of a plan tell of themselves."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.results import (
    BoilDay,
    Cause,
    FermenterDay,
    Finding,
    PlanDays,
    Poured,
    Range,
)
from designer.recipe.document import Fermenter, Recipe, Yeast
from designer.recipe.edits import ChangePart
from designer.recipe.message import say
from designer.recipe.place import Place
from designer.recipe.severity import Severity
from designer.wort.water import WATER_KG_PER_L
from tests.brewday.days import with_figures
from tests.brewday.quantities import q

ALPHA = Cause("alpha acid", 0.5, "weigh it", 26.0, 34.0)
FOUND = Range(30.0, 24.0, 38.0, (ALPHA,), 28.0, 30.5, 33.0)


def test_a_forecast_on_another_scale_has_all_its_figures_on_it():
    """EBC are about twice SRM."""
    found = FOUND.on_scale(2.0)
    assert found == Range(
        60.0, 48.0, 76.0, (replace(ALPHA, low=52.0, high=68.0),), 56.0, 61.0, 66.0
    )
    assert Range(30.0, 24.0, 38.0).on_scale(2.0) == Range(60.0, 48.0, 76.0)


@pytest.mark.parametrize(
    ("value", "leans"),
    [(27.9, "higher"), (28.0, ""), (30.0, ""), (33.0, ""), (33.1, "lower")],
)
def test_a_beer_more_likely_lies_where_the_middle_half_of_the_draws_is(value, leans):
    assert replace(FOUND, value=value).leans == leans


def test_rounding_is_no_leaning_and_without_draws_there_is_none():
    assert replace(FOUND, value=28.0 - 1e-8).leans == ""
    assert replace(FOUND, value=33.0 + 1e-8).leans == ""
    assert replace(FOUND, value=0.5, first_quartile=0.5 + 5e-10, third_quartile=0.6).leans == ""
    assert replace(FOUND, value=27.0, first_quartile=None).leans == ""
    assert replace(FOUND, value=27.0, third_quartile=None).leans == ""


def test_a_range_moves_along_with_its_value():
    found = FOUND.moved_to(35.0)
    assert found == Range(35.0, 29.0, 43.0, (ALPHA,), 33.0, 35.5, 38.0)
    assert Range(30.0, 24.0, 38.0).moved_to(20.0) == Range(20.0, 14.0, 28.0)


def test_a_range_does_not_move_below_nothing_unless_it_was_there():
    assert FOUND.moved_to(3.0) == Range(3.0, 0.0, 11.0, (ALPHA,), 1.0, 3.5, 6.0)
    assert FOUND.moved_to(1.0).first_quartile == 0.0
    frost = Range(-1.0, -3.0, 1.0)
    assert frost.moved_to(-2.0).low == -3.0
    assert FOUND.moved_to(-2.0).low == -2.0


def test_a_cause_tells_how_many_brews_taught_it():
    assert ALPHA.words.text == "alpha acid"
    assert replace(ALPHA, rests_on=1).words.text == "alpha acid (your kitchen taught it: 1 brew)"
    assert replace(ALPHA, rests_on=2).words.text == "alpha acid (your kitchen taught it: 2 brews)"


def test_a_day_tells_the_hot_volume_at_flame_out_and_a_pot_what_was_in_it(harbour_porter):
    day = brew(harbour_porter)
    assert day.boil_end_hot_l > 1.03 * float(day.pot.boil_end_l)
    assert replace(day, moments=()).boil_end_hot_l == float(day.pot.boil_end_l)
    full = with_figures(day, from_pot_l=5.0, lost_to_trub_l=0.3, lost_to_hops_l=0.2)
    assert full.fermenter.in_pot_l == pytest.approx(5.5)
    mixed = with_figures(day, top_up_l=4.0, frozen_kg=0.0, hot_l=1.5)
    assert mixed.fermenter.cold_top_up_l == pytest.approx(2.5)
    assert with_figures(day, top_up_l=1.0, frozen_kg=0.0, hot_l=1.5).fermenter.cold_top_up_l == 0.0


def test_energy_is_told_in_kilojoules_and_yeast_in_usual_doses(harbour_porter):
    """4.184 kJ are a kilocalorie (thermochemical calorie, by definition); a usual dose of dry yeast
    is three quarters to six fifths of the middle one (common practice, no source)."""
    beer = with_figures(brew(harbour_porter), kcal_per_100ml=50.0, yeast_wanted_g=10.0).beer
    assert beer.kj_per_100ml == pytest.approx(209.2)
    assert (beer.yeast_low_g, beer.yeast_high_g) == pytest.approx((7.5, 12.0))
    assert beer.yeast_packets == 1
    assert with_figures(brew(harbour_porter), yeast_wanted_g=25.0).beer.yeast_packets == 3


CURE = ChangePart("process", "top_up_to", q(9, "L"), say("top-up", "Top up to {0}"))
NOTE = Finding(Severity.NOTE, Place("process", "top_up_to"), say("code", "Plain."))


def test_a_finding_says_its_words_and_seeks_its_cure_when_it_is_asked():
    assert NOTE.in_words is NOTE
    assert NOTE.with_cure is NOTE
    late = replace(NOTE, says=lambda: say("code", "Said."), seeks=lambda: CURE)
    assert late.in_words.message.text == "Said."
    assert late.in_words.fix is None
    cured = late.with_cure
    assert (cured.message.text, cured.fix, cured.says, cured.seeks) == ("Said.", CURE, None, None)


def test_a_cure_is_offered_with_what_it_makes_of_the_beer():
    assert NOTE.offer is None
    assert replace(NOTE, makes=say("makes", "5 %")).offer is None
    cure = ChangePart("process", "top_up_to", q(9, "L"), say("cure", "Top up"))
    assert replace(NOTE, fix=cure).offer.text == "Top up"
    assert replace(NOTE, fix=cure, makes=say("makes", "5 %")).offer.text == "Top up: 5 %"


def test_a_fermenter_of_a_plan_adds_up_what_is_poured_into_it(harbour_porter):
    pours = (Poured(1, 0.5, 3.0, 2.0, 0.5, 5.0), Poured(2, 1.0, 4.0, 1.5, 1.0, 5.5))
    assert pours[0].liquid_top_up_l == pytest.approx(2.0 - 0.5 / WATER_KG_PER_L)
    day = with_figures(brew(harbour_porter), batch_l=10.5)
    vessel = Fermenter(volume=q(12, "L"))
    found = FermenterDay(1, vessel, Yeast(), pours, day, {}, 90.0, 0)
    assert (found.from_pot_l, found.top_up_l, found.frozen_kg) == pytest.approx((7.0, 3.5, 1.5))
    assert (found.total_l, found.brim_l) == (10.5, 12.0)
    assert replace(found, vessel=Fermenter()).brim_l is None


def test_boils_are_alike_whatever_they_are_poured_into(harbour_porter):
    day = brew(harbour_porter)

    def boil(number, recipe):
        return BoilDay(number, recipe, day, {}, 0.0, 0)

    other = replace(harbour_porter, fermenter=Fermenter(volume=q(30, "L")))
    assert PlanDays((boil(1, harbour_porter), boil(2, other)), ()).boils_alike
    assert not PlanDays((boil(1, harbour_porter), boil(2, Recipe())), ()).boils_alike
