"""Fields of a plan named as text: `boils.1.hops.2.amount`, `fermenters.1.from.1.share`.

What a boil or a fermenter leaves to the recipe becomes its own when a field of it is set: the hops
that are its share, the yeast that is the recipe's.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from designer.errors import RefusedInputError
from designer.library.set_fields import known_fields, with_field
from designer.recipe.document import LINE_TYPES, Recipe
from designer.recipe.message import refused
from designer.recipe.named import lines_of
from designer.recipe.plan import boils_of, fermenters_of, recipe_of_boil, wort_share

Left = Callable[[int, str], Any]
"""What a boil or a fermenter, by its number, leaves to the recipe under the name of a field."""


def in_plan(recipe: Recipe, words: list[str], text: str, place: str) -> Recipe:
    """Return the recipe with one field of a boil or a fermenter of its plan set from text.

    `words` are those of the place, `place` is how it is told. Raises RefusedInputError.
    """
    plan, rest = words[0], words[1:]
    if not getattr(recipe, plan):
        raise refused(
            "no-plan-to-set",
            "{place}: the recipe has no plan with {plan}; hobwort fit FILE --use N -o OUT writes "
            "one",
            place=place,
            plan=plan,
        )
    left = _of_boil(recipe) if plan == "boils" else _of_fermenter(recipe)
    each = getattr(recipe, plan)
    number = _number(rest, len(each), plan, place)
    changed = _within(each[number - 1], rest[1:], text, place, lambda name: left(number, name))
    changes: dict[str, Any] = {plan: (*each[: number - 1], changed, *each[number:])}
    return replace(recipe, **changes)


def _of_boil(recipe: Recipe) -> Left:
    def left(number: int, name: str) -> Any:
        return lines_of(recipe_of_boil(recipe, number), name) if name in LINE_TYPES else None

    return left


def _of_fermenter(recipe: Recipe) -> Left:
    def left(number: int, name: str) -> Any:
        if name != "wort_from":
            return recipe.yeast
        share = 1.0 / len(fermenters_of(recipe))
        return tuple(wort_share(boil, share) for boil, _ in enumerate(boils_of(recipe), 1))

    return left


def _number(words: list[str], count: int, what: str, place: str) -> int:
    """Return the number that stands first, of so many. Raises RefusedInputError."""
    first = words[0] if words else ""
    number = int(first[:9]) if first.isascii() and first.isdigit() else 0
    if count == 0:
        raise refused("none-of-them", "{place}: there are no {what}", place=place, what=what)
    if not 1 <= number <= count:
        raise refused(
            "none-of-that-number",
            "{place}: {what} are counted from 1 to {count}, as in {what}.1",
            place=place,
            what=what,
            count=count,
        )
    return number


def _within(part: Any, words: list[str], text: str, place: str, left: Callable[[str], Any]) -> Any:
    """Return a part with the field set that the words lead to."""
    key, *rest = words or [""]
    each = known_fields(part).get(key)
    if each is None or not {"part", "parts"} & each.metadata.keys():
        if each is None or not rest:
            return with_field(part, key, text, place)  # which tells what fields there are
        raise _no_such(place)
    own = getattr(part, each.name)
    own = left(each.name) if own == each.default else own
    if not rest:
        raise _no_such(place)
    if "part" in each.metadata:
        return replace(part, **{each.name: _within(own, rest, text, place, left)})
    number = _number(rest, len(own), key, place)
    changed = _within(own[number - 1], rest[1:], text, place, left)
    return replace(part, **{each.name: (*own[: number - 1], changed, *own[number:])})


def _no_such(place: str) -> RefusedInputError:
    return refused(
        "no-field-of-plan",
        "{place}: no such place; boils.1.start_water, boils.1.hops.1.amount and "
        "fermenters.1.from.1.share are such places",
        place=place,
    )
