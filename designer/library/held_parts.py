"""Lines and parts of a recipe as a file gives them back, and what no file can hold of them.

Columns are looked up once for each kind of part, for this runs at every keystroke.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any, NamedTuple

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity
from designer.recipe.fields import FieldFacts
from designer.recipe.limits import LONGEST_WORDS
from designer.recipe.message import refused
from designer.recipe.quantity import Quantity, When
from designer.translation import message, tr
from designer.units import is_clock
from designer.units.control_characters import without_control_characters
from designer.units.quoting import quoted
from designer.units.writing import lasting, lasting_when, reads_back


class _Column(NamedTuple):
    name: str
    label: str
    facts: FieldFacts | None
    is_clock: bool


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


def held_lines(old: tuple[Any, ...], new: tuple[Any, ...]) -> tuple[Any, ...] | None:
    """Return the lines as a file holds them; None if they are so already."""
    known = {id(line) for line in old}
    by_id = {line.line_id: line for line in old}
    held = tuple(
        line if id(line) in known else held_part(by_id.get(line.line_id), line) for line in new
    )
    return None if all(one is other for one, other in zip(held, new, strict=True)) else held


def held_part(old: Any, new: Any) -> Any:
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
        return held_quantity(column.facts, label, value)
    if isinstance(value, When):
        return _when(label, value)
    if column.is_clock and not is_clock(value):
        raise refused(
            "no-time-of-day",
            "{label}: {value} is not a time of day, such as 09:00.",
            label=label,
            value=quoted(value),
        )
    refuse_long_words(label, value)
    return value


def held_quantity(facts: FieldFacts, label: str, value: Quantity) -> Quantity:
    """Return a quantity as a file holds it: as its text says. Raises RefusedInputError."""
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


def unmarked_part(part: Any) -> Any:
    """Return a line or part without direction and control marks in its words."""
    values = ((name, getattr(part, name)) for name, *_ in _columns(type(part)))
    words = {name: value for name, value in values if isinstance(value, str)}
    changes = {name: without_control_characters(value) for name, value in words.items()}
    return part if changes == words else replace(part, **changes)


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


_COUNTED: dict[int, tuple[Any, int]] = {}
_MOST_COUNTED = 5000


def characters_in(part: Any) -> int:
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
