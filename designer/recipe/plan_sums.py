"""What the boils of a plan hold beside what the recipe lists: where one no longer adds up to it.

Only lists that a boil has of its own can differ; all else is a share of what is listed.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from designer.recipe.document import LINE_TYPES, Recipe
from designer.recipe.kinds import typed
from designer.recipe.message import Message, in_a_row, say
from designer.recipe.named import Line, lines_of
from designer.recipe.plan import boils_of, recipe_of_boil, share_of
from designer.recipe.quantity import Kind, Quantity

NOTICED_SHARE = 0.02
"""A smaller share of an amount is the rounding of scales and packs."""
MOST_TOLD = 3


class Sum(NamedTuple):
    """How much of an ingredient all boils hold, and how much of it the recipe asks for there.

    Both are in its `unit`, "" for kilograms.
    """

    name: str
    unit: str
    held: float
    listed: float


def sums_that_differ(recipe: Recipe) -> tuple[Sum, ...]:
    """Return the ingredients of which the boils hold more or less than the recipe lists.

    Of a plan that takes a share of the recipe, it is that share which is asked for.
    """
    return tuple(
        each
        for name in LINE_TYPES
        if any(getattr(boil, name) is not None for boil in recipe.boils)
        for each in _sums(recipe, name)
        if abs(each.held - each.listed) > NOTICED_SHARE * max(each.held, each.listed)
    )


def _sums(recipe: Recipe, name: str) -> Iterator[Sum]:
    boils = boils_of(recipe)
    share = sum(share_of(recipe, each) for each in boils)
    asked: dict[tuple[str, str], float] = {}
    held: dict[tuple[str, str], float] = {}
    for line, key in _keyed(lines_of(recipe, name)):
        asked[key] = asked.get(key, 0.0) + share * line.value
    for number in range(1, len(boils) + 1):
        for line, key in _keyed(lines_of(recipe_of_boil(recipe, number), name)):
            held[key] = held.get(key, 0.0) + line.value
    for key in asked | held:
        yield Sum(*key, held.get(key, 0.0), asked.get(key, 0.0))


def _keyed(lines: tuple[Line, ...]) -> Iterator[tuple[Quantity, tuple[str, str]]]:
    for line in lines:
        if line.amount is not None:
            yield line.amount, (line.name, line.amount.unit)


def differing_words(recipe: Recipe) -> Message | None:
    """Return what the boils hold otherwise than the recipe lists; None where they add up to it."""
    found = sums_that_differ(recipe)
    if not found:
        return None
    told: list[object] = [_told(each) for each in found[:MOST_TOLD]]
    if len(found) > MOST_TOLD:
        told.append(say("and-more-lines", "{count} more", count=len(found) - MOST_TOLD))
    return say(
        "plan-differs",
        "The boils hold {what}. Fit it again if the recipe was changed since.",
        what=in_a_row(told),
    )


def _told(each: Sum) -> Message:
    kind = Kind.DOSE if each.unit else Kind.MASS
    held, wanted = ((kind, _figure(kind, value, each.unit)) for value in (each.held, each.listed))
    if each.listed == 0.0:
        return say("held-not-listed", "{0} {name} (not in the recipe)", held, name=each.name)
    if each.held == 0.0:
        return say("listed-not-held", "no {name} (the recipe {0})", wanted, name=each.name)
    return say("held-and-listed", "{0} {name} (the recipe {1})", held, wanted, name=each.name)


def _figure(kind: Kind, value: float, unit: str) -> float | Quantity:
    return typed(kind, round(value, 3), unit=unit) if unit else value
