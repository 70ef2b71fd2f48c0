"""Entries as the plain values that the store and the journal keep, one object a line.

What a later program writes, or what was damaged, is never a fault: an entry that says what this
program does not know is passed over, and stays where it is kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import number_in, text_in, values_in
from designer.workbench.brew.instants import Instant


def plain(entry: Entry) -> dict[str, Any]:
    """Return the plain values of an entry."""
    at: dict[str, Any] = {"wall": entry.at.wall}
    if entry.at.boot:
        at |= {"boot": entry.at.boot, "up": entry.at.up}
    found: dict[str, Any] = {"id": entry.id, "what": str(entry.what), "at": at}
    if entry.by_guess:
        found["by_guess"] = True
    if entry.values:
        found["values"] = entry.values
    return found


def entry_of(values: Mapping[str, Any]) -> Entry | None:
    """Return the entry that plain values hold; None where this program can make none of them."""
    entry_id = text_in(values, "id")
    try:
        what = What(text_in(values, "what"))
    except ValueError:
        return None
    if not entry_id:
        return None
    at, said = _instant(values_in(values, "at")), values_in(values, "values")
    return Entry(entry_id, at, what, said, values.get("by_guess") is True)


def _instant(values: Mapping[str, Any]) -> Instant:
    wall, boot, up = number_in(values, "wall"), text_in(values, "boot"), number_in(values, "up")
    return Instant(wall or 0.0) if up is None or not boot else Instant(wall or 0.0, boot, up)


def entries_of(lines: Iterable[Mapping[str, Any]]) -> tuple[Entry, ...]:
    """Return the entries of the lines of a log, those that can be read."""
    return tuple(found for line in lines if (found := entry_of(line)) is not None)
