"""Hops for bitterness and hops for smell, in a smaller batch and in a recipe of another size."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import boil_left, line_kg, with_amounts, with_process
from designer.brewday.fit.draft_way import Kitchen
from designer.brewday.fit.hop_roles import (
    BITTERING_MIN,
    bittering,
    boiled_min,
    is_bittering,
    late_followed,
)
from designer.brewday.fit.original import IBU_DEADBAND, original_of
from designer.brewday.fit.scaling import scale
from designer.brewday.fit.smaller_batch import smaller_batch
from designer.brewday.fit.wish import wish_for
from designer.library.packs import packs
from designer.recipe.document import Hop
from designer.recipe.quantity import Kind, Stage, When
from tests.brewday.quantities import q

FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")
STAND = When(Stage.STAND, "stand 20 min", 20.0)
WEIGHED_KG = 0.00026
"""Half a step of half a gram."""


def hop(when, kg=0.02):
    return Hop("Fuggle", "pellets", q(0.045), q(kg, "kg"), when)


@pytest.mark.parametrize(
    ("when", "bitter"),
    [
        (boil_left(60), True),
        (boil_left(30), True),
        (boil_left(29), False),
        (boil_left(15), False),
        (When(Stage.FIRST_WORT, "first wort"), True),
        (When(Stage.STEEP, "steep"), True),
        (FLAME_OUT, False),
        (STAND, False),
        (When(Stage.DRY_HOP, "dry hop 3 days", days=3.0), False),
    ],
)
def test_a_hop_is_there_to_bitter_by_its_time_in_the_boil(quay_pale, when, bitter):
    """From 60 min for bitterness to 15 min or less for smell: common practice, no source. The
    half hour between them is a judgement."""
    assert is_bittering(hop(when), quay_pale) == bitter
    assert BITTERING_MIN == 30.0


def test_a_hop_boils_no_longer_than_the_boil(quay_pale):
    short = with_process(quay_pale, boil_time=q(20, "min"))
    assert boiled_min(hop(boil_left(60)), short) == 20.0
    assert boiled_min(hop(When(Stage.FIRST_WORT, "first wort")), short) == 20.0
    assert not is_bittering(hop(boil_left(60)), short)
    assert bittering(short) == ()


def smaller(recipe, pot_l, fermenter_l):
    kitchen = Kitchen(wish_for(recipe, pot_l, (fermenter_l,)), original_of(recipe))
    draft = smaller_batch(kitchen, False)
    [made] = draft.recipes
    return kitchen, draft, made


@pytest.mark.parametrize("pot_l", [8.0, 12.0, 20.0])
@pytest.mark.parametrize("name", ["quay_pale", "slipway_bitter", "porter"])
def test_a_smaller_batch_keeps_all_but_bittering_hops_by_the_litre(request, name, pot_l):
    recipe = request.getfixturevalue(name)
    kitchen, draft, made = smaller(recipe, pot_l, 7.0)
    ratio = made.process.top_up_to.value / kitchen.original.batch_l
    assert ratio < 0.7
    new = {each.line_id: line_kg(each) for each in made.hops}
    others = [each for each in recipe.hops if not is_bittering(each, recipe)]
    assert others
    for each in others:
        assert new[each.line_id] == pytest.approx(ratio * line_kg(each), abs=WEIGHED_KG)
    wanted = float(kitchen.original.day.beer.bitterness_ibu)
    assert float(brew(made).beer.bitterness_ibu) == pytest.approx(wanted, abs=IBU_DEADBAND)
    assert not any("a litre" in said.text for said in draft.steps)


def test_in_a_weaker_boil_it_is_the_bittering_hops_that_are_trimmed(quay_pale):
    strong = with_process(quay_pale, start_water=q(10, "L"), frozen_top_up=None)
    kitchen, _, made = smaller(strong, 40.0, 15.0)
    ratio = made.process.top_up_to.value / kitchen.original.batch_l
    assert line_kg(made.hops[0]) < 0.9 * ratio * line_kg(strong.hops[0])
    assert line_kg(made.hops[1]) == pytest.approx(ratio * line_kg(strong.hops[1]), abs=WEIGHED_KG)


def test_without_bittering_hops_the_late_ones_follow_and_the_way_says_so(breakwater_red):
    """A kit bitters by its tin: its one hop, at flame-out, has to give."""
    kitchen, draft, made = smaller(breakwater_red, 14.0, 12.0)
    ratio = made.process.top_up_to.value / kitchen.original.batch_l
    [fuggle] = made.hops
    change = line_kg(fuggle) / (ratio * 0.020) - 1.0
    assert change < -0.05
    [said] = [each for each in draft.steps if "a litre" in each.text]
    assert said.text.startswith("Fuggle at flame-out: ")
    assert "less a litre" in said.text
    assert said.figures == (
        (Kind.MASS, line_kg(fuggle)),
        (Kind.FRACTION, pytest.approx(-change, abs=0.006)),
    )
    wanted = float(kitchen.original.day.beer.bitterness_ibu)
    assert float(brew(made).beer.bitterness_ibu) == pytest.approx(wanted, abs=IBU_DEADBAND)


def test_late_hops_give_no_more_than_it_takes(breakwater_red):
    """Half of what a tongue can tell is left between both beers."""
    kitchen, _, made = smaller(breakwater_red, 14.0, 12.0)
    over = float(brew(made).beer.bitterness_ibu) - float(kitchen.original.day.beer.bitterness_ibu)
    assert 0.2 * IBU_DEADBAND < over <= 0.6 * IBU_DEADBAND


def test_where_the_tin_alone_holds_the_bitterness_nothing_is_said(breakwater_red):
    _, draft, made = smaller(breakwater_red, 9.0, 12.0)
    assert line_kg(made.hops[0]) == pytest.approx(0.51 * 0.020, abs=0.0005)
    assert not any("a litre" in said.text for said in draft.steps)


def test_where_trimming_to_nothing_is_not_enough_the_late_ones_follow(quay_pale):
    """Half a gram of bittering hop beside a heap of late ones."""
    bitter, late = quay_pale.hops
    heap = with_amounts(
        with_process(quay_pale, start_water=q(10, "L"), frozen_top_up=None),
        {bitter.line_id: 0.0005, late.line_id: 0.08},
    )
    kitchen, draft, made = smaller(heap, 40.0, 15.0)
    assert [each.name for each in made.hops] == [late.name]
    assert any("Fuggle at 10 min left: " in said.text for said in draft.steps)
    wanted = float(kitchen.original.day.beer.bitterness_ibu)
    assert float(brew(made).beer.bitterness_ibu) == pytest.approx(wanted, abs=IBU_DEADBAND)


@pytest.mark.parametrize("batch_l", [5.0, 8.0, 14.0, 23.0])
def test_a_recipe_of_another_size_keeps_its_late_hops_by_the_litre(slipway_bitter, batch_l):
    scaled = scale(slipway_bitter, batch_l)
    ratio = batch_l / float(brew(slipway_bitter).fermenter.batch_l)
    for old, new in zip(slipway_bitter.hops, scaled.recipe.hops, strict=True):
        if not is_bittering(old, slipway_bitter):
            assert line_kg(new) == pytest.approx(ratio * line_kg(old), abs=WEIGHED_KG)
    assert scaled.shares.late == scaled.shares.dry == pytest.approx(ratio)
    assert scaled.shares.bittering != pytest.approx(ratio, rel=0.002)
    assert scaled.words == ()


def test_in_whole_packs_the_late_hops_stay_by_the_litre_too(slipway_bitter):
    scaled = scale(slipway_bitter, 20.0, whole_packs=packs("metric"))
    ratio = 20.0 / float(brew(slipway_bitter).fermenter.batch_l)
    for old, new in zip(slipway_bitter.hops[1:], scaled.recipe.hops[1:], strict=True):
        assert line_kg(new) == pytest.approx(ratio * line_kg(old), abs=WEIGHED_KG)
    assert abs(scaled.forecasts["bitterness_ibu"].change) < 1.0


def test_a_scaled_recipe_says_where_late_hops_had_to_follow(slipway_bitter):
    without = replace(slipway_bitter, hops=slipway_bitter.hops[1:])
    larger = scale(without, 60.0)
    assert [each.id for each in larger.words] in (["late-hop-less"], ["late-hop-more"])
    assert larger.words[0].text.startswith("East Kent Golding at 15 min left: ")


def test_the_words_tell_more_less_and_none(quay_pale):
    late = quay_pale.hops[1]
    for kg, id in [(0.02, "late-hop-more"), (0.005, "late-hop-less"), (0.0, "late-hop-out")]:
        [said] = late_followed(quay_pale, with_amounts(quay_pale, {late.line_id: kg}), 0.5)
        assert said.id == id
    even = with_amounts(quay_pale, {late.line_id: 0.0102})
    assert list(late_followed(quay_pale, even, 0.5)) == []
    for when, words in [(FLAME_OUT, "at flame-out"), (STAND, "in the stand")]:
        recipe = replace(quay_pale, hops=(replace(late, when=when),))
        made = with_amounts(recipe, {late.line_id: 0.005})
        [said] = late_followed(recipe, made, 0.5)
        assert words in said.text
