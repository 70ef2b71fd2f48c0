"""A grist and hops weighed out for a kitchen: the day is run until gravity and bitterness hold.

Each turn the day says what gravity, bitterness and fullness came of the amounts, and they are
changed in proportion (`turning`); then they are rounded to what a kitchen can weigh (`rounding`).
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.day import brew
from designer.brewday.first.amounts import Amounts, Task
from designer.brewday.first.fermenting import cooled, with_yeast
from designer.brewday.first.larder import Role
from designer.brewday.first.rounding import rounded
from designer.brewday.first.turning import smaller_batch, turn
from designer.brewday.results import Day
from designer.recipe.document import Recipe

TURNS, SETTLED = 8, 2
"""Turns until all holds, and until it holds so far that the pot can be seen to be too small."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A recipe with its day, and what each line is in it for, by line_id."""

    recipe: Recipe
    day: Day
    roles: dict[int, Role]
    batch_l: float


def weighed(task: Task) -> Weighed:
    """Return what is to be weighed out, as a recipe, with the day it makes."""
    amounts = Amounts(task)
    for number in range(TURNS):
        day = brew(amounts.recipe())
        if number >= SETTLED:
            smaller_batch(amounts, day)
        turn(amounts, day)
    day = rounded(amounts)
    recipe = cooled(with_yeast(amounts.recipe(), day), day, amounts.pitch_c)
    roles = [each.role for each in amounts.fermentables] + [each.role for each in amounts.hops]
    ids = [each.line_id for each in recipe.fermentables] + [each.line_id for each in recipe.hops]
    return Weighed(recipe, brew(recipe), dict(zip(ids, roles, strict=True)), amounts.batch_l)
