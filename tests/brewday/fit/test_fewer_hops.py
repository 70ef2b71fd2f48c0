"""Boils that fill their pots and need fewer bittering hops, where less water held it before."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import line_kg, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fewer_hops import full_with_fewer_hops, hops_saved
from designer.brewday.fit.hop_roles import bittering
from designer.brewday.fit.original import original_of
from designer.brewday.fit.pot_limits import (
    filled,
    foam_limit,
    fullest_at_the_boil_l,
    own_water_l,
)
from designer.brewday.fit.two_boils import divided, two_boils
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.quantity import Kind, Stage, When
from tests.brewday.fit.kitchens import pairs
from tests.brewday.quantities import q

MANY = pairs((5.0, 9.0, 15.0), (0.55, 1.05))


def two(recipe, pot_l=9.0, fermenter=25.0):
    answer = ways(recipe, wish_for(recipe, pot_l, (fermenter,)))
    return {way.key: way for way in answer.every_way}["two boils"]


def test_the_porter_s_two_boils_fill_the_9_litre_pot_and_save_a_quarter_of_the_hops(porter):
    """Before, 3.4 L were boiled in it so that it should not be too bitter."""
    way = two(porter, 9.0, 6.5)
    start = way.boils[0].start_water_l
    assert start > 5.5
    [used] = [sum(line_kg(each) for boil in way.recipes for each in boil.hops
                  if each.line_id == hop.line_id) for hop in bittering(porter)]  # fmt: skip
    [hop] = bittering(porter)
    assert used == pytest.approx(0.015)
    assert abs(way.forecasts["bitterness_ibu"].change) < 1.0
    said = next(each for each in way.steps if each.id == "hops-saved")
    assert said.figures == (
        (Kind.MASS, pytest.approx(0.015)),
        (Kind.MASS, line_kg(hop)),
        (Kind.MASS, pytest.approx(0.005)),
    )
    assert said.text.endswith("that saves 5 g.")
    [left] = [each for each in way.left_over if each.lines == "hops"]
    assert left.amount.value == pytest.approx(0.005)


@pytest.mark.parametrize("name", MANY)
def test_late_hops_stay_and_what_is_trimmed_is_more_than_a_scrap(name):
    recipe, wish = MANY[name]
    draft = two_boils(Kitchen(wish, original_of(recipe)))
    if not isinstance(draft, Draft):
        return
    trimmed = {hop.line_id for hop in bittering(recipe)}
    for hop in recipe.hops:
        used = sum(line_kg(each) for boil in draft.recipes for each in boil.hops
                   if each.line_id == hop.line_id)  # fmt: skip
        left = line_kg(hop) - used
        assert left == pytest.approx(0.0, abs=1e-4) or (
            hop.line_id in trimmed and left > 0.05 * line_kg(hop)
        )
    for boil in draft.recipes:
        assert float(brew(boil).beer.bitterness_ibu) <= (
            float(original_of(recipe).day.beer.bitterness_ibu) + 1.0
        )


@pytest.mark.parametrize("name", MANY)
def test_a_pot_whose_hops_are_trimmed_takes_no_more_water(name):
    """As full as the foam line and the mark allow."""
    recipe, wish = MANY[name]
    draft = two_boils(Kitchen(wish, original_of(recipe)))
    if not isinstance(draft, Draft) or not list(hops_saved(recipe, draft.recipes)):
        return
    for boil in draft.recipes:
        fuller = with_process(boil, start_water=q(own_water_l(boil) + 0.2, "L"))
        day, limit = brew(fuller), foam_limit(boil.pot)
        mark = boil.process.top_up_to.value
        foams = fullest_at_the_boil_l(fuller, day) > limit - 0.05
        assert foams or float(day.fermenter.batch_l) > mark


def half(recipe):
    return replace(divided(recipe, 0.5)[0], pot=replace(recipe.pot, volume=q(14, "L")))


def test_hops_are_left_alone_where_the_beer_is_not_too_bitter(quay_pale):
    original = original_of(quay_pale)
    part = with_process(half(quay_pale), top_up_to=q(9.5, "L"), frozen_top_up=None)
    weak = replace(part, hops=tuple(replace(each, amount=q(0.004, "kg")) for each in part.hops))
    made = full_with_fewer_hops(weak, original, 30.0)
    assert made.hops == weak.hops
    assert made == filled(weak, original, 30.0, hold_bitterness=False)


def test_without_a_bittering_hop_less_water_is_boiled(quay_pale):
    late = When(Stage.BOIL, "boil 10 min", 10.0)
    recipe = replace(
        quay_pale,
        hops=tuple(replace(each, when=late, amount=q(0.06, "kg")) for each in quay_pale.hops),
        process=replace(quay_pale.process, start_water=q(9, "L"), frozen_top_up=None),
    )
    original = original_of(recipe)
    part = with_process(half(recipe), top_up_to=q(9.5, "L"))
    made = full_with_fewer_hops(part, original, 30.0)
    assert made.hops == part.hops
    assert own_water_l(made) < own_water_l(filled(part, original, 30.0, hold_bitterness=False))
    assert float(brew(made).beer.bitterness_ibu) <= original.most_ibu


def test_no_water_fits_a_pot_that_is_too_small(quay_pale):
    part = replace(half(quay_pale), pot=replace(quay_pale.pot, volume=q(2, "L")))
    assert full_with_fewer_hops(part, original_of(quay_pale), 30.0) is None
