"""Changed copies: amounts as a kitchen types them, and the one edit between two recipes."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import (
    boil_left,
    edit_between,
    in_part,
    line_kg,
    litres,
    mass,
    quick_day,
    with_amounts,
    with_mark,
    with_process,
    with_water,
    without_empty_lines,
)
from designer.recipe.document import Extra, Fermentable, Hop
from designer.recipe.edits import next_line_id
from designer.recipe.message import word
from designer.recipe.quantity import Quantity, Stage


@pytest.mark.parametrize(
    ("kg", "value", "text"),
    [
        (0.0214, 0.0214, "21.4 g"),
        (0.02146, 0.0215, "21.5 g"),
        (0.9999, 0.9999, "999.9 g"),
        (1.0, 1.0, "1 kg"),
        (1.2345, 1.2345, "1.2345 kg"),
        (0.0, 0.0, "0 g"),
    ],
)
def test_a_mass_is_typed_to_a_tenth_of_a_gram_and_in_kilograms_from_one(kg, value, text):
    assert (mass(kg).value, mass(kg).text) == (value, text)


def test_a_volume_is_typed_to_a_millilitre():
    assert (litres(6.1234).value, litres(6.1234).text) == (6.123, "6.123 L")
    assert litres(6.0).text == "6 L"


def test_a_time_left_to_boil_is_typed_in_minutes():
    when = boil_left(12.5)
    assert (when.stage, when.minutes, when.text) == (Stage.BOIL, 12.5, "boil 12.5 min")


def test_a_quick_day_is_the_day_without_its_time_line(porter):
    quick, day = quick_day(porter), brew(porter)
    # The time line cuts the cooling into more stretches.
    assert quick.beer.bitterness_ibu == pytest.approx(day.beer.bitterness_ibu, rel=1e-12)
    assert quick.beer.original_gravity == day.beer.original_gravity
    assert quick.pot.fullest_l <= day.pot.fullest_l


def test_water_and_mark_that_are_so_already_keep_what_was_typed(porter):
    typed = with_process(
        porter, start_water=Quantity(6.5, "6500 mL"), top_up_to=Quantity(10.0, "10000 mL")
    )
    assert with_water(typed, 6.5) is typed
    assert with_mark(typed, 10.0) is typed


def test_water_and_mark_are_set_where_they_differ_or_were_not_typed(porter):
    bare = with_process(porter, start_water=None, top_up_to=None)
    for recipe in (porter, bare):
        assert with_water(recipe, 6.6).process.start_water == litres(6.6)
        assert with_mark(recipe, 9.9).process.top_up_to == litres(9.9)
    assert with_water(porter, 6.6).process.top_up_to == porter.process.top_up_to
    assert with_water(porter, 6.501).process.start_water.value == 6.501


def test_a_line_without_an_amount_weighs_nothing():
    assert line_kg(Hop()) == 0.0
    assert line_kg(Hop(amount=Quantity(0.02, "20 g"))) == 0.02


def test_amounts_change_by_line_and_equal_ones_keep_what_was_typed(porter):
    syrup, dry, grain = porter.fermentables
    hop, late = porter.hops
    made = with_amounts(
        porter, {syrup.line_id: 1.25, dry.line_id: dry.amount.value, late.line_id: 0.015}
    )
    assert made.fermentables == (replace(syrup, amount=mass(1.25)), dry, grain)
    assert made.hops == (hop, replace(late, amount=mass(0.015)))
    assert made.fermentables[1].amount is dry.amount


def test_a_line_without_an_amount_is_given_none(porter):
    bare = replace(porter, hops=(replace(porter.hops[0], amount=None),))
    assert with_amounts(bare, {bare.hops[0].line_id: 0.01}).hops == bare.hops


def test_part_of_a_kit_remembers_what_its_label_is_for(breakwater_red):
    tin = breakwater_red.fermentables[0]
    half = in_part(tin, 0.85)
    assert half.amount.text == "850 g"
    assert half.label_amount == tin.amount
    assert in_part(half, 0.4).label_amount == tin.amount


def test_lines_that_came_down_to_nothing_are_taken_out_and_unknown_ones_stay(porter):
    syrup, dry, grain = porter.fermentables
    gone = replace(
        porter,
        fermentables=(replace(syrup, amount=mass(0.0)), replace(dry, amount=None), grain),
        hops=(replace(porter.hops[0], amount=mass(0.0)), porter.hops[1]),
    )
    made = without_empty_lines(gone)
    assert [each.name for each in made.fermentables] == [dry.name, grain.name]
    assert made.hops == (porter.hops[1],)
    assert made.extras == porter.extras


def test_no_edit_is_needed_between_a_recipe_and_itself(porter):
    edit = edit_between(porter, porter, word("nothing"))
    assert edit.edits == ()
    assert edit.text.text == "nothing"


def test_the_edit_makes_every_sort_of_change_in_one_step(porter):
    syrup, _, grain = porter.fermentables
    hop, late = porter.hops
    sugar = Fermentable("Table sugar", "sugar", mass(0.1), line_id=next_line_id(porter))
    new = replace(
        porter,
        name="Harbour Lamp Porter, smaller",
        style="Brown Ale",
        notes="Less of it.",
        pot=replace(porter.pot, name="Old pot"),
        fermenter=replace(porter.fermenter, name="Jar"),
        process=replace(porter.process, start_water=litres(5.0)),
        methods=replace(porter.methods, bitterness="Rager"),
        yeast=replace(porter.yeast, name="Another"),
        fermentables=(replace(syrup, amount=mass(1.0), when=boil_left(10)), grain, sugar),
        hops=(hop, replace(late, name="Fuggle", locked=True)),
        extras=(),
    )
    edit = edit_between(porter, new, "all")
    assert edit.apply(porter) == new
    assert {each.text for each in edit.edits} == {"all"}
    ids = [line.line_id for line in edit.apply(porter).fermentables]
    assert ids == [syrup.line_id, grain.line_id, sugar.line_id]


def test_the_edit_touches_nothing_that_stays(porter):
    """Applied to a recipe changed elsewhere in the meantime it leaves that as it is."""
    new = replace(porter, hops=(replace(porter.hops[0], amount=mass(0.03)), porter.hops[1]))
    edit = edit_between(porter, new, "more hops")
    renamed = replace(
        porter,
        name="Another",
        notes="Mine",
        yeast=replace(porter.yeast, name="Mine"),
        hops=(replace(porter.hops[0], name="Mine"), replace(porter.hops[1], name="Mine too")),
        extras=(Extra("Mine"),),
    )
    made = edit.apply(renamed)
    assert made == replace(
        renamed, hops=(replace(renamed.hops[0], amount=mass(0.03)), renamed.hops[1])
    )


def test_a_new_line_goes_where_the_new_recipe_has_it(porter):
    first = Hop("Magnum", amount=mass(0.01), line_id=next_line_id(porter))
    new = replace(porter, hops=(first, *porter.hops))
    assert edit_between(porter, new, "hop").apply(porter).hops == new.hops


def test_the_same_day_is_run_once_and_another_numbering_of_the_lines_is_another_day(porter):
    day = quick_day(porter)
    assert quick_day(replace(porter)) is day
    hops = tuple(replace(hop, line_id=hop.line_id + 100) for hop in porter.hops)
    renumbered = replace(porter, hops=hops)
    assert renumbered == porter
    assert set(quick_day(renumbered).beer.hop_ibu) == {hop.line_id for hop in hops}
    assert set(quick_day(porter).beer.hop_ibu) == {hop.line_id for hop in porter.hops}
    assert quick_day(with_water(porter, 5.0)) != day
