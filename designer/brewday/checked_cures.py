"""No cure is offered that is worse than the fault: the day is run after it, and looked at.

A cure stays away where its finding would still be there, or where another that is as grave or
graver would come in its place; but where it only sets right what was typed, what then comes to
light was there all along. What it makes of the beer, where that can be told, is said with it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from designer.brewday.day import tried
from designer.brewday.predictions import PREDICTIONS, Prediction
from designer.brewday.results import Day, Finding
from designer.recipe.document import Recipe
from designer.recipe.message import Message, in_a_row, say, word
from designer.recipe.place import Place

Find = Callable[[Recipe, Day], Iterable[Finding]]


def with_checked_cures(
    recipe: Recipe, day: Day, found: Iterable[Finding], find: Find
) -> Iterator[Finding]:
    """Yield the findings of a day, each with its cure only where `find` finds nothing worse then.

    What changed is added to those that change the beer.
    """
    known = tuple(found)
    before = {(each.code, each.about) for each in known}
    for found_first in known:
        each = found_first.with_cure
        if each.fix is None:
            yield each
            continue
        cured = each.fix.apply(recipe)
        after = tried(cured, day.began)
        if _is_worse(each, before, find(cured, after)):
            yield replace(each, fix=None)
        else:
            yield replace(each, makes=_made(day, after))


def _is_worse(finding: Finding, before: set[tuple[str, Place]], after: Iterable[Finding]) -> bool:
    for each in after:
        place = (each.code, each.about)
        if place == (finding.code, finding.about):
            return True
        is_new = place not in before and not finding.mends_typing
        if is_new and each.severity.rank <= finding.severity.rank:
            return True
    return False


def _made(before: Day, after: Day) -> Message | None:
    """Return what has become of the beer, as far as a kitchen can tell it; None for no change."""
    changed = [
        _figure(each, after)
        for each in PREDICTIONS
        if each.weight is not None
        and abs(float(each.compute(after)) - float(each.compute(before))) > (each.deadband or 0.0)
    ]
    return say("cure-makes", "that makes {beer}", beer=in_a_row(changed)) if changed else None


def _figure(each: Prediction, day: Day) -> Message:
    value = (each.kind, float(each.compute(day)))
    if not each.abbreviation:
        return say("figure", "{0}", value)
    return say("named-figure", "{name} {0}", value, name=word(each.abbreviation))
