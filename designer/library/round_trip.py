"""What a recipe file holds: every change to a recipe is made such that a file gives it back.

A change is refused in words, with the limit and a way out, if a file could not hold its outcome:
too many lines, too long a text, a figure beyond its field. A figure that was reckoned to more
places than its text has is taken as the text says it: what is shown is what counts and what is
kept. Only what a change has touched is looked at, for this runs at every keystroke.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any, NamedTuple

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity
from designer.recipe.document import (
    LINE_TYPES,
    PART_TYPES,
    PLAN_TYPES,
    Fermenter,
    Pot,
    Recipe,
    Yeast,
)
from designer.recipe.fields import FieldFacts
from designer.recipe.limits import LONGEST_WORDS, MOST_CHARACTERS, MOST_LINES
from designer.recipe.message import refused, word
from designer.recipe.named import lines_of, part_of, value_of
from designer.recipe.quantity import Quantity, When
from designer.translation import message, tr
from designer.units import is_clock
from designer.units.control_characters import without_control_characters
from designer.units.quoting import quoted
from designer.units.writing import lasting, lasting_when, reads_back

_NOUNS = {
    "fermentables": message("fermentable"),
    "hops": message("hop"),
    "extras": message("extra"),
}
_WORDS = ("name", "style", "notes")
_WITH_WORDS = (Pot, Fermenter, Yeast)


class _Column(NamedTuple):
    name: str
    label: str
    facts: FieldFacts | None
    is_clock: bool


def as_held(before: Recipe, after: Recipe) -> Recipe:
    """Return the recipe after a change as a file would give it back.

    Raises RefusedInputError for what no file can hold; what `before` held already is not refused.
    """
    changes: dict[str, Any] = {}
    for name in LINE_TYPES:
        old, new = getattr(before, name), getattr(after, name)
        if new is not old:
            _refuse_too_many(name, len(old), len(new))
            lines = _lines(old, new)
            if lines is not None:
                changes[name] = lines
    for name in PART_TYPES:
        old, new = getattr(before, name), getattr(after, name)
        held = _part(old, new)
        if held is not new:
            changes[name] = held
    for name in PLAN_TYPES:
        was, now = getattr(before, name), getattr(after, name)
        if now is not was:
            changes[name] = tuple(_planned(_at(was, row), each) for row, each in enumerate(now))
    for name in _WORDS:
        if getattr(after, name) is not getattr(before, name):
            refuse_long_words(tr(name.capitalize()), getattr(after, name))
    found = replace(after, **changes) if changes else after
    _refuse_too_large(before, found)
    return found


def _at(each: tuple[Any, ...], row: int) -> Any:
    return each[row] if row < len(each) else None


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
        return _quantity(facts, tr(facts.label), value)
    if name in LINE_TYPES:
        _refuse_too_many(name, len(before or ()), len(value))
        lines = _lines(before or (), value)
        return value if lines is None else lines
    if isinstance(value, tuple):
        return tuple(_planned(None, each) for each in value)
    return value if isinstance(value, str | int) else _part(before, value)


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
            fit = tuple(each if id(each) in known else _unmarked_part(each) for each in now)
        else:
            fit = _unmarked_part(now)
        if fit != now:
            changes[name] = fit
    for name in PLAN_TYPES:
        now = getattr(recipe, name)
        if now is not getattr(before, name, None):
            fit = tuple(map(_unmarked_plan, now))
            if fit != now:
                changes[name] = fit
    return replace(recipe, **changes) if changes else recipe


def _unmarked_part(part: Any) -> Any:
    values = ((name, getattr(part, name)) for name, *_ in _columns(type(part)))
    words = {name: value for name, value in values if isinstance(value, str)}
    changes = {name: without_control_characters(value) for name, value in words.items()}
    return part if changes == words else replace(part, **changes)


def _unmarked_plan(planned: Any) -> Any:
    """Return a boil or fermenter of a plan without marks in what it holds."""
    changes: dict[str, Any] = {}
    for each in fields(type(planned)):
        value = getattr(planned, each.name)
        if isinstance(value, tuple):
            changes[each.name] = tuple(map(_unmarked_part, value))
        elif isinstance(value, _WITH_WORDS):
            changes[each.name] = _unmarked_part(value)
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


def refuse_long_words(label: str, text: str) -> None:
    """Raise RefusedInputError for a text that no field of words can hold."""
    if len(text) > LONGEST_WORDS:
        raise refused(
            "too-many-characters",
            "{label}: up to {longest_words} characters are held, and this has {count}. Shorten "
            "it, or keep the rest in a file of its own.",
            label=label,
            longest_words=f"{LONGEST_WORDS:,}",
            count=f"{len(text):,}",
        )
    try:
        text.encode()
    except UnicodeEncodeError as fault:
        raise refused(
            "half-a-character",
            "{label}: character {number} is half of one and cannot be written to a file. Take "
            "it out, or type it again.",
            label=label,
            number=fault.start + 1,
        ) from None


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
        yield _counted(part_of(recipe, name))
    for name in LINE_TYPES:
        for line in lines_of(recipe, name):
            yield _counted(line)
    for boil in recipe.boils:
        yield _counted(boil.pot)
        yield from (_counted(line) for name in LINE_TYPES for line in getattr(boil, name) or ())
    for planned in recipe.fermenters:
        yield _counted(planned.fermenter)
        if planned.yeast is not None:
            yield _counted(planned.yeast)


_COUNTED: dict[int, tuple[Any, int]] = {}
_MOST_COUNTED = 5000


def _counted(part: Any) -> int:
    """Return the characters of a line or part; of one that was counted they are remembered."""
    found = _COUNTED.get(id(part))
    if found is None or found[0] is not part:  # a number is given anew once its owner is gone
        if len(_COUNTED) >= _MOST_COUNTED:
            _COUNTED.clear()
        found = _COUNTED[id(part)] = (part, _characters_of(part))
    return found[1]


def _characters_of(part: Any) -> int:
    count = 0
    for column in _columns(type(part)):
        value = getattr(part, column.name)
        if value is not None:
            count += len(value if isinstance(value, str) else value.text)
    return count


_COLUMNS: dict[type[Any], tuple[_Column, ...]] = {}


def _columns(of: type[Any]) -> tuple[_Column, ...]:
    if of not in _COLUMNS:
        _COLUMNS[of] = _columns_of(of)
    return _COLUMNS[of]


def _columns_of(of: type[Any]) -> tuple[_Column, ...]:
    return tuple(
        _Column(
            each.name,
            facts.label if facts is not None else each.metadata.get("label", message("Goes in")),
            facts,
            bool(each.metadata.get("clock")),
        )
        for each in fields(of)
        if each.name not in ("line_id", "locked")
        for facts in (each.metadata.get("facts"),)
    )


def _lines(old: tuple[Any, ...], new: tuple[Any, ...]) -> tuple[Any, ...] | None:
    """Return the lines as a file holds them; None if they are so already."""
    known = {id(line) for line in old}
    by_id = {line.line_id: line for line in old}
    held = tuple(
        line if id(line) in known else _part(by_id.get(line.line_id), line) for line in new
    )
    return None if all(one is other for one, other in zip(held, new, strict=True)) else held


def _part(old: Any, new: Any) -> Any:
    """Return a line or part as a file holds it; itself if that is the same."""
    if new is old:
        return new
    changes: dict[str, Any] = {}
    for column in _columns(type(new)):
        value = getattr(new, column.name)
        if value is None or (old is not None and value is getattr(old, column.name)):
            continue
        held = _value(new, column, value)
        if held is not value:
            changes[column.name] = held
    return replace(new, **changes) if changes else new


def _value(part: Any, column: _Column, value: Any) -> Any:
    label = tr(column.label)
    if column.name != "name" and hasattr(part, "when"):
        label = tr("{label} of {name}", label=label, name=quoted(part.name))
    if column.facts is not None:
        return _quantity(column.facts, label, value)
    if isinstance(value, When):
        return _when(label, value)
    if column.is_clock and not is_clock(value):
        raise refused(
            "no-time-of-day",
            "{label}: {value} is no time of the day, such as 09:00.",
            label=label,
            value=quoted(value),
        )
    refuse_long_words(label, value)
    return value


def _quantity(facts: FieldFacts, label: str, value: Quantity) -> Quantity:
    held = lasting(facts.kind, value)
    if not reads_back(facts.kind, held):
        raise refused(
            "cannot-be-written",
            "{label}: {value} cannot be written to a file.",
            label=label,
            value=quoted(value.text),
        )
    try:
        return checked_quantity(facts, held)
    except RefusedInputError as fault:
        raise refused("of-field", "{label}: {fault}", label=label, fault=fault) from None


def _when(label: str, value: When) -> When:
    held = lasting_when(value)
    if held.stage is not value.stage:
        raise refused(
            "cannot-be-written",
            "{label}: {value} cannot be written to a file.",
            label=label,
            value=quoted(value.text),
        )
    return held
