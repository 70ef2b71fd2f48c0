"""A field of a recipe named as text: `process.top_up_to`, `hops.2.alpha`."""

from dataclasses import fields, replace

import pytest

from designer.errors import RefusedInputError
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.recipe.document import LINE_TYPES, PART_TYPES, PlannedBoil, PlannedFermenter
from designer.recipe.fields import quantity_fields
from designer.recipe.quantity import Quantity, Stage
from designer.resource_files import resource_path
from designer.units import show
from tests.workbench.planned_red import with_own_hops


@pytest.fixture
def brew():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def test_a_field_of_a_part_is_set_and_nothing_else_is_changed(brew):
    changed = set_field(brew, "process.top_up_to", "9 L")
    assert changed.process.top_up_to.value == 9.0
    assert changed.process.top_up_to.text == "9 L"
    assert set_field(changed, "process.top_up_to", "10 L") == brew


def test_a_field_of_a_line_is_set_and_lines_are_counted_from_one(brew):
    changed = set_field(brew, "hops.2.alpha", "6 %")
    assert [hop.alpha.text for hop in changed.hops] == ["7.2 %", "6 %"]
    assert [hop.line_id for hop in changed.hops] == [hop.line_id for hop in brew.hops]


def test_words_choices_moments_locks_and_clock_times_are_set_too(brew):
    for place, text in [
        ("name", "Pilot Boat Stout"),
        ("style", "Sweet Stout"),
        ("notes", ""),
        ("pot.stove", "gas"),
        ("hops.1.when", "flame-out"),
        ("fermentables.1.locked", "true"),
        ("process.start_time", "18:30"),
    ]:
        brew = set_field(brew, place, text)
    assert (brew.name, brew.style, brew.notes) == ("Pilot Boat Stout", "Sweet Stout", "")
    assert brew.pot.stove == "gas"
    assert brew.hops[0].when.stage is Stage.FLAME_OUT
    assert brew.fermentables[0].locked is True
    assert set_field(brew, "fermentables.1.locked", "false").fermentables[0].locked is False
    assert brew.process.start_time == "18:30"


@pytest.mark.parametrize("name", PART_TYPES)
def test_every_field_of_every_part_can_be_named(brew, name):
    for each in fields(PART_TYPES[name]):
        facts = each.metadata.get("facts")
        text = show(facts.kind, facts.high) if facts else (each.metadata["choices"] or [""])[0]
        text = "10:00" if each.name == "start_time" else text
        changed = getattr(set_field(brew, f"{name}.{each.name}", text), name)
        assert text == (getattr(changed, each.name).text if facts else getattr(changed, each.name))


@pytest.mark.parametrize("name", LINE_TYPES)
def test_every_field_of_every_line_can_be_named_but_its_number(brew, name):
    for each in fields(LINE_TYPES[name]):
        place = f"{name}.1.{each.name}"
        if each.name == "line_id":
            with pytest.raises(RefusedInputError, match="no such field"):
                set_field(brew, place, "3")
        elif each.metadata.get("facts"):
            text = show(each.metadata["facts"].kind, each.metadata["facts"].high)
            assert getattr(getattr(set_field(brew, place, text), name)[0], each.name).text == text


@pytest.mark.parametrize(
    ("place", "text", "problem"),
    [
        ("", "9 L", ": no such place; name, process.boil_time or hops.1.amount"),
        ("beer", "9 L", "beer: no such place"),
        ("process", "9 L", "process: no such place"),
        ("process.top_up_to.value", "9", "process.top_up_to.value: no such place"),
        ("hops.1", "x", "hops.1: no such place"),
        ("name.first", "x", "name.first: no such place"),
        ("hobwort", "2", "hobwort: no such place"),
        ("process.boiltime", "9 min", "process.boiltime: no such field; there are altitude, "),
        ("process.boil_time", "9 kg", "process.boil_time: “9 kg” is not a time"),
        ("process.boil_time", "-9 min", "process.boil_time: “-9 min” is outside 0 min to 24 h"),
        ("process.boil_time", "", "process.boil_time: nothing is typed"),
        ("process.start_time", "noon", "process.start_time: “noon” is not a time of the day"),
        ("pot.stove", "wood", "pot.stove: “wood” is not one of: electric, gas, induction"),
        ("hops.0.alpha", "6 %", "hops.0.alpha: hops has 2 lines, counted from 1"),
        ("hops.3.alpha", "6 %", "hops.3.alpha: hops has 2 lines, counted from 1"),
        ("hops.-1.alpha", "6 %", "hops.-1.alpha: hops has 2 lines"),
        ("hops.x.alpha", "6 %", "hops.x.alpha: hops has 2 lines"),
        ("hops.².alpha", "6 %", "hops.².alpha: hops has 2 lines"),
        (f"hops.{'9' * 5000}.alpha", "6 %", "hops.999"),
        ("hops.1.alpha", "strong", "hops.1.alpha: “strong” is not a percentage"),
        ("fermentables.1.locked", "yes", "fermentables.1.locked: true or false"),
        ("name", "x" * 20_001, "name: up to 20000 readable characters"),
        ("name", "\udcff", "name: up to 20000 readable characters"),
    ],
)
def test_a_place_that_is_not_there_or_a_text_it_does_not_take_is_refused(
    brew, place, text, problem
):
    with pytest.raises(RefusedInputError) as refused:
        set_field(brew, place, text)
    assert str(refused.value).startswith(problem)
    assert len(refused.value.problems) == 1
    assert len(str(refused.value).splitlines()) == 1


PLAN = with_own_hops()


def test_a_field_of_a_boil_and_of_a_fermenter_is_set_and_nothing_else_is_changed():
    changed = set_field(PLAN, "boils.1.start_water", "6 L")
    assert changed.boils[0].start_water.text == "6 L"
    assert changed.boils[1] == PLAN.boils[1]
    assert set_field(changed, "boils.1.start_water", "6.3 L") == PLAN
    changed = set_field(PLAN, "fermenters.2.top_up_to", "9")
    assert changed.fermenters[1].top_up_to.text == "9 L"
    assert changed.fermenters[0] == PLAN.fermenters[0]
    assert set_field(PLAN, "boils.2.turn", "another day").boils[1].turn == "another day"


def test_what_stands_within_a_boil_or_a_fermenter_is_set_too():
    changed = set_field(PLAN, "boils.1.pot.volume", "7 L")
    assert changed.boils[0].pot == replace(PLAN.boils[0].pot, volume=Quantity(7.0, "7 L"))
    changed = set_field(PLAN, "boils.2.hops.2.amount", "15 g")
    assert [hop.amount.text for hop in changed.boils[1].hops] == ["7 g", "15 g"]
    changed = set_field(PLAN, "fermenters.1.from.1.share", "60 %")
    assert changed.fermenters[0].wort_from[0].share.value == pytest.approx(0.6)
    assert set_field(PLAN, "fermenters.1.from.1.boil", "2").fermenters[0].wort_from[0].boil == 2
    changed = set_field(PLAN, "fermenters.2.fermenter.kind", "glass carboy")
    assert changed.fermenters[1].fermenter.kind == "glass carboy"


def test_what_a_boil_or_a_fermenter_leaves_to_the_recipe_becomes_its_own_when_it_is_set():
    changed = set_field(PLAN, "boils.1.hops.1.amount", "12 g")
    assert [hop.amount.text for hop in changed.boils[0].hops] == ["12 g"]
    assert changed.boils[0].fermentables is None
    assert changed.hops == PLAN.hops
    changed = set_field(PLAN, "boils.1.fermentables.3.amount", "0.12 kg")
    assert [line.amount.text for line in changed.boils[0].fermentables] == [
        "850 g", "500 g", "0.12 kg"
    ]  # fmt: skip
    changed = set_field(PLAN, "fermenters.2.yeast.attenuation", "72 %")
    assert changed.fermenters[1].yeast == replace(
        PLAN.yeast, attenuation=changed.fermenters[1].yeast.attenuation
    )
    everywhere = replace(PLAN, fermenters=(replace(PLAN.fermenters[0], wort_from=()),))
    changed = set_field(everywhere, "fermenters.1.from.2.share", "90 %")
    assert [each.boil for each in changed.fermenters[0].wort_from] == [1, 2]


@pytest.mark.parametrize(
    ("place", "text", "problem"),
    [
        ("boils.3.share", "1 %", "boils.3.share: boils are counted from 1 to 2, as in boils.1"),
        ("boils.0.share", "1 %", "boils are counted from 1 to 2"),
        ("boils.first.share", "1 %", "boils are counted from 1 to 2"),
        ("boils", "1 %", "boils are counted from 1 to 2"),
        ("fermenters.9.top_up_to", "1 L", "fermenters are counted from 1 to 2"),
        ("boils.1", "1 %", "boils.1: no such field; there are boil_time, evaporation"),
        ("boils.1.stove", "gas", "no such field; there are boil_time, evaporation"),
        ("boils.1.pot.colour", "red", "no such field; there are coil, diameter"),
        ("boils.1.pot", "9 L", "boils.1.pot: no such place; boils.1.start_water, boils.1.hops.1."),
        ("boils.1.share.2", "9 %", "boils.1.share.2: no such place; boils.1.start_water"),
        ("boils.2.hops.3.amount", "1 g", "hops are counted from 1 to 2"),
        ("boils.2.hops", "1 g", "boils.2.hops: no such place"),
        ("boils.1.extras.1.amount", "1 g", "boils.1.extras.1.amount: there are no extras"),
        ("fermenters.1.from.1.boil", "many", "a whole number of 1 to 6 is wanted here"),
        ("fermenters.1.from.1.boil", "7", "a whole number of 1 to 6 is wanted here"),
        ("fermenters.1.wort_from.1.boil", "1", "no such field; there are fermenter, from, frozen"),
        ("fermenters.1.top_up_to", "2 kg", "fermenters.1.top_up_to: "),
        ("fermenters.1.top_up_to", "200000 L", "is outside 0 mL to 100000 L"),
        ("boils.1.turn", "later", "is not one of: after the one before"),
        ("boils.2.hops.1.line_id", "3", "no such field"),
    ],
)
def test_a_place_of_a_plan_that_is_not_there_is_refused_with_those_that_are(place, text, problem):
    with pytest.raises(RefusedInputError) as refused:
        set_field(PLAN, place, text)
    assert problem in str(refused.value)


def test_a_recipe_without_a_plan_says_what_makes_one(brew):
    with pytest.raises(RefusedInputError) as refused:
        set_field(brew, "fermenters.1.top_up_to", "9 L")
    assert str(refused.value) == (
        "fermenters.1.top_up_to: the recipe has no plan with fermenters; hobwort fit FILE "
        "--use N -o OUT writes one"
    )


def test_every_field_of_a_boil_and_a_fermenter_can_be_named():
    for of, first in ((PlannedBoil, "boils"), (PlannedFermenter, "fermenters")):
        for each, facts in quantity_fields(of):
            text = show(facts.kind, min(facts.high, 1.0))
            changed = getattr(set_field(PLAN, f"{first}.1.{each.name}", text), first)[0]
            assert getattr(changed, each.name).text == text


def test_the_name_of_a_line_more_than_there_are_puts_it_in(brew):
    recipe = brew
    count = len(recipe.fermentables) + 1
    words = {"name": "Light dry malt extract", "kind": "dry extract", "amount": "180 g"}
    made = recipe
    for key, text in words.items():
        made = set_field(made, f"fermentables.{count}.{key}", text)
    (*others, new) = made.fermentables
    assert tuple(others) == recipe.fermentables
    assert (new.name, new.kind, new.amount.value) == (words["name"], words["kind"], 0.18)
    assert new.line_id not in [each.line_id for each in (*recipe.fermentables, *recipe.hops)]
    with pytest.raises(RefusedInputError, match="counted from 1"):
        set_field(recipe, f"fermentables.{count + 1}.name", "too far on")
    with pytest.raises(RefusedInputError, match="counted from 1"):
        set_field(recipe, f"fermentables.{count}.amount", "180 g")
