"""What is said of fermenting beer: the band it is expected to fall in, and where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from designer.brewday.results import Range
from designer.recipe.message import Message


@dataclass(frozen=True, slots=True)
class BeerReading:
    """A gravity of the beer, corrected to 20 °C and for alcohol, so many days after pitching.

    `half_width` is half the 5 to 95 % range of its own error, `by_refractometer` tells that it can
    never say whether the beer is done.
    """

    day: float
    gravity: float
    half_width: float
    by_refractometer: bool = False


@dataclass(frozen=True, slots=True)
class Warmth:
    """How warm the beer was, °C, from so many days after pitching until the next."""

    day: float
    temp_c: float


class Standing(StrEnum):
    """Where the beer stands."""

    NOT_READ = "not read"
    FERMENTING = "fermenting"
    NOT_SURE = "not yet sure"
    DONE = "done"
    SLOW = "slow"
    STUCK = "stuck"


@dataclass(frozen=True, slots=True)
class CoursePoint:
    """What is expected so many days after pitching."""

    day: float
    gravity: Range


@dataclass(frozen=True, slots=True)
class Fermenting:
    """What is known of the beer in the fermenter.

    `course` is the band as it is known after the readings, `forecast` that before any; `ends_at`
    and `forecast_end` are where either is expected to end. The figures of alcohol, attenuation
    (shares) and food value are those of the last reading, None before one.
    `may_fall` is by how much the gravity may still fall, least and most. `steps` say what to do,
    each with the day after pitching.
    """

    course: tuple[CoursePoint, ...]
    ends_at: Range
    standing: Standing
    title: Message
    words: Message
    abv_percent: float | None = None
    apparent_attenuation: float | None = None
    real_attenuation: float | None = None
    kcal_per_100ml: float | None = None
    may_fall: tuple[float, float] = (0.0, 0.0)
    steps: tuple[tuple[float, Message], ...] = ()
    advice: tuple[Message, ...] = ()
    warmest_since_done_c: float | None = None
    """The warmest that it was since it fermented out, °C; None where nobody noted it."""
    forecast: tuple[CoursePoint, ...] = ()
    forecast_end: Range | None = None
