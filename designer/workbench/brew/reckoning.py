"""What is reckoned of a brew: the day as planned, as it is known by now, its steps and advice.

All follows from the recipe that was brewed and the log; nothing of it is kept.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from designer.brewday.outlook import look_ahead
from designer.brewday.results import Outlook
from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep, stove_steps
from designer.units.shown import ShownUnits
from designer.workbench.brew.brewing import Brewing


@dataclass(frozen=True, slots=True)
class Reckoned:
    """`recipe` is that which the brew makes of the one brewed; `planned` the day as it was meant.

    `outlook` is the day as it is known from what was measured. `whole` tells that ranges are known.
    """

    recipe: Recipe
    planned: Outlook
    outlook: Outlook
    steps: tuple[StoveStep, ...]
    proposals: tuple[Any, ...] = ()
    whole: bool = True


Reckon = Callable[..., Reckoned]


def reckoned(
    brewing: Brewing,
    shown: ShownUnits,
    planned: Outlook | None = None,
    *,
    ranges: bool = True,
) -> Reckoned:
    """Return what follows from a brew as it stands; `planned` is not reckoned again.

    Without `ranges` it is a glimpse, for which nobody has to wait.
    """
    recipe = brewing.recipe
    if planned is None:
        planned = look_ahead(recipe, ranges=ranges)
    began = began_at(brewing)
    steps = stove_steps(
        recipe,
        planned,
        shown=shown,
        start=None if began is None else f"{began:%H:%M}",
        brew_date=None if began is None else began.date(),
    )
    return Reckoned(recipe, planned, planned, steps, (), ranges)


def began_at(brewing: Brewing) -> datetime | None:
    """Return when a brew began, by the clock of the place; None while it has not."""
    if brewing.began is None:
        return None
    try:
        return datetime.fromtimestamp(brewing.began.wall, UTC).astimezone()
    except (ValueError, OverflowError, OSError):
        return None
