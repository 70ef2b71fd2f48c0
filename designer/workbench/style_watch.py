"""What is to be said of the style of a recipe, once, and the change that brings the beer in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from designer.brewday.asked_ranges import Miss
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Finding, Glimpse, Outlook, Range, doubt
from designer.library.catalogue import StyleEntry, find_style
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeRecipe, Edit, Together
from designer.recipe.message import say
from designer.recipe.place import Place
from designer.recipe.severity import Severity
from designer.workbench.style_words import all_beyond
from designer.workbench.styles import asked_by, is_beer, missing_of, nearest_missed

if TYPE_CHECKING:
    from designer.brewday.bringing_in import BroughtIn

STYLES = "styles"
"""Where the styles are told, as findings name it."""
MISSED, IN_NONE = "style-missed", "style-none"


def outlook_of(
    recipe: Recipe, *, ranges: bool = True, glimpsed: Glimpse | None = None, cures: bool = False
) -> Outlook:
    """Return all that is said of a recipe, how it stands to its style included.

    With `cures` a change that brings it into its style is sought, which takes longer.
    """
    outlook = look_ahead(recipe, ranges=ranges, glimpsed=glimpsed)
    found = style_finding(recipe, outlook.forecasts)
    if found is None:
        return outlook
    if cures:
        found = cured(recipe, found)
    return replace(outlook, findings=(*outlook.findings, found))


def style_finding(recipe: Recipe, forecasts: Mapping[str, Range]) -> Finding | None:
    """Return what is to be said of the style of a recipe: one thing, or nothing."""
    if not is_beer(forecasts):
        return None
    style = find_style(recipe.style) if recipe.style else None
    if style is not None:
        missing = missing_of(forecasts, style)
        return None if not missing else _missed(style, missing)
    nearest = nearest_missed(forecasts)
    return None if nearest is None else _in_none(nearest, missing_of(forecasts, nearest))


def _missed(style: StyleEntry, missing: tuple[Miss, ...]) -> Finding:
    return doubt(
        Severity.NOTE,
        Place("style"),
        MISSED,
        "Outside {style}: {misses}.",
        style=style.name,
        misses=all_beyond(missing),
        leads_to=STYLES,
    )


def _in_none(nearest: StyleEntry, missing: tuple[Miss, ...]) -> Finding:
    return doubt(
        Severity.NOTE,
        Place("style"),
        IN_NONE,
        "It is in the range of no style. The nearest is {style}: {misses}.",
        style=nearest.name,
        misses=all_beyond(missing),
        leads_to=STYLES,
    )


def cured(
    recipe: Recipe, finding: Finding, is_wanted: Callable[[], bool] = lambda: True
) -> Finding:
    """Return the finding of a chosen style that is missed with what brings the beer in, if any.

    The search for it ends early once it is not wanted any more.
    """
    style = find_style(recipe.style)
    if finding.code != MISSED or style is None:
        return finding
    return replace(finding, fix=into_style(recipe, style, is_wanted)[0])


def into_style(
    recipe: Recipe, style: StyleEntry, is_wanted: Callable[[], bool] = lambda: True
) -> tuple[Edit | None, BroughtIn]:
    """Return the edit that brings a recipe into a style, as one step, and what it comes to.

    The style becomes that of the recipe. Without an edit no change of amounts gets there.
    """
    from designer.brewday.bringing_in import bring_in  # not with the first forecast

    found = bring_in(recipe, asked_by(style), is_wanted)
    chooses: tuple[Edit, ...] = ()
    if recipe.style != style.name:
        chooses = (choose(style),)
    if found.is_out_of_reach or not (found.edits or chooses):
        return None, found
    if found.changes is None:
        return chooses[0], found
    text = say("into-style", "Bring it in: {changes}", changes=found.changes)
    return Together((*chooses, *found.edits), text), found


def choose(style: StyleEntry) -> ChangeRecipe:
    """Return the edit that makes a style that of the recipe."""
    return ChangeRecipe("style", style.name, say("change-style", "change style"))
