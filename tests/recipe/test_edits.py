"""Edits: each changes what it names and nothing else, and says so in a brewer's words."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from designer.recipe.document import Extra, Fermentable, Hop, Pot, Recipe, Yeast
from designer.recipe.edits import (
    LISTS,
    PASTE,
    AddLine,
    ChangeLine,
    ChangePart,
    ChangeRecipe,
    MoveLine,
    RemoveLines,
    Together,
    lines_added,
    next_line_id,
    set_locked,
    with_amount,
    with_line_ids,
)
from designer.recipe.message import word
from designer.recipe.quantity import Quantity

NINE_L = Quantity(9.0, "9 L")
TEN_G = Quantity(0.01, "10 g")


def kilograms(value):
    return Quantity(value, f"{value} kg")


def ids(lines):
    return [line.line_id for line in lines]


def names(lines):
    return [line.name for line in lines]


def test_a_field_of_the_recipe_is_changed(bitter):
    changed = ChangeRecipe("name", "Mooring Bitter", word("rename recipe")).apply(bitter)
    assert changed == replace(bitter, name="Mooring Bitter")


def test_a_field_of_a_part_is_changed_and_can_be_emptied(bitter):
    typed = ChangePart("process", "top_up_to", NINE_L, word("change top-up")).apply(bitter)
    assert typed == replace(bitter, process=replace(bitter.process, top_up_to=NINE_L))
    assert ChangePart("process", "top_up_to", None, word("empty top-up")).apply(typed) == bitter


def test_a_whole_part_is_replaced(bitter):
    pot = Pot("Stock pot", Quantity(15.0, "15 L"))
    assert ChangeRecipe("pot", pot, word("choose pot")).apply(bitter) == replace(bitter, pot=pot)
    yeast = Yeast("Kit ale yeast, unnamed")
    assert ChangeRecipe("yeast", yeast, word("choose yeast")).apply(bitter).yeast is yeast


def test_fields_of_one_line_are_changed_and_the_line_keeps_its_number_and_place(bitter):
    edit = ChangeLine("hops", 4, (("amount", TEN_G), ("form", "whole")), word("change hop amount"))
    changed = edit.apply(bitter)
    assert [hop.amount for hop in changed.hops] == [None, TEN_G, None]
    assert changed.hops[1].form == "whole"
    assert ids(changed.hops) == ids(bitter.hops) == [3, 4, 5]
    assert replace(changed, hops=bitter.hops) == bitter


def test_a_line_that_is_gone_or_in_another_list_is_not_changed(bitter):
    assert ChangeLine("hops", 99, (("amount", TEN_G),), word("change hop")).apply(bitter) == bitter
    assert (
        ChangeLine("extras", 4, (("amount", TEN_G),), word("change extra")).apply(bitter) == bitter
    )


@pytest.mark.parametrize(
    ("position", "order"), [(None, "NCEx"), (0, "xNCE"), (1, "NxCE"), (3, "NCEx"), (99, "NCEx")]
)
def test_a_line_is_added_where_it_is_wanted_under_a_number_of_its_own(bitter, position, order):
    changed = AddLine("hops", Hop("x", line_id=3), word("add hop"), position).apply(bitter)
    assert "".join(name[0] for name in names(changed.hops)) == order
    added = next(hop for hop in changed.hops if hop.name == "x")
    assert added.line_id == 7, "no other line of the recipe has it, in whatever list"
    assert sorted(ids(changed.hops)) == [3, 4, 5, 7]


def test_a_new_line_never_takes_the_number_of_one_that_is_there(bitter):
    fewer = RemoveLines("hops", frozenset({3}), word("remove hop")).apply(bitter)
    added = AddLine("extras", Extra("Gelatin"), word("add extra")).apply(fewer)
    assert added.extras[-1].line_id == 7


def test_lines_are_taken_out_together_and_unknown_numbers_do_no_harm(bitter):
    changed = RemoveLines("hops", frozenset({3, 5, 99}), word("remove hops")).apply(bitter)
    assert names(changed.hops) == ["Challenger"]
    assert changed.fermentables == bitter.fermentables
    assert RemoveLines("hops", frozenset({1}), word("remove hop")).apply(bitter) == bitter
    assert RemoveLines("hops", frozenset({3, 4, 5}), word("remove hops")).apply(bitter).hops == ()


@pytest.mark.parametrize(
    ("position", "order"), [(0, [5, 3, 4]), (1, [3, 5, 4]), (2, [3, 4, 5]), (9, [3, 4, 5])]
)
def test_a_line_is_moved_among_the_others(bitter, position, order):
    assert ids(MoveLine("hops", 5, position, word("move hop")).apply(bitter).hops) == order


def test_a_line_moved_before_the_front_stands_at_the_front_and_an_unknown_one_nowhere(bitter):
    assert ids(MoveLine("hops", 4, -5, word("move hop")).apply(bitter).hops) == [4, 3, 5]
    assert MoveLine("hops", 99, 0, word("move hop")).apply(bitter) == bitter


def test_several_edits_are_one_and_are_made_in_order(bitter):
    edit = Together(
        (
            AddLine("hops", Hop("Fuggle"), word("add hop")),
            ChangeLine("hops", 7, (("amount", TEN_G),), word("change hop amount")),
            MoveLine("hops", 7, 0, word("move hop")),
            ChangePart("process", "top_up_to", NINE_L, word("change top-up")),
        ),
        word("fit to the pot"),
    )
    changed = edit.apply(bitter)
    assert names(changed.hops)[0] == "Fuggle"
    assert changed.hops[0].amount == TEN_G
    assert changed.process.top_up_to == NINE_L
    assert Together((), word("nothing")).apply(bitter) is bitter


def every_edit(merge_key=""):
    return [
        ChangeRecipe("name", "x", word("rename recipe"), merge_key),
        ChangePart("process", "top_up_to", NINE_L, word("change top-up"), merge_key),
        ChangeRecipe("pot", Pot("Stock pot"), word("choose pot"), merge_key),
        ChangeLine("hops", 3, (("amount", TEN_G),), word("change hop amount"), merge_key),
        AddLine("hops", Hop("x"), word("add hop"), merge_key=merge_key),
        RemoveLines("hops", frozenset({3}), word("remove hop"), merge_key),
        MoveLine("hops", 3, 2, word("move hop"), merge_key),
        Together((ChangeRecipe("name", "x", word("rename")),), word("fit to the pot"), merge_key),
    ]


@pytest.mark.parametrize("edit", every_edit(), ids=lambda edit: type(edit).__name__)
def test_every_edit_leaves_the_recipe_it_is_applied_to_as_it_was(edit, bitter):
    before = replace(bitter)
    assert edit.apply(bitter) != bitter
    assert bitter == before
    assert edit.apply(bitter) == edit.apply(bitter)


@pytest.mark.parametrize("edit", every_edit(), ids=lambda edit: type(edit).__name__)
def test_no_edit_is_merged_with_the_next_unless_it_is_asked_to_be(edit):
    assert edit.merge_key == ""
    assert edit.text


@pytest.mark.parametrize("edit", every_edit("typing"), ids=lambda edit: type(edit).__name__)
def test_every_edit_carries_the_key_that_makes_one_undo_step_of_several(edit):
    assert edit.merge_key == "typing"


def test_edits_are_values_that_can_be_compared_and_kept():
    for edit, twin in zip(every_edit(), every_edit(), strict=True):
        assert edit == twin
        assert hash(edit) == hash(twin)


def test_the_last_edit_of_a_merged_row_makes_of_the_first_recipe_what_all_of_them_made(bitter):
    steps = [
        ChangePart(
            "process", "top_up_to", Quantity(float(n), f"{n} L"), word("change top-up"), "top_up"
        )
        for n in (1, 10, 100)
    ]
    recipe = bitter
    for step in steps:
        recipe = step.apply(recipe)
    assert recipe == steps[-1].apply(bitter)


def test_lines_of_a_fresh_recipe_are_numbered_through_all_lists(bitter):
    assert ids(bitter.fermentables) == [1, 2]
    assert ids(bitter.hops) == [3, 4, 5]
    assert ids(bitter.extras) == [6]
    assert next_line_id(bitter) == 7
    assert next_line_id(Recipe()) == 1
    assert with_line_ids(bitter) == bitter


_lines = {"fermentables": Fermentable("x"), "hops": Hop("x"), "extras": Extra("x")}
_edits = st.one_of(
    st.builds(
        lambda name, at: AddLine(name, _lines[name], word("add"), at),
        st.sampled_from(LISTS),
        st.one_of(st.none(), st.integers(0, 9)),
    ),
    st.builds(
        lambda name, gone: RemoveLines(name, gone, word("remove")),
        st.sampled_from(LISTS),
        st.frozensets(st.integers(1, 9), max_size=2),
    ),
    st.builds(
        lambda name, line, to: MoveLine(name, line, to, word("move")),
        st.sampled_from(LISTS),
        st.integers(1, 9),
        st.integers(-2, 9),
    ),
)


@settings(deadline=None)
@given(st.lists(_edits, max_size=12))
def test_after_any_edits_no_two_lines_of_a_recipe_have_the_same_number(edits):
    recipe = Together(tuple(edits), word("many")).apply(Recipe())
    found = [line.line_id for name in LISTS for line in getattr(recipe, name)]
    assert len(set(found)) == len(found)
    assert 0 not in found


@settings(deadline=None)
@given(st.lists(_edits, max_size=8), st.integers(1, 9), st.integers(-2, 9))
def test_moving_loses_and_doubles_no_line(edits, line, position):
    recipe = Together(tuple(edits), word("many")).apply(Recipe())
    moved = MoveLine("hops", line, position, word("move hop")).apply(recipe)
    assert sorted(ids(moved.hops)) == sorted(ids(recipe.hops))
    others = [each for each in ids(recipe.hops) if each != line]
    assert [each for each in ids(moved.hops) if each != line] == others


def test_a_line_is_locked_and_unlocked(bitter):
    locked = set_locked("hops", bitter.hops[1], True)
    assert locked.text.text == "lock Challenger"
    after = locked.apply(bitter)
    assert [hop.locked for hop in after.hops] == [False, True, False]
    opened = set_locked("hops", after.hops[1], False)
    assert opened.text.text == "unlock Challenger"
    assert opened.apply(after) == bitter


def test_half_a_tin_keeps_what_its_label_is_for():
    tin = Fermentable("Hopped kit", amount=kilograms(1.7), label_volume=Quantity(23.0, "23 L"))
    half = dict(with_amount(tin, kilograms(0.85)))
    assert half == {"amount": kilograms(0.85), "label_amount": kilograms(1.7)}
    again = dict(with_amount(replace(tin, **half), kilograms(0.4)))
    assert again == {"amount": kilograms(0.4)}


def test_a_tin_without_an_amount_or_a_label_has_none_to_keep():
    plain = Fermentable("Kit", amount=kilograms(1.7))
    unweighed = Fermentable("Kit", label_volume=Quantity(23.0, "23 L"))
    none_of_it = replace(unweighed, amount=kilograms(0.0))
    for line in (plain, unweighed, none_of_it, Hop("Northdown", amount=kilograms(0.02))):
        assert with_amount(line, kilograms(1.0)) == (("amount", kilograms(1.0)),)


def test_added_lines_are_named_in_the_menu_and_several_counted(bitter):
    one = lines_added([("hops", Hop("Fuggle"))], PASTE)
    assert one.text.text == "paste Fuggle"
    two = lines_added([("hops", Hop("Fuggle")), ("extras", Extra("Salt"))], PASTE)
    assert two.text.text == "paste 2 lines"
    assert [hop.name for hop in two.apply(bitter).hops][-1] == "Fuggle"
