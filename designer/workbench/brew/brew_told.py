"""What a list tells of a brew: when it was, its original gravity, how the beer was."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from designer.brewday.measured.readings import Measured
from designer.library.store.brews import Brew
from designer.translation import message
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import count_in, text_in, values_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import reading_of
from designer.workbench.brew.what_counts import what_counts

MARKS = {
    1: message("not for drinking"),
    2: message("has a fault"),
    3: message("sound"),
    4: message("good"),
    5: message("brew it again"),
}
"""What the marks of a tasting say."""


@dataclass(frozen=True, slots=True)
class Tasted:
    """A tasting: when, the mark (0 for none), and what was noted of it."""

    at: Instant
    mark: int
    text: str


@dataclass(frozen=True, slots=True)
class BrewTold:
    """A brew as lists tell of it; `original_gravity` is None where it was not read."""

    brew: Brew
    original_gravity: float | None = None
    tastings: tuple[Tasted, ...] = ()
    has_log: bool = False


def told_of(brew: Brew, entries: Iterable[Entry]) -> BrewTold:
    """Return what the log of a brew tells of it."""
    gravity, tastings, live = None, [], what_counts(entries).live
    for each in live:
        if each.what is What.TASTED:
            mark = count_in(each.values, "mark", 0)
            tastings.append(
                Tasted(each.at, mark if mark in MARKS else 0, text_in(each.values, "text"))
            )
        elif each.what is What.READING:
            reading = reading_of(values_in(each.values, "reading"))
            if reading is not None and reading.what is Measured.ORIGINAL_GRAVITY:
                gravity = reading.value
    return BrewTold(brew, gravity, tuple(tastings), bool(live))
