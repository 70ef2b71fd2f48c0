"""What is said of fermenting beer: where it stands, what to do, and when.

Done and stuck are told by two readings three days apart, in the words of the sheet. What to do
about a beer that stopped high: two readings, gas out of the sample and read at 20 °C, a little
warmer and swirled, a forced ferment of a glass of it (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor

from designer.brewday.fermenting.course import Standing
from designer.brewday.fermenting.standing import READINGS_APART_DAYS, Stood, Why
from designer.brewday.results import Range
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

_APART = f"{READINGS_APART_DAYS:.0f}"
FORCED_L, FORCED_C, FORCED_DAYS = 0.2, 25.0, 2.0
WARMER_C = (2.0, 3.0)
READ_AT_C = 20.0
POINTS, A_QUARTER = 1000.0, 0.25

TITLES = {
    Standing.NOT_READ: say("beer-not-read", "Not read yet"),
    Standing.FERMENTING: say("beer-fermenting", "Still fermenting"),
    Standing.NOT_SURE: say("beer-not-sure", "Not yet sure"),
    Standing.DONE: say("beer-done", "Done"),
    Standing.SLOW: say("beer-slow", "Slow"),
    Standing.STUCK: say("beer-stuck", "Stuck"),
}


def title_of(found: Stood) -> Message:
    """Return in a word or two where a beer stands."""
    if found.why is Why.BY_REFRACTOMETER:
        return say("beer-read-hydrometer", "Read with a hydrometer")
    if found.why is Why.NOT_BEGUN:
        return say("beer-not-begun", "Not begun yet")
    return TITLES[found.standing]


def words_of(found: Stood, ends: Range) -> Message:
    """Return why a beer stands where it does; `ends` is the forecast's band of its end."""
    if found.last is None:
        return say(
            "beer-words-not-read",
            "Nothing was read since the yeast went in. Done when two readings {days} days apart "
            "agree within 0.001.",
            days=_APART,
        )
    if found.why in _SAYS:
        return _SAYS[found.why](found, ends)
    return _STANDS[found.standing](found, ends)


def _told(found: Stood) -> Message:
    """Return the last two readings that count."""
    assert found.last is not None
    now = (Kind.GRAVITY, found.last.gravity)
    if found.earlier is None:
        return say("beer-told-one", "{0} on day {day}", now, day=_day(found.last.day))
    return say(
        "beer-told-two",
        "{0} on day {first}, {1} on day {second}",
        (Kind.GRAVITY, found.earlier.gravity),
        now,
        first=_day(found.earlier.day),
        second=_day(found.last.day),
    )


def _day(day: float) -> str:
    return f"{round(day)}"


def _ends(ends: Range) -> tuple[tuple[Kind, float], tuple[Kind, float]]:
    return (Kind.GRAVITY, ends.low), (Kind.GRAVITY, ends.high)


def _fermenting(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-fermenting",
        "{told}: it still falls. It is expected to end at {0} to {1}.",
        *_ends(ends),
        told=_told(found),
    )


def _not_sure(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-not-sure",
        "{told}: it may be done. Done when two readings {days} days apart agree within 0.001.",
        told=_told(found),
        days=_APART,
    )


def _may_fall(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-may-fall",
        "{told}: nearly the same, but it may still be falling slowly. Done when two readings "
        "{days} days apart agree within 0.001.",
        told=_told(found),
        days=_APART,
    )


def _done(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-done",
        "{told}: both readings agree within 0.001, and it ended where this yeast can.",
        told=_told(found),
    )


def _slow(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-slow",
        "{told}: higher than expected by now. Look at the temperature, the yeast and how much of "
        "it went in.",
        told=_told(found),
    )


def _stuck(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-stuck",
        "{told}: it stopped above the {0} to {1} that was expected. Sugar is left in it: never "
        "bottle it like that.",
        *_ends(ends),
        told=_told(found),
    )


def _below(found: Stood, ends: Range) -> Message:
    if found.standing is Standing.DONE:
        return say(
            "beer-words-done-low",
            "{told}: both readings agree within 0.001, lower than the {0} to {1} that was "
            "expected.",
            *_ends(ends),
            told=_told(found),
        )
    return say(
        "beer-words-low",
        "{told}: lower than the {0} to {1} that was expected. Wild yeast ferments on for weeks: "
        "wait until readings a week apart agree within 0.001.",
        *_ends(ends),
        told=_told(found),
    )


def _rising(found: Stood, ends: Range) -> Message:
    return say(
        "beer-words-rising",
        "{told}: beer does not rise. Shake the gas out of a new sample and read again.",
        told=_told(found),
    )


def _by_refractometer(found: Stood, ends: Range) -> Message:
    if found.standing is Standing.FERMENTING:
        return say(
            "beer-words-refractometer-falls",
            "{told} by refractometer: it still falls. Read with a hydrometer towards the end.",
            told=_told(found),
        )
    return say(
        "beer-words-refractometer",
        "{told} by refractometer, which is off by 0.002 at best once there is alcohol. Read with "
        "a hydrometer before you bottle.",
        told=_told(found),
    )


def _not_begun(found: Stood, ends: Range) -> Message:
    if found.standing is Standing.SLOW:
        return say(
            "beer-words-late",
            "{told}: by now it should have fallen. Look at the temperature, the yeast and how "
            "much of it went in.",
            told=_told(found),
        )
    return say("beer-words-not-begun", "{told}: it is early yet.", told=_told(found))


_SAYS = {
    Why.BY_REFRACTOMETER: _by_refractometer,
    Why.BELOW: _below,
    Why.RISING: _rising,
    Why.NOT_BEGUN: _not_begun,
    Why.MAY_FALL: _may_fall,
}
_STANDS = {
    Standing.FERMENTING: _fermenting,
    Standing.NOT_SURE: _not_sure,
    Standing.DONE: _done,
    Standing.SLOW: _slow,
    Standing.STUCK: _stuck,
}


def advice_of(found: Stood, behind: Sequence[Message] = ()) -> tuple[Message, ...]:
    """Return what to do and what to think of, the most important first.

    `behind` is what is known to make this beer slow.
    """
    told: list[Message] = []
    if found.standing is Standing.SLOW:
        told += [*behind, *_when_stuck(found)]
    elif found.standing is Standing.STUCK:
        told += [*_when_stuck(found), *behind]
    if found.is_low:
        told += [
            say(
                "beer-why-low",
                "Lower than expected comes of wild yeast, of more sugar than noted, of an "
                "original gravity that was read too low in layers, or of the hydrometer.",
            )
        ]
    if found.last is not None and found.last.by_refractometer:
        told.append(
            say("beer-never-by-refractometer", "Never bottle on refractometer readings alone.")
        )
    if found.standing is not Standing.DONE:
        told.append(say("beer-never-on-one", "Never bottle on one reading."))
    return tuple(told)


def stuck_advice() -> tuple[Message, ...]:
    """Return what helps a beer that has stopped, whoever asks for it."""
    return tuple(_when_stuck(Stood(Standing.STUCK)))


def _when_stuck(found: Stood) -> list[Message]:
    warmer = say(
        "beer-stuck-warm",
        "Let the beer get {0} to {1} warmer and swirl the fermenter gently, lid on, so that the "
        "yeast is lifted.",
        (Kind.TEMPERATURE_DIFFERENCE, WARMER_C[0]),
        (Kind.TEMPERATURE_DIFFERENCE, WARMER_C[1]),
    )
    if found.why is Why.NOT_BEGUN:
        return [warmer]
    told = [
        say(
            "beer-stuck-degas",
            "Pour the sample between two glasses until it does not foam, let it come to {0}, "
            "read again: gas and warmth make it read wrong.",
            (Kind.TEMPERATURE, READ_AT_C),
        ),
        warmer,
    ]
    if found.standing is Standing.STUCK:
        told.append(
            say(
                "beer-stuck-forced",
                "Ferment {0} of it by itself, covered loosely, with much yeast at {1} for {days} "
                "days: where that ends, the beer can end too.",
                (Kind.VOLUME, FORCED_L),
                (Kind.TEMPERATURE, FORCED_C),
                days=f"{FORCED_DAYS:.0f}",
            )
        )
    return told


def points_of(may_fall: tuple[float, float]) -> tuple[int, int]:
    """Return whole points that a gravity may still fall by: rounded outwards, but for a quarter."""
    least, most = (POINTS * each for each in may_fall)
    return floor(least + A_QUARTER), max(ceil(most - A_QUARTER), 0)
