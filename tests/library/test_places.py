"""A field of a recipe named as text: `process.top_up_to`, `hops.2.alpha`."""

from dataclasses import fields

import pytest

from designer.errors import RefusedInputError
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.recipe.document import LINE_TYPES, PART_TYPES
from designer.recipe.quantity import Stage
from designer.resource_files import resource_path
from designer.units import show


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
