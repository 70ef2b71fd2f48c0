"""Watch out: what is doubtful about a recipe, how much, and the edit that cures it.

Findings never stop a forecast. Each is a small function of the recipe and its day; the cures are
found by running the same day again with the change in it, and looked at before they are offered.
"""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday import (
    findings_beer,
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


def _all(recipe: Recipe, day: Day) -> Iterator[Finding]:
    for part in (findings_safety, findings_wort, findings_lines, findings_vessels, findings_beer):
        for finder in part.FINDERS:
            yield from finder(recipe, day)
