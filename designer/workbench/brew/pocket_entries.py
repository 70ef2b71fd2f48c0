"""Entries of a brew's log out of what a phone kept: the same ones however often it is pasted.

The phone keeps readings as they were typed; what they mean is read here, as everywhere else. What
cannot be read, and what a later page may write, is kept as a note: nothing typed is lost.
"""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from designer.brewday.measured.readings import By, Measured, Reading
from designer.digests import sha256
from designer.errors import RefusedInputError
from designer.library.store.brews import Brew, new_brew
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.stove import Blank
from designer.units import ShownUnits, read
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import count_in, number_in, text_in, values_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.pocket_text import PocketLog, PocketRow
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.typed_reading import typed_reading

AS_THEY_ARE = (
    What.BEGAN, What.DONE, What.BACK, What.LATER, What.LEFT_OUT, What.NOTE, What.TIMER,
    What.TAKES_BACK, What.FINISHED,
)  # fmt: skip
"""What a phone writes as the log keeps it."""
NAMED = ("entry", "with")
"""Values that name another entry, by its number."""


def pocket_uid(log: PocketLog) -> str:
    """Return the lasting name of the brew: the same each time the same log is pasted."""
    return sha256(f"{log.recipe_id} {log.brewing}".encode()).hexdigest()[:32]


def pocket_brew(log: PocketLog) -> Brew:
    """Return the head of a brew of its own."""
    started = datetime.fromtimestamp(log.began, UTC).isoformat(timespec="seconds")
    return replace(new_brew(log.document, started=started), uid=pocket_uid(log))


def pocket_entries(log: PocketLog, *, joins: bool = False) -> tuple[Entry, ...]:
    """Return the entries of a log; one that `joins` a brew that has begun brings no start."""
    given = {each.number: each for each in log.rows}
    made = (_entry(each, given, log) for each in given.values())
    return tuple(each for each in made if not (joins and each.what is What.BEGAN))


def _entry(row: PocketRow, rows: dict[int, PocketRow], log: PocketLog) -> Entry:
    what, values = _told(row, rows, log)
    named = {key: _id(int(found), log) for key in NAMED if (found := number_in(values, key))}
    return Entry(_id(row.number, log), Instant(row.wall), what, {**values, **named})


def _id(number: int, log: PocketLog) -> str:
    return f"{number:06d}-{log.brewing}"


def _told(
    row: PocketRow, rows: dict[int, PocketRow], log: PocketLog
) -> tuple[What, dict[str, Any]]:
    """What a row says to the log."""
    if row.what == What.READING:
        return _reading(row.values, row.values, What.READING, log)
    if row.what == What.CORRECTS:
        corrected = rows.get(count_in(row.values, "entry", 0))
        of = corrected.values if corrected is not None else {}
        return _reading(values_in(row.values, "values"), of, What.CORRECTS, log, row.values)
    if row.what in AS_THEY_ARE:
        return What(row.what), row.values
    return What.NOTE, {"text": f"{row.what}: {_in_words(row.values)}"}


def _in_words(values: dict[str, Any]) -> str:
    return ", ".join(
        f"{key} {each if isinstance(each, str) else json.dumps(each)}"
        for key, each in values.items()
    )


def _reading(
    typed: dict[str, Any],
    asked: dict[str, Any],
    what: What,
    log: PocketLog,
    around: dict[str, Any] | None = None,
) -> tuple[What, dict[str, Any]]:
    """A reading, or what corrects one, as the log keeps it; a note where it is none."""
    of, text, sample = values_in(asked, "of"), text_in(typed, "typed"), text_in(typed, "sample")
    step = text_in(asked, "step")
    said = f"{text} at {sample}" if sample else text
    try:
        reading = typed_reading(_blank(of), said, log.recipe, _read)
    except (RefusedInputError, ValueError):
        return What.NOTE, {"text": f"{text_in(of, 'what')}: {said}", "step": step}
    kept: dict[str, Any] = {"reading": values_of(_of_line(reading, of)), "typed": said}
    if around is not None:
        return what, {"entry": around.get("entry"), "values": kept}
    return what, {**kept, "step": step}


def _of_line(reading: Reading, of: dict[str, Any]) -> Reading:
    return replace(reading, lines=text_in(of, "lines"), line_id=count_in(of, "line_id", 0))


def _blank(of: dict[str, Any]) -> Blank:
    """The blank that was typed into. Raises ValueError for one that only a later page has."""
    return Blank(
        Measured(text_in(of, "what")),
        "",
        Kind(text_in(of, "kind")),
        "",
        0.0,
        By(text_in(of, "by")),
        count_in(of, "boil", 1),
        count_in(of, "fermenter", 1),
        number_in(of, "left_min"),
    )


def _read(kind: Kind, typed: str) -> Quantity:
    """A figure as a phone's keys give it: a comma is a point, whatever language the page is in."""
    is_decimal = typed.count(",") == 1 and "." not in typed
    return read(kind, typed.replace(",", ".") if is_decimal else typed, shown=ShownUnits.METRIC)
