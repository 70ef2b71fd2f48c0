"""Where two recipes differ: the cell or field that shows an undo, a redo or a cure."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from designer.recipe.document import PART_TYPES, PLAN_TYPES, Recipe
from designer.recipe.edits import LISTS
from designer.recipe.named import lines_of, part_of
from designer.recipe.place import Place


def places_changed(before: Recipe, after: Recipe) -> list[Place]:
    """Return where `after` differs, lines first; a line that is gone is told by its neighbour."""
    found: list[Place] = []
    for name in LISTS:
        was, now = lines_of(before, name), lines_of(after, name)
        if was is not now:
            found += _lines_changed(name, was, now)
    for name in PART_TYPES:
        then, since = part_of(before, name), part_of(after, name)
        if then is not since:
            found += [Place(name, field) for field in _fields_changed(then, since)]
    for name in PLAN_TYPES:
        found += _planned_changed(name, getattr(before, name), getattr(after, name))
    return [*found, Place("notes")] if before.notes != after.notes else found


def _planned_changed(name: str, was: tuple[Any, ...], now: tuple[Any, ...]) -> list[Place]:
    """Return the fields of boils or fermenters that differ, by their numbers in the plan.

    With another number of them it is the plan.
    """
    if len(was) != len(now):
        return [Place(name)]
    pairs = enumerate(zip(was, now, strict=True), 1)
    return [
        Place(name, field, number)
        for number, (then, since) in pairs
        for field in _fields_changed(then, since)
    ]


def _lines_changed(name: str, was: tuple[Any, ...], now: tuple[Any, ...]) -> list[Place]:
    old = {each.line_id: each for each in was}
    found = [
        Place(name, next(iter(_fields_changed(old[each.line_id], each)), ""), each.line_id)
        if each.line_id in old
        else Place(name, line=each.line_id)
        for each in now
        if each != old.get(each.line_id)
    ]
    if found:
        return found
    if [each.line_id for each in was] == [each.line_id for each in now]:
        return []
    return [Place(name, line=_neighbour(was, now))]


def _neighbour(was: tuple[Any, ...], now: tuple[Any, ...]) -> int | None:
    """Return the line that stands where the two lists first differ; None at the end."""
    ids = [each.line_id for each in was]
    for row, each in enumerate(now):
        if row >= len(ids) or ids[row] != each.line_id:
            return int(each.line_id)
    return None


def _fields_changed(was: Any, now: Any) -> list[str]:
    return [each.name for each in fields(now) if getattr(was, each.name) != getattr(now, each.name)]
