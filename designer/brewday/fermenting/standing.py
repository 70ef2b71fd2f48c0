"""Where a beer stands by its readings: done, still falling, slow, stuck, or nobody can say yet.

Done takes two hydrometer readings, two to three days apart, that agree within 0.001 (common
practice, no source; in two days no point may be lost: judgement), an end within what the yeast is
expected to do, and no more left to fall, on the 95 % end, than a reading can miss. Stuck takes two
as well. A refractometer says neither: once there is alcohol it is off by 0.002 at best.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from designer.brewday.fermenting.course import BeerReading, Standing
from designer.brewday.results import Range

READINGS_APART_DAYS = 3.0
"""Days until the next reading; the sheet says the same."""
LEAST_APART_DAYS, THREE_DAYS = 1.9, 2.5
"""Readings of two days, and of three, some hours early."""
AGREE_SG, FELL_SG = 0.001, 0.0005
"""So far apart readings of three days agree; in two days no more may be lost than this."""
_ROUNDING_SG = 0.0001
STUCK_ABOVE_SG = 0.002
"""So far above the forecast's band, or as far as a reading may be off, it is too high."""
MOST_LEFT_SG = 0.0015
"""No more may be left to fall, on the 95 % end, of a beer that is called done."""
FALLS_SG, FALLS_DAYS = 0.002, 5.0
"""A beer within the forecast's band that fell by more in fewer days still falls."""
BEGUN_SHARE = 0.15
"""By then it is fermenting, and two readings that agree are no lag."""
LOW_APART_DAYS = 7.0
"""Wild yeast goes on for weeks: readings below the band have to agree for as long (judgement)."""


class Why(StrEnum):
    """What makes it so, beside the standing; picks the words."""

    PLAIN = ""
    ONE_READING = "one reading"
    TOO_EARLY = "readings too close"
    MAY_FALL = "may still fall"
    BY_REFRACTOMETER = "refractometer alone"
    BELOW = "below the band"
    NOT_BEGUN = "not begun"
    RISING = "rising"


@dataclass(frozen=True, slots=True)
class Stood:
    """Where a beer stands and why; `earlier` is the reading that the last is held against."""

    standing: Standing
    why: Why = Why.PLAIN
    last: BeerReading | None = None
    earlier: BeerReading | None = None
    is_low: bool = False
    """It is below what was expected."""


def agree(last: BeerReading, earlier: BeerReading) -> bool:
    """Return whether two readings are the same, as far as the days between them can tell."""
    apart, fell = last.day - earlier.day, earlier.gravity - last.gravity
    most = (AGREE_SG if apart >= THREE_DAYS else FELL_SG) + _ROUNDING_SG
    return apart >= LEAST_APART_DAYS and most >= fell >= -AGREE_SG - _ROUNDING_SG


def stood(
    readings: Sequence[BeerReading],
    ends: Range,
    original: float,
    most_left: float,
    high_by_now: float,
) -> Stood:
    """Return where a beer stands.

    `ends` is the forecast's band of the end, `most_left` what is left to fall on the 95 % end, and
    `high_by_now` the upper end, on the day of the last reading, of the band in which a beer
    falls that has yeast and warmth enough.
    """
    in_order = sorted(readings, key=lambda each: each.day)
    sure = [each for each in in_order if not each.by_refractometer]
    if not in_order:
        return Stood(Standing.NOT_READ)
    if not sure or in_order[-1].day - sure[-1].day >= LEAST_APART_DAYS:
        return _by_refractometer(in_order[-1], ends, high_by_now)
    last = sure[-1]
    earlier = next((e for e in reversed(sure) if last.day - e.day >= LEAST_APART_DAYS), None)
    begun = original - last.gravity >= BEGUN_SHARE * (original - ends.value)
    off = max(STUCK_ABOVE_SG, last.half_width)
    if not begun:
        late = last.gravity > high_by_now + last.half_width
        standing = Standing.SLOW if late else Standing.FERMENTING
        return Stood(standing, Why.NOT_BEGUN, last, earlier)
    if last.gravity > ends.high + off:
        return _high(last, earlier, high_by_now)
    return _near_the_end(last, sure, ends, off, most_left)


def _by_refractometer(last: BeerReading, ends: Range, high_by_now: float) -> Stood:
    """It may tell that a beer still falls, and never that it is done or stuck."""
    if last.gravity <= ends.high + last.half_width or last.gravity > high_by_now:
        return Stood(Standing.NOT_SURE, Why.BY_REFRACTOMETER, last)
    return Stood(Standing.FERMENTING, Why.BY_REFRACTOMETER, last)


def _high(last: BeerReading, earlier: BeerReading | None, high_by_now: float) -> Stood:
    if earlier is not None and earlier.gravity - last.gravity <= AGREE_SG + _ROUNDING_SG:
        return Stood(Standing.STUCK, Why.PLAIN, last, earlier)
    if last.gravity > high_by_now + last.half_width:
        return Stood(Standing.SLOW, Why.PLAIN, last, earlier)
    return Stood(Standing.FERMENTING, Why.PLAIN, last, earlier)


def _near_the_end(
    last: BeerReading, sure: Sequence[BeerReading], ends: Range, off: float, most_left: float
) -> Stood:
    is_low = last.gravity < ends.low - off
    apart = LOW_APART_DAYS if is_low else LEAST_APART_DAYS
    before = [each for each in reversed(sure) if last.day - each.day >= apart]
    earlier = next((each for each in before if agree(last, each)), before[0] if before else None)
    if earlier is None:
        why = Why.ONE_READING if len(sure) == 1 else Why.TOO_EARLY
        return Stood(Standing.NOT_SURE, Why.BELOW if is_low else why, last, None, is_low)
    if last.gravity - earlier.gravity > AGREE_SG + _ROUNDING_SG:
        return Stood(Standing.NOT_SURE, Why.RISING, last, earlier, is_low)
    if not agree(last, earlier):
        falls = last.gravity < earlier.gravity - FALLS_SG and last.day - earlier.day < FALLS_DAYS
        standing = Standing.FERMENTING if falls else Standing.NOT_SURE
        return Stood(standing, Why.BELOW if is_low else Why.PLAIN, last, earlier, is_low)
    if most_left > MOST_LEFT_SG:
        return Stood(Standing.NOT_SURE, Why.MAY_FALL, last, earlier, is_low)
    return Stood(Standing.DONE, Why.BELOW if is_low else Why.PLAIN, last, earlier, is_low)
