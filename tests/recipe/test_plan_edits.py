"""Changes to a boil of a plan, put back where they belong, and what a plan leaves idle."""

from dataclasses import replace

from designer.recipe.document import Fermentable, Hop, PlannedFermenter, Yeast
from designer.recipe.edits import (
    AddLine,
    ChangeLine,
    ChangePart,
    ChangeRecipe,
    RemoveLines,
    all_lists,
)
from designer.recipe.message import word
from designer.recipe.plan import recipe_at, recipe_of_boil
from designer.recipe.plan_edits import InBoil, idle_as_written, idle_in_boil
from tests.recipe.test_plan import BUCKET, HALF, KIT, kilograms, litres, with_plan

SAID = word("change it")
TWO = with_plan([HALF, HALF], [PlannedFermenter(BUCKET, top_up_to=litres(20.0))])


def test_a_hop_changed_in_a_boil_is_changed_in_that_boil_alone():
    hop = TWO.hops[0]
    edit = ChangeLine("hops", hop.line_id, (("amount", kilograms(0.015)),), SAID, "typing 1")
    made = InBoil(edit, 2).apply(TWO)
    assert made.boils[0] == TWO.boils[0]
    assert [line.amount.value for line in made.boils[1].hops] == [0.015]
    assert made.boils[1].fermentables is None
    assert made.hops == TWO.hops
    assert InBoil(edit, 2).merge_key == "typing 1"
    assert InBoil(edit, 2).text is SAID


def test_a_line_added_to_a_boil_has_a_number_that_no_other_line_has():
    first = InBoil(RemoveLines("hops", frozenset({TWO.hops[0].line_id}), SAID), 1).apply(TWO)
    made = InBoil(AddLine("hops", Hop("Harbour hop"), SAID), 1).apply(first)
    (added,) = made.boils[0].hops
    assert added.name == "Harbour hop"
    others = [line for lines in all_lists(made) for line in lines if line is not added]
    assert added.line_id not in [line.line_id for line in others]
    again = AddLine("fermentables", Fermentable("Sugar"), SAID).apply(made)
    assert again.fermentables[-1].line_id != added.line_id


def test_pot_water_and_boil_are_the_boils_mark_and_yeast_the_fermenters_all_else_the_recipes():
    def changed(part, field, value):
        return InBoil(ChangePart(part, field, value, SAID), 1, 1).apply(TWO)

    assert changed("pot", "volume", litres(11.0)).boils[0].pot.volume == litres(11.0)
    assert changed("process", "start_water", litres(5.0)).boils[0].start_water == litres(5.0)
    marked = changed("process", "top_up_to", litres(19.0))
    assert marked.fermenters[0].top_up_to == litres(19.0)
    assert marked.process == TWO.process
    assert changed("yeast", "name", "Lager").fermenters[0].yeast == replace(TWO.yeast, name="Lager")
    cooled = changed("process", "steep_time", None)
    assert (cooled.boils, cooled.fermenters) == (TWO.boils, TWO.fermenters)
    named = InBoil(ChangeRecipe("notes", "Mind the tide.", SAID), 2).apply(TWO)
    assert named.notes == "Mind the tide."
    assert named.boils == TWO.boils


def test_in_a_plan_without_boils_of_its_own_the_recipe_itself_is_changed():
    plan = with_plan((), [PlannedFermenter(BUCKET), PlannedFermenter(BUCKET)])
    made = InBoil(ChangePart("pot", "volume", litres(11.0), SAID), 1, 2).apply(plan)
    assert made.pot.volume == litres(11.0)
    boiled = InBoil(ChangePart("process", "boil_time", litres(1.0), SAID), 1, 2).apply(plan)
    assert boiled.process.boil_time == litres(1.0)
    marked = InBoil(ChangePart("process", "top_up_to", litres(9.0), SAID), 1, 2).apply(plan)
    assert [each.top_up_to for each in marked.fermenters] == [None, litres(9.0)]


def test_what_the_plan_says_in_place_of_the_recipe_is_without_effect_there():
    assert idle_as_written(KIT) == frozenset()
    idle = idle_as_written(TWO)
    assert {"pot", "fermenter", "process.start_water", "process.top_up_to"} <= idle
    assert "process.boil_time" not in idle
    assert "yeast" not in idle
    assert "process.cooling_constant" not in idle
    own = replace(TWO.fermenters[0], yeast=Yeast("Lager"))
    assert "yeast" in idle_as_written(with_plan(TWO.boils, [own]))


def test_what_is_said_to_be_without_effect_changes_no_boil_and_all_else_does():
    for place, value in (("start_water", litres(5.5)), ("boil_time", litres(0.4))):
        changed = replace(TWO, process=replace(TWO.process, **{place: value}))
        same = recipe_of_boil(changed, 1).process == recipe_of_boil(TWO, 1).process
        assert same is (f"process.{place}" in idle_as_written(TWO))


def test_how_the_pot_cools_was_measured_on_another_one():
    larger = replace(HALF, pot=replace(HALF.pot, volume=litres(15.0)))
    plan = with_plan([larger, HALF])
    assert idle_in_boil(plan, 1) == {"process.cooling_constant"}
    assert idle_in_boil(plan, 2) == frozenset()
    assert "process.cooling_constant" not in idle_as_written(plan)
    assert "process.cooling_constant" in idle_as_written(with_plan([larger, larger]))


def test_what_a_boil_shows_is_its_contents_into_the_fermenter_that_is_seen():
    shown = recipe_at(TWO, 1, 1)
    assert shown.fermenter == BUCKET
    assert shown.process.top_up_to == litres(20.0)
    assert shown.hops[0].amount.value == 0.01
    assert shown.boils == ()
