"""Every field of the document is declared whole: what it is, its limits, and why its default."""

from dataclasses import MISSING, FrozenInstanceError, fields, replace

import pytest

from designer.recipe.document import LINE_TYPES, PART_TYPES, PLAN_TYPES, Pot, Process, Recipe
from designer.recipe.fields import facts_of, number, number_or_none, quantity_fields
from designer.recipe.quantity import Kind, Quantity, When
from designer.units import is_clock, read, show

OWNERS = {"recipe": Recipe, **PART_TYPES, **LINE_TYPES, **PLAN_TYPES}
NOT_FIGURES = {"when", "locked", "line_id"}
ALL = [
    pytest.param(owner, each, id=f"{name}.{each.name}")
    for name, owner in OWNERS.items()
    for each in fields(owner)
    if each.name not in {*PART_TYPES, *LINE_TYPES, *PLAN_TYPES}
]
FIGURES = [
    pytest.param(each, facts, id=f"{name}.{each.name}")
    for name, owner in OWNERS.items()
    for each, facts in quantity_fields(owner)
]


@pytest.mark.parametrize(("owner", "each"), ALL)
def test_every_field_says_what_it_is(owner, each):
    if each.name in ("when", "line_id"):
        assert isinstance(getattr(owner(), each.name), When | int)
        return
    facts = each.metadata.get("facts")
    label = facts.label if facts else each.metadata["label"]
    assert label[0].isupper(), "a label begins with a capital letter"
    assert label == label.strip()


@pytest.mark.parametrize(("owner", "each"), ALL)
def test_every_field_of_words_has_a_default_among_its_choices(owner, each):
    if "choices" in each.metadata:
        default = getattr(owner(), each.name)
        choices = each.metadata["choices"]
        assert isinstance(default, str)
        assert default in choices or not choices
        assert len(set(choices)) == len(choices)
        assert not each.metadata.get("clock") or is_clock(default)


@pytest.mark.parametrize(("each", "facts"), FIGURES)
def test_every_figure_has_a_kind_and_limits_that_hold_something(each, facts):
    assert isinstance(facts.kind, Kind)
    assert facts.low < facts.high
    assert each.default is None, "left out means left out; the default is in the declaration"
    assert read(facts.kind, show(facts.kind, facts.low)).value <= facts.high
    assert read(facts.kind, show(facts.kind, facts.high)).value >= facts.low


@pytest.mark.parametrize(("each", "facts"), FIGURES)
def test_every_default_lies_within_the_limits_and_says_what_it_rests_on(each, facts):
    if facts.default is None:
        assert facts.source == ""
        return
    assert facts.low <= facts.default <= facts.high
    assert len(facts.source) > 8, "a default needs a source or a note"
    assert facts.default_text
    if facts.default_text != "none":
        assert read(facts.kind, facts.default_text).value == pytest.approx(facts.default)


@pytest.mark.parametrize(("each", "facts"), FIGURES)
def test_every_usual_spread_says_what_it_rests_on(each, facts):
    assert 0.0 <= facts.spread <= facts.high - facts.low
    assert not facts.relative or facts.spread < 1.0
    assert bool(facts.spread) == bool(facts.spread_source), "a spread needs a source or a note"


def test_no_two_fields_of_a_part_have_the_same_label():
    for owner in OWNERS.values():
        labels = [facts.label for _, facts in quantity_fields(owner)]
        assert len(set(labels)) == len(labels), owner


def test_the_parts_and_lines_of_a_recipe_are_those_listed():
    named = {each.name for each in fields(Recipe)}
    assert {*PART_TYPES, *LINE_TYPES, *PLAN_TYPES} == named - {"name", "style", "notes"}
    for name, of in PART_TYPES.items():
        assert type(getattr(Recipe(), name)) is of
    for name in (*LINE_TYPES, *PLAN_TYPES):
        assert getattr(Recipe(), name) == ()


def test_every_part_and_line_can_be_made_of_nothing_and_is_frozen():
    for owner in OWNERS.values():
        made = owner()
        assert made == owner()
        assert hash(made) == hash(owner())
        first = fields(owner)[0]
        with pytest.raises(FrozenInstanceError):
            setattr(made, first.name, "x")
        assert all(
            each.default is not MISSING or each.default_factory is not MISSING
            for each in fields(owner)
        )


def test_the_number_of_a_field_is_what_was_typed_or_else_the_default():
    typed = Process(boil_time=Quantity(45.0, "45 min"))
    assert number(typed, "boil_time") == number_or_none(typed, "boil_time") == 45.0
    assert number(Process(), "boil_time") == number_or_none(Process(), "boil_time") == 60.0


def test_a_zero_that_was_typed_is_not_taken_for_left_out():
    still = Process(evaporation=Quantity(0.0, "0 L/h"))
    assert number(still, "evaporation") == 0.0
    assert number_or_none(still, "evaporation") == 0.0


def test_what_is_neither_typed_nor_has_a_default_stays_unknown():
    assert number_or_none(Pot(), "diameter") is None
    with pytest.raises(KeyError, match="diameter"):
        number(Pot(), "diameter")


def test_a_field_that_is_no_figure_or_not_there_has_no_facts():
    for name in ("name", "stove", "colour"):
        with pytest.raises(KeyError, match=name):
            facts_of(Pot, name)
    assert facts_of(Pot, "volume") is facts_of(Pot(), "volume")


def test_recipes_are_compared_without_the_numbers_of_their_lines():
    for of in LINE_TYPES.values():
        assert of() == replace(of(), line_id=7)
