"""What the picture of a fermentation shows, and the same in words."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from designer.brewday.fermenting.course import CoursePoint
from designer.brewday.results import Range
from designer.translation import tr, trn

FIRST_DAYS = 14.0
"""The picture is never shorter than that."""
STEPS_DAYS = (1, 2, 3, 7, 14, 28, 56)


@dataclass(frozen=True, slots=True)
class ReadingShown:
    """A reading: when, what it is worth, as it is written, and the entry that tells of it.

    `said` tells all of it in words.
    """

    entry: str
    day: float
    gravity: float
    figure: str
    said: str


@dataclass(frozen=True, slots=True)
class WarmthShown:
    """A stretch of one temperature, as it is written."""

    day: float
    until: float
    figure: str


@dataclass(frozen=True, slots=True)
class CourseShown:
    """A fermentation as it is drawn.

    `today` is so many days after pitching, None before it. `again` is when it is to be read again.
    `keep` says how warm it is to be kept, `ends` where it is forecast to end. `known` is the band
    from the last reading on, as the readings narrow it.
    """

    points: tuple[CoursePoint, ...] = ()
    ends_at: Range | None = None
    readings: tuple[ReadingShown, ...] = ()
    warmths: tuple[WarmthShown, ...] = ()
    today: float | None = None
    again: tuple[float, str] | None = None
    keep: str = ""
    ends: str = ""
    known: tuple[CoursePoint, ...] = ()

    @property
    def last_day(self) -> float:
        """Where the picture ends: everything there is to see lies before it."""
        days = [FIRST_DAYS, self.today or 0.0, *(each.day for each in self.readings)]
        if self.points:
            days.append(min(self.points[-1].day, 1.5 * max(days)))
        if self.again is not None:
            days.append(self.again[0] + 1.0)
        return max(days)

    @property
    def ticks(self) -> tuple[int, ...]:
        """The days that are written below it, at most eight."""
        step = next((each for each in STEPS_DAYS if self.last_day / each <= 8), STEPS_DAYS[-1])
        return tuple(range(0, int(self.last_day) + 1, step))

    @property
    def gravities(self) -> tuple[float, float]:
        """The lowest and highest gravity that is drawn, on full five points."""
        drawn = [each.gravity for each in self.readings]
        for each in self.points:
            drawn += [each.gravity.low, each.gravity.high]
        if not drawn:
            return 1.0, 1.05
        low, high = min(drawn), max(drawn)
        return (low - 1e-9) // 0.005 * 0.005, ceil((high + 0.0005) / 0.005) * 0.005

    def in_words(self) -> str:
        """Return what is seen, for a screen reader."""
        said = [trn("{number} reading", "{number} readings", len(self.readings))]
        said += [each.said for each in self.readings]
        if self.today is not None:
            said.append(tr("today is day {day}", day=int(self.today)))
        if self.ends:
            said.append(self.ends)
        if self.again is not None:
            said.append(self.again[1])
        said += [
            tr("from day {day}: {temperature}", day=int(each.day), temperature=each.figure)
            for each in self.warmths
        ]
        if self.keep:
            said.append(self.keep)
        return ". ".join(said)
