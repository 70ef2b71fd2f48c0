"""A recipe's forecast as it is, and as it would be with all that its kitchen taught."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from designer.brewday.learning.figures import Learned
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Outlook
from designer.recipe.document import PART_TYPES, Recipe
from designer.recipe.edits import ChangeRecipe, Edit, Together
from designer.recipe.message import say
from designer.recipe.quantity import Quantity
from designer.recipe.taught import Filled, replaced_with, value_at
from designer.workbench.learning.figure_places import figure_text
from designer.workbench.learning.taken import TakenFigure
from designer.workbench.learning.taught import Taught
from designer.workbench.learning.with_taught import (
    filled_by,
    naming_what_it_rests_on,
    offered_by,
    with_taught,
)


@dataclass(frozen=True, slots=True)
class BeforeAndAfter:
    """Both outlooks. `typed` are fields of which the recipe keeps what is typed, with the figure
    that was taught for each: `after` is what they would make of it.
    """

    before: Outlook
    after: Outlook
    typed: tuple[Filled, ...] = ()


def before_and_after(recipe: Recipe, taught: Taught) -> BeforeAndAfter:
    """Return the outlooks of a recipe as written, without and with all that was learned.

    What may be taken counts as taken. It takes two forecasts: for a thread beside the window.
    """
    taken = _with_learned(taught)
    offered = offered_by(recipe, taken)
    fills = filled_by(recipe, taught.taken)
    before = naming_what_it_rests_on(look_ahead(with_taught(recipe, taught.taken)), fills)
    after = naming_what_it_rests_on(look_ahead(replaced_with(recipe, offered)), offered)
    typed = tuple(each for each in offered if _is_other(value_at(recipe, each.path), each))
    return BeforeAndAfter(before, after, typed)


def adopting(recipe: Recipe, fills: Iterable[Filled]) -> Edit:
    """Return the edit that types taught figures into the fields of a recipe, as one step."""
    text = say("adopt-taught", "use what the kitchen taught")
    after = replaced_with(recipe, fills, as_typed=True)
    names = (*PART_TYPES, "boils", "fermenters")
    changed = [name for name in names if getattr(after, name) != getattr(recipe, name)]
    return Together(tuple(ChangeRecipe(name, getattr(after, name), text) for name in changed), text)


def as_taken(known: Learned) -> TakenFigure:
    """Return a learned figure as it would be if it were taken now."""
    brews = tuple(each.brew for each in known.steps if each.counts)
    text = figure_text(known.figure, known.known)
    return TakenFigure(known.figure, known.subject, text, brews=brews)


def _with_learned(taught: Taught) -> Sequence[TakenFigure]:
    found = {(each.figure, each.subject): each for each in taught.taken}
    for known in taught.learned:
        if known.enough:
            found[known.figure, known.subject] = as_taken(known)
    return tuple(found.values())


def _is_other(typed: Quantity | None, taught: Filled) -> bool:
    return typed is not None and typed != taught.quantity.as_typed()
