"""What a beer wants to be remembered for: reminders of its log, and dates that follow from it.

Of what is expected by itself, "seen to" and "tomorrow" are entries of the log like any other; the
last that was told of a text counts.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from designer.library.store.values import LONGEST_FERMENTING_DAYS
from designer.workbench.brew.afterwards import Afterwards, afterwards_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.what_counts import what_counts

DAY_S = 86_400.0
Expected = tuple[float, str]
"""Seconds since 1970, and what is to be done then."""


@dataclass(frozen=True, slots=True)
class Reminder:
    """What a beer is to be remembered for, at seconds since 1970; `brew` is its lasting name."""

    brew: str
    beer: str
    wall: float
    text: str

    @property
    def key(self) -> str:
        """What it is known by: once it is put off it is another."""
        return f"{self.brew} {self.wall:.0f} {self.text}"

    @property
    def day(self) -> date:
        """The day that it is for, where the machine stands."""
        return datetime.fromtimestamp(self.wall).date()

    def day_after(self, wall: float) -> float:
        """Return its time of day on the day after a moment, in seconds since 1970."""
        on = datetime.fromtimestamp(wall).date() + timedelta(days=1)
        return datetime.combine(on, datetime.fromtimestamp(self.wall).time()).timestamp()


def reminders_of(
    brew: str, beer: str, entries: Iterable[Entry], expected: Iterable[Expected] = ()
) -> tuple[Reminder, ...]:
    """Return what a beer is still to be remembered for by its log, the first first.

    `expected` is what follows from how the beer stands; nothing of it is once it is packaged, and
    of what was set before then nothing either.
    """
    live = what_counts(entries).live
    after = afterwards_of(live)
    kept = _still_meant(after, {each.id: each.at.wall for each in live})
    told = {each.text: each.wall for each in after.reminders}
    if after.packaged is None:
        # What was seen to, or put off, is not told of by itself as well.
        kept += [each for each in expected if each[0] > told.get(each[1], float("-inf"))]
    return tuple(Reminder(brew, beer, wall, text) for wall, text in sorted(set(kept)))


def _still_meant(after: Afterwards, written: dict[str, float]) -> list[Expected]:
    """Return what was set and not seen to, of a packaged beer what was set since."""
    since = after.packaged[1].wall if after.packaged is not None else float("-inf")
    return [
        (each.wall, each.text)
        for each in after.reminders
        if not each.done and written.get(each.entry, since) >= since
    ]


def may_expect(entries: Sequence[Entry], now: Instant) -> bool:
    """Whether a beer is in the fermenter by its log, and not for longer than can be true."""
    live = what_counts(entries).live
    told = {each.what: each.at.wall for each in live}
    if What.FINISHED not in told or told.keys() & {What.PACKAGED, What.TASTED}:
        return False
    return now.wall - told[What.FINISHED] <= LONGEST_FERMENTING_DAYS * DAY_S
