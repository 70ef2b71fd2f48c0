"""What is reckoned of a brew: the day as planned, as it is known by now, its steps and advice.

All follows from the recipe that was brewed and the log; nothing of it is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from designer.brewday.measured.advice import Proposal, proposals
from designer.brewday.measured.expecting import get_ready
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Outlook
from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep, stove_steps
from designer.units.shown import ShownUnits
from designer.workbench.brew.as_brewed import as_brewed, readings_as_brewed, with_accepted
from designer.workbench.brew.brewing import Brewing, Status, brewing_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.reading_story import fits_day, has_unsettled
from designer.workbench.brew.where_it_stands import standing_of


@dataclass(frozen=True, slots=True)
class Reckoned:
    """`recipe` is that which the brew makes of the one brewed; `planned` the day as it was meant.

    `outlook` is the day as it is known from what was measured. `whole` tells that ranges are known.
    """

    recipe: Recipe
    planned: Outlook
    outlook: Outlook
    steps: tuple[StoveStep, ...]
    proposals: tuple[Proposal, ...] = ()
    whole: bool = True


_TELLS_NOTHING = {What.NOTE, What.BACK, What.LATER, What.CLOCK, What.TASTED}
_LATER_THAN_THE_DAY = {What.WARMTH, What.PACKING, What.PACKAGED, What.REMINDER, What.COUNTS}
_TELLING = frozenset(What) - _TELLS_NOTHING - _LATER_THAN_THE_DAY
Reckon = Callable[..., Reckoned]


def reckoned(
    brewing: Brewing,
    shown: ShownUnits,
    planned: Outlook | None = None,
    *,
    ranges: bool = True,
    advice: bool = True,
) -> Reckoned:
    """Return what follows from a brew as it stands; `planned` is not reckoned again.

    Without `ranges` it is a glimpse, for which nobody has to wait, and without `advice` too nothing
    is proposed.
    """
    brewing = where_it_was(brewing)
    if planned is None:
        planned = look_ahead(brewing.recipe, ranges=ranges)
    recipe = as_brewed(brewing.recipe, brewing)
    readings = _readings(brewing, recipe, ranges=ranges)
    outlook = day_measured(recipe, readings, ranges=ranges)
    advised: tuple[Proposal, ...] = ()
    if ranges:
        get_ready(outlook)
    if ranges and advice:
        left = [each.values for each in brewing.kept]
        standing = standing_of(brewing)
        advised = proposals(recipe, readings, planned, outlook, standing, left=left)
    steps = _steps(brewing, readings, shown, recipe, outlook)
    return Reckoned(recipe, planned, outlook, steps, advised, ranges)


def _readings(brewing: Brewing, recipe: Recipe, *, ranges: bool) -> tuple[Reading, ...]:
    """Return the readings of the day; a sample that was not mixed counts where it fits the day."""
    if not ranges or not has_unsettled(brewing):
        return readings_as_brewed(brewing)
    before = day_measured(recipe, before_gravity(brewing))
    return readings_as_brewed(brewing, fits=fits_day(before, recipe))


def before_gravity(brewing: Brewing) -> tuple[Reading, ...]:
    """Return the readings of the day but for what the original gravity was read to be."""
    readings = readings_as_brewed(brewing)
    return tuple(each for each in readings if each.what is not Measured.ORIGINAL_GRAVITY)


def what_tells(brewing: Brewing) -> tuple[object, ...]:
    """Return all of a brew that its day is reckoned from: where it is the same, so is that."""
    telling = tuple((e.what, e.id, e.at, e.values) for e in brewing.live if e.what in _TELLING)
    return brewing.recipe, telling


def where_it_was(brewing: Brewing) -> Brewing:
    """Return a brew without being gone back in: what was done before is in the pot all the same."""
    if not any(each.status is Status.NOW and each.entry for each in brewing.states):
        return brewing
    onward = [each for each in brewing.entries if each.what is not What.BACK]
    return brewing_of(brewing.recipe, brewing.steps, onward)


def _steps(
    brewing: Brewing,
    readings: Sequence[Reading],
    shown: ShownUnits,
    recipe: Recipe,
    outlook: Outlook,
) -> tuple[StoveStep, ...]:
    """Return the steps of the day: those that were left out are there, times are as meant."""
    told = with_accepted(brewing.recipe, brewing)
    if told != recipe:
        outlook = day_measured(told, readings, ranges=False)
    began = began_at(brewing)
    return stove_steps(
        told,
        outlook,
        shown=shown,
        start=None if began is None else f"{began:%H:%M}",
        brew_date=None if began is None else began.date(),
    )


def began_at(brewing: Brewing) -> datetime | None:
    """Return when a brew began, by the clock of the place; None while it has not."""
    if brewing.began is None:
        return None
    try:
        return datetime.fromtimestamp(brewing.began.wall, UTC).astimezone()
    except (ValueError, OverflowError, OSError):
        return None
