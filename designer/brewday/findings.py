"""Watch out: what is doubtful about a recipe, how much, and the edit that cures it.

Findings never stop a forecast. Each is a small function of the recipe and its day; the cures are
found by running the same day again with the change in it, and looked at before they are offered.
"""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday import (
    findings_beer,
    findings_leaflet,
    findings_lines,
    findings_safety,
    findings_vessels,
    findings_wort,
)
from designer.brewday.checked_cures import with_checked_cures
from designer.brewday.results import Day, Finding
from designer.recipe.document import Recipe


def findings(recipe: Recipe, day: Day) -> tuple[Finding, ...]:
    """Return the findings, worst first, otherwise in the order of the day."""
    found = with_checked_cures(recipe, day, _all(recipe, day), _all)
    return tuple(sorted(found, key=lambda each: each.severity.rank))


_PARTS = (
    findings_safety,
    findings_wort,
    findings_lines,
    findings_vessels,
    findings_beer,
    findings_leaflet,
)
_FINDERS = tuple(finder for part in _PARTS for finder in part.FINDERS)
OF_FERMENTERS = (findings_vessels.fermenter_too_full, findings_beer.yeast_short)
"""What is looked for in each vessel of a plan by itself; all else is that of a boil."""
OF_THE_WHOLE = findings_leaflet.FINDERS
"""What is asked of the recipe as it is written, and not of a boil of its plan."""


def findings_of_boil(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Yield the findings of one boil of a plan, whatever vessels it goes into."""
    for finder in _FINDERS:
        if finder not in (*OF_FERMENTERS, *OF_THE_WHOLE):
            yield from (each.in_words for each in finder(recipe, day))


def findings_of_fermenter(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Yield the findings of one fermenter of a plan."""
    for finder in OF_FERMENTERS:
        yield from finder(recipe, day)


def _all(recipe: Recipe, day: Day) -> Iterator[Finding]:
    for finder in _FINDERS:
        yield from finder(recipe, day)
