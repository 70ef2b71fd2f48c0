"""What to do next about a beer and on which day after pitching."""

from __future__ import annotations

from designer.brewday.fermenting.beer_words import FORCED_DAYS
from designer.brewday.fermenting.course import Standing
from designer.brewday.fermenting.standing import LOW_APART_DAYS, READINGS_APART_DAYS, Stood, Why
from designer.recipe.choices import Package
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

CONDITIONED_DAYS = 14.0
"""In bottles, until one is tasted; common practice, no source."""

DayStep = tuple[float, Message]

READ_AGAIN = say("beer-read-again", "read again, gas shaken out")
READ_FIRST = say("beer-read-first", "take a sample, shake the gas out, read")


def steps_of(found: Stood, now_day: float, over_day: float, package: str) -> tuple[DayStep, ...]:
    """Return what to do and when; by `over_day` little is left to fall."""
    if found.last is None:
        first = max(over_day, now_day)
        return (first, READ_FIRST), (first + READINGS_APART_DAYS, READ_AGAIN)
    if found.standing is Standing.DONE:
        return _packaging(now_day, package, _package_now(package))
    if found.standing in (Standing.SLOW, Standing.STUCK):
        return _when_stuck(found, now_day)
    if found.standing is Standing.FERMENTING:
        first = max(over_day, found.last.day + 1.0, now_day)
        return (first, READ_AGAIN), (first + READINGS_APART_DAYS, READ_AGAIN)
    if found.why is Why.BY_REFRACTOMETER:
        with_hydrometer = say("beer-read-with-hydrometer", "read with a hydrometer")
        again = now_day + READINGS_APART_DAYS
        return (now_day, with_hydrometer), (again, READ_AGAIN)
    apart = LOW_APART_DAYS if found.is_low else READINGS_APART_DAYS
    again = max(found.last.day + apart, now_day)
    return (again, READ_AGAIN), *_packaging(again, package, _package_if(found, package))


def _when_stuck(found: Stood, now_day: float) -> tuple[DayStep, ...]:
    warm = now_day, say("beer-do-warm", "warm it a little, swirl")
    again = now_day + READINGS_APART_DAYS, READ_AGAIN
    if found.standing is Standing.SLOW:
        return warm, again
    forced = now_day, say("beer-do-forced", "set a glass of it to ferment warm")
    read = now_day + FORCED_DAYS, say("beer-read-forced", "read the glass: its end is the beer's")
    return warm, forced, read, again


def _packaging(day: float, package: str, do: Message) -> tuple[DayStep, ...]:
    if package == Package.KEG:
        return ((day, do),)
    taste = say("beer-taste", "chill one bottle and taste")
    return (day, do), (day + CONDITIONED_DAYS, taste)


def _package_now(package: str) -> Message:
    if package == Package.KEG:
        return say("beer-keg", "fill the keg")
    return say("beer-bottle", "bottle")


def _package_if(found: Stood, package: str) -> Message:
    assert found.last is not None
    last = round(found.last.gravity, 3)
    reads = (Kind.GRAVITY, last - 0.001), (Kind.GRAVITY, last)
    if package == Package.KEG:
        return say("beer-keg-if", "fill the keg, if it reads {0} or {1}", *reads)
    return say("beer-bottle-if", "bottle, if it reads {0} or {1}", *reads)
