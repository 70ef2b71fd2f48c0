"""Entries of a brew's log: plain values that last, never changed once written.

An entry says what was done, when by both clocks, and has an id of its own, so that it can be
written twice and is there once. Taking back and correcting are entries too.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from designer.workbench.brew.instants import Instant


class What(StrEnum):
    """What an entry tells; `values` of each in the words beside it."""

    BEGAN = "began"  # start_min: clock of the plan; shown: units; taught: what filled fields
    DONE = "done"  # step
    BACK = "back"  # step: gone back to it, what was done stays written
    LATER = "later"  # step
    LEFT_OUT = "left out"  # step, reason
    NOTE = "note"  # text, step
    READING = "reading"  # reading: see readings_kept; typed: as typed; step
    TIMER = "timer"  # timer, does: start|pause|resume|stop|confirm|move, minutes, name, to_left_min
    ACCEPTED = "accepted"  # proposal, changes, said
    KEPT = "kept"  # proposal that was left as it is
    TAKES_BACK = "takes back"  # entry: id of what is taken back
    CORRECTS = "corrects"  # entry: id of what is corrected, values: what it ought to have said
    CLOCK = "clock"  # answer where both clocks changed: wall and up that agree
    FINISHED = "finished"  # yeast is in
    TASTED = "tasted"  # mark: 1 to 5, text
    SAMPLE = "sample"  # sample: see sample_values.py; typed; of: reading at the stove that it is
    ANSWERED = "answered"  # test, changed, value, typed: what a test of an odd reading showed
    CURED = "cured"  # cure, changes, said
    WARMTH = "warmth"  # temperatures: [[seconds since 1970, °C], ...], typed; of the beer or room
    PACKING = "packing"  # packing: the choices of packaging, see packing_values.py
    PACKAGED = "packaged"  # packing, grams, ready: day; what went into bottles or keg, and is done
    REMINDER = "reminder"  # wall: when, text; does: set|done
    COUNTS = "counts"  # figure: of what a kitchen learns, counts: whether this brew says of it


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the log. `by_guess` tells that its time was typed in afterwards."""

    id: str
    at: Instant
    what: What
    values: dict[str, Any] = field(default_factory=dict)
    by_guess: bool = False
