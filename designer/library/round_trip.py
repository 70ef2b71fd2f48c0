"""What a recipe file holds: every change to a recipe is made such that a file gives it back.

A change is refused in words, with the limit and a way out, if a file could not hold its outcome:
too many lines, too long a text, a figure beyond its field. A figure that was reckoned to more
places than its text has is taken as the text says it: what is shown is what counts and what is
kept. Only what a change has touched is looked at, for this runs at every keystroke.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

from designer.errors import RefusedInputError
from designer.library.held_parts import (
    characters_in,
    held_lines,
    held_part,
    held_quantity,
    refuse_long_words,
    unmarked_part,
)
from designer.recipe.document import (
    LINE_TYPES,
    PART_TYPES,
    PLAN_TYPES,
    Fermenter,
    PlannedBoil,
    Pot,
    Recipe,
    Yeast,
)
from designer.recipe.fields import FieldFacts
from designer.recipe.limits import (
    MOST_BOILS,
    MOST_CHARACTERS,
    MOST_FERMENTERS,
    MOST_LINES,
    MOST_OWN_LINES,
)
from designer.recipe.message import Message, refused, say, word
from designer.recipe.named import lines_of, part_of, value_of
from designer.recipe.plan import plan_faults
from designer.translation import message, tr
from designer.units.control_characters import without_control_characters

_NOUNS = {
    "fermentables": message("fermentable"),
    "hops": message("hop"),
    "extras": message("extra"),
}
_WORDS = ("name", "style", "notes")
_WITH_WORDS = (Pot, Fermenter, Yeast)


def as_held(before: Recipe, after: Recipe) -> Recipe:
    """Return the recipe after a change as a file would give it back.

    Raises RefusedInputError for what no file can hold; what `before` held already is not refused.
    """
    changes: dict[str, Any] = {}
    for name in LINE_TYPES:
        old, new = getattr(before, name), getattr(after, name)
        if new is not old:
            _refuse_too_many(name, len(old), len(new))
            lines = held_lines(old, new)
            if lines is not None:
                changes[name] = lines
    for name in PART_TYPES:
        old, new = getattr(before, name), getattr(after, name)
        held = held_part(old, new)
        if held is not new:
            changes[name] = held
    changes |= _plan_held(before, after)
    for name in _WORDS:
        if getattr(after, name) is not getattr(before, name):
            refuse_long_words(tr(name.capitalize()), getattr(after, name))
    found = replace(after, **changes) if changes else after
    _refuse_too_large(before, found)
    return found


def _plan_held(before: Recipe, after: Recipe) -> dict[str, tuple[Any, ...]]:
    """Return the boils and fermenters of a plan that a change has touched, as a file holds them."""
    touched = [name for name in PLAN_TYPES if getattr(after, name) is not getattr(before, name)]
    if touched:
        _refuse_plan(before, after)
    return {
        name: tuple(_each_held(name, getattr(before, name), getattr(after, name)))
        for name in touched
    }


def _each_held(name: str, was: tuple[Any, ...], now: tuple[Any, ...]) -> Iterator[Any]:
    """Yield boils or fermenters as a file holds them; a refusal tells which of them it is."""
    for row, each in enumerate(now):
        try:
            yield _planned(was[row] if row < len(was) else None, each)
        except RefusedInputError as fault:
            which = _which(name, row)
            raise refused("of-plan", "{which}: {fault}", which=which, fault=fault) from None


def _which(name: str, row: int) -> Message:
    if name == "boils":
        return say("which-boil", "Boil {number}", number=row + 1)
    return say("which-fermenter", "Fermenter {number}", number=row + 1)


def _planned(old: Any, new: Any) -> Any:
    """Return a boil or fermenter of a plan as a file holds it; itself if that is the same."""
    if new is old:
        return new
    changes: dict[str, Any] = {}
    for each in fields(type(new)):
        value, before = getattr(new, each.name), getattr(old, each.name, None)
        if value is None or value is before:
            continue
        held = _planned_value(each.name, each.metadata.get("facts"), before, value)
        if held is not value:
            changes[each.name] = held
    return replace(new, **changes) if changes else new


def _planned_value(name: str, facts: FieldFacts | None, before: Any, value: Any) -> Any:
    if facts is not None:
        return held_quantity(facts, tr(facts.label), value)
    if name in LINE_TYPES:
        _refuse_too_many(name, len(before or ()), len(value))
        lines = held_lines(before or (), value)
        return value if lines is None else lines
    if isinstance(value, tuple):
        return tuple(_planned(None, each) for each in value)
    return value if isinstance(value, str | int) else held_part(before, value)


def unmarked(recipe: Recipe, before: Recipe | None = None) -> Recipe:
    """Return a recipe without direction and control marks in its names and notes.

    It is the same recipe where there are none. Looked at is what is new since `before`.
    """
    changes: dict[str, Any] = {}
    for name in (*_WORDS, *PART_TYPES, *LINE_TYPES):
        now, then = getattr(recipe, name), getattr(before, name, None)
        if now is then:
            continue
        fit: Any
        if isinstance(now, str):
            fit = without_control_characters(now)
        elif isinstance(now, tuple):
            known = {id(each) for each in then or ()}
            fit = tuple(each if id(each) in known else unmarked_part(each) for each in now)
        else:
            fit = unmarked_part(now)
        if fit != now:
            changes[name] = fit
    for name in PLAN_TYPES:
        now = getattr(recipe, name)
        if now is not getattr(before, name, None):
            fit = tuple(map(_unmarked_plan, now))
            if fit != now:
                changes[name] = fit
    return replace(recipe, **changes) if changes else recipe


def _unmarked_plan(planned: Any) -> Any:
    """Return a boil or fermenter of a plan without marks in what it holds."""
    changes: dict[str, Any] = {}
    for each in fields(type(planned)):
        value = getattr(planned, each.name)
        if isinstance(value, tuple):
            changes[each.name] = tuple(map(unmarked_part, value))
        elif isinstance(value, _WITH_WORDS):
            changes[each.name] = unmarked_part(value)
    found = replace(planned, **changes)
    return planned if found == planned else found


def _refuse_too_many(name: str, old: int, new: int) -> None:
    if new > max(MOST_LINES, old):
        raise refused(
            "too-many-lines",
            "A recipe holds up to {most_lines} {noun} lines; with these it would have {new}. "
            "Add fewer, or take some out first.",
            most_lines=MOST_LINES,
            noun=word(_NOUNS[name]),
            new=new,
        )


def _refuse_plan(before: Recipe, after: Recipe) -> None:
    """Refuse a plan that is larger than a file may hold, or that nothing can be brewed by."""
    if len(after.boils) > max(MOST_BOILS, len(before.boils)):
        raise refused(
            "too-many-boils",
            "A recipe is brewed in up to {most} boils; this would be {count}. Take a larger pot, "
            "or brew a part of it.",
            most=MOST_BOILS,
            count=len(after.boils),
        )
    if len(after.fermenters) > max(MOST_FERMENTERS, len(before.fermenters)):
        raise refused(
            "too-many-fermenters",
            "A recipe goes into up to {most} fermenters; this would be {count}. Take larger ones.",
            most=MOST_FERMENTERS,
            count=len(after.fermenters),
        )
    count = _own_lines(after.boils)
    if count > MOST_OWN_LINES and count > _own_lines(before.boils):
        raise refused(
            "too-many-own-lines",
            "The boils of a recipe list up to {most} lines of their own in all; with these it "
            "would be {count}. Let some boils take their share of the recipe, or take lines out.",
            most=f"{MOST_OWN_LINES:,}",
            count=f"{count:,}",
        )
    for fault in plan_faults(after):
        if not any(plan_faults(before)):
            raise refused("no-plan", "{fault}", fault=fault)


def _own_lines(boils: tuple[PlannedBoil, ...]) -> int:
    return sum(len(getattr(boil, name) or ()) for boil in boils for name in LINE_TYPES)


def _refuse_too_large(before: Recipe, after: Recipe) -> None:
    count = sum(_characters(after))
    if count > MOST_CHARACTERS and count > sum(_characters(before)):
        raise refused(
            "recipe-too-long",
            "A recipe holds up to {most_characters} characters in all; with this it would "
            "have {count}. Shorten the notes or some names, or begin another recipe.",
            most_characters=f"{MOST_CHARACTERS:,}",
            count=f"{count:,}",
        )


def _characters(recipe: Recipe) -> Iterator[int]:
    for name in _WORDS:
        yield len(value_of(recipe, name))
    for name in PART_TYPES:
        yield characters_in(part_of(recipe, name))
    for name in LINE_TYPES:
        for line in lines_of(recipe, name):
            yield characters_in(line)
    for boil in recipe.boils:
        yield characters_in(boil.pot)
        yield from (
            characters_in(line) for name in LINE_TYPES for line in getattr(boil, name) or ()
        )
    for planned in recipe.fermenters:
        yield characters_in(planned.fermenter)
        if planned.yeast is not None:
            yield characters_in(planned.yeast)
