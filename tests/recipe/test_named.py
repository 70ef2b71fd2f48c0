"""Lists, parts and fields are found by their declared names, and by no other."""

from dataclasses import fields

import pytest

from designer.recipe.document import LINE_TYPES, PART_TYPES, Extra, Hop, Recipe
from designer.recipe.named import is_locked, lines_of, part_of, value_of

RECIPE = Recipe(hops=(Hop("Fuggle", locked=True), Hop("Golding")), extras=(Extra("Irish moss"),))


def test_every_list_part_and_field_is_found_by_its_name():
    assert {name: lines_of(RECIPE, name) for name in LINE_TYPES} == {
        "fermentables": RECIPE.fermentables, "hops": RECIPE.hops, "extras": RECIPE.extras,
    }  # fmt: skip
    for name in PART_TYPES:
        part = part_of(RECIPE, name)
        assert [value_of(part, each.name) for each in fields(part)] == [
            getattr(part, each.name) for each in fields(part)
        ]


@pytest.mark.parametrize(
    "ask",
    [
        lambda: lines_of(RECIPE, "hop"),
        lambda: lines_of(RECIPE, "yeast"),
        lambda: part_of(RECIPE, "hops"),
        lambda: part_of(RECIPE, "potts"),
        lambda: value_of(RECIPE.pot, "volumes"),
        lambda: value_of(RECIPE.pot, "__class__"),
        lambda: value_of(RECIPE.extras[0], "alpha"),
    ],
)
def test_a_name_that_is_declared_nowhere_is_refused(ask):
    with pytest.raises(KeyError):
        ask()


def test_only_a_line_that_has_a_lock_can_be_locked():
    assert [is_locked(each) for each in (*RECIPE.hops, *RECIPE.extras, None)] == [
        True, False, False, False,
    ]  # fmt: skip
