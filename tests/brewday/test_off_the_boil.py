"""Extract that is not boiled: stirred in at flame-out, or dissolved in the fermenter."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew, fullest_boiling_l
from designer.recipe.choices import FermenterKind
from designer.recipe.document import Fermentable
from designer.recipe.fields import number
from designer.recipe.quantity import Stage, When
from designer.wort.heat import enthalpy_kj, temperature_for

FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")
FERMENTER = When(Stage.FERMENTER, "fermenter")


def with_tin(recipe, kitchen, when, kg=1.7):
    tin = Fermentable("Tin", "liquid extract", kitchen.q(kg, "kg"), when, line_id=90)
    return replace(recipe, fermentables=(*recipe.fermentables, tin))


def at(day, stage):
    return [each for each in day.moments if each.stage == stage]


def test_extract_at_flame_out_waits_till_the_wort_is_still_and_is_kept_hot(harbour_porter, kitchen):
    """75 °C and more for ten minutes kill what spoils beer: common practice, no source."""
    plain = brew(harbour_porter)
    day = brew(with_tin(harbour_porter, kitchen, FLAME_OUT))
    boil = next(span for span in day.spans if span.key == "boil")
    tin = next(each for each in day.additions if each.name == "Tin")
    assert tin.time_min == pytest.approx(boil.end_min + 1.0)
    kept = next(span for span in day.spans if span.key == "kept hot")
    assert kept.end_min - kept.start_min == pytest.approx(10.0)
    assert at(day, "kept hot")[-1].temperature_c >= 75.0
    without = {span.key for span in plain.spans}
    assert not without & {"off the boil", "heat again", "kept hot"}


def test_so_much_cold_extract_that_it_cools_the_wort_is_heated_again(harbour_porter, kitchen):
    day = brew(with_tin(harbour_porter, kitchen, FLAME_OUT, kg=6.0))
    cold = at(day, "flame-out")[-1].temperature_c
    assert cold < 75.0
    assert at(day, "kept hot")[-1].temperature_c == pytest.approx(75.0)
    again = next(span for span in day.spans if span.key == "heat again")
    assert again.end_min > again.start_min


def test_what_goes_in_off_the_boil_neither_boils_nor_foams_but_fills_the_pot(
    harbour_porter, kitchen
):
    plain, recipe = brew(harbour_porter), with_tin(harbour_porter, kitchen, FLAME_OUT)
    day = brew(recipe)
    assert day.pot.boil_gravity_end == plain.pot.boil_gravity_end
    assert day.pot.fullest_boiling_l == plain.pot.fullest_boiling_l == fullest_boiling_l(recipe)
    assert at(day, "flame-out")[-1].pot_volume_l > at(plain, "flame-out")[-1].pot_volume_l + 1.0
    assert day.pot.fullest_l == max(each.pot_volume_l for each in day.moments)


def test_hops_of_flame_out_go_on_working_while_the_extract_is_kept_hot(harbour_porter, kitchen):
    candy = with_tin(harbour_porter, kitchen, FLAME_OUT, kg=0.001)
    assert brew(candy).beer.bitterness_ibu > brew(harbour_porter).beer.bitterness_ibu


def test_extract_in_the_fermenter_is_dissolved_in_part_of_the_top_up_just_boiled(
    harbour_porter, kitchen
):
    """A litre for a kilogram: common practice, no source. Its heat: conservation of energy."""
    plain, day = brew(harbour_porter), brew(with_tin(harbour_porter, kitchen, FERMENTER))
    filled = day.fermenter
    assert filled.hot_l == pytest.approx(1.7 / 0.9982, abs=0.01)
    assert filled.cold_top_up_l == pytest.approx(
        filled.top_up_l - filled.frozen_kg / 0.998203 - filled.hot_l, abs=1e-4
    )
    assert filled.batch_l == pytest.approx(plain.fermenter.batch_l)
    assert filled.cool_to_c < plain.fermenter.cool_to_c
    assert plain.fermenter.hot_l == 0.0


def test_the_mix_is_as_warm_as_what_went_into_it(harbour_porter, kitchen):
    """Source: conservation of energy, worked out anew from the masses."""
    process = replace(harbour_porter.process, frozen_top_up=kitchen.q(0, "kg"))
    day = brew(with_tin(replace(harbour_porter, process=process), kitchen, FERMENTER))
    filled, tap_c = day.fermenter, number(process, "tap_temperature")
    hot_kg, cold_kg = filled.hot_l * 0.998203, filled.cold_top_up_l * 0.998203
    pot = at(day, "cool")[-1]
    mass = filled.from_pot_l * (pot.gravity_sg * 0.998203)
    plato = 259.0 - 259.0 / pot.gravity_sg
    extract, water = mass * plato / 100.0, mass * (1.0 - plato / 100.0)
    heat = (
        enthalpy_kj(extract, water, filled.cool_to_c)
        + enthalpy_kj(1.7 * 0.8, 1.7 * 0.2, 20.0)
        + enthalpy_kj(0.0, hot_kg, 90.0)
        + enthalpy_kj(0.0, cold_kg, tap_c)
    )
    expected = temperature_for(heat, extract + 1.36, water + 0.34 + hot_kg + cold_kg)
    assert filled.mixed_c == pytest.approx(expected, abs=0.3)


def test_it_goes_in_while_the_pot_cools_and_before_the_wort(harbour_porter, kitchen):
    day = brew(with_tin(harbour_porter, kitchen, FERMENTER))
    tin = next(each for each in day.additions if each.name == "Tin")
    cool = [span for span in day.spans if span.key == "cool"][-1]
    assert tin.time_min == pytest.approx(cool.start_min)


def test_no_hot_water_goes_into_glass_nor_where_nothing_is_topped_up(harbour_porter, kitchen):
    tin = with_tin(harbour_porter, kitchen, FERMENTER)
    glass = replace(tin, fermenter=replace(tin.fermenter, kind=FermenterKind.GLASS_CARBOY))
    day = brew(glass)
    assert day.fermenter.hot_l == 0.0
    move = next(span for span in day.spans if span.key == "move")
    assert next(e for e in day.additions if e.name == "Tin").time_min == pytest.approx(move.end_min)
    full = replace(tin, process=replace(tin.process, top_up_to=None))
    assert brew(full).fermenter.hot_l == 0.0


def test_no_more_hot_water_is_poured_than_the_mark_takes(harbour_porter, kitchen):
    day = brew(with_tin(harbour_porter, kitchen, FERMENTER, kg=2.6))
    assert day.fermenter.hot_l + day.fermenter.cold_top_up_l >= 0.0
    assert day.fermenter.batch_l == pytest.approx(brew(harbour_porter).fermenter.batch_l)
