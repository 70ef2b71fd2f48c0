"""What a reading of nature would show on a day: what is there, less what the instrument is off by.

The instrument is off by an input of its own, or by one that the day has already: the mark to which
a fermenter is filled, the marks by which the water was measured.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot, sqrt
from typing import NamedTuple

from designer.brewday.instrument import WATER_SG
from designer.brewday.measured.as_read import DECIDED
from designer.brewday.measured.reading_errors import (
    FERMENTER_MARK,
    GRAVITIES,
    TEMPERATURES,
    VOLUMES_IN_FERMENTER,
    WATER_IN,
    error_of,
    instrument_of,
)
from designer.brewday.measured.readings import By, Measured, Readable, Reading
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.brewday.vessel_doubts import off_at_mark, share_off, true_litres
from designer.recipe.document import Recipe
from designer.recipe.fields import facts_of
from designer.wort.numeric import Numeric, exp

READ_AT_THE_MARK = 0.005
"""Share of the litres that a level at a mark is told closer than the mark itself is known."""

_LEAST_OFF = 1e-5
"""No reading is surer, in its base unit, and none is of less."""


class Told(NamedTuple):
    """A reading, and how many times what a day tells it is of: a pour is a part of its boil.

    Of a gravity it is the points that are so many times those of the day.
    """

    reading: Reading
    times: float = 1.0

    @property
    def of_the_day(self) -> Reading:
        """The reading as if all of the day's wort had been read."""
        reading, times = self.reading, self.times
        if times == 1.0:
            return reading
        nothing = WATER_SG if reading.what in GRAVITIES else 0.0
        value, told = nothing + (reading.value - nothing) / times, reading.half_width
        return replace(reading, value=value, half_width=None if told is None else told / times)


@dataclass(frozen=True, slots=True)
class Observed:
    """What nature showed: the figure, the key of its instrument and how far that puts it off.

    `rate` is what is shown too little for each standard score of the instrument, a share of it for
    volumes; `deviation` is the standard deviation of what is off besides.
    """

    what: Measured
    left_min: float | None
    value: float
    instrument: str
    rate: float
    deviation: float

    @property
    def half_width(self) -> float:
        """Half the 5 to 95 % range of what the instrument is off by."""
        return self.rate * HALF_WIDTH_SIGMAS

    def shown(self, there: Numeric, score: Numeric) -> Numeric:
        """Return what is read of what is there, with the instrument off by so many deviations."""
        if self.what in GRAVITIES or self.what in TEMPERATURES:
            return there - self.rate * score
        return there * exp(-self.rate * score)


def is_observed(reading: Reading) -> bool:
    """Whether it tells of what nature decides; at a mark that was filled up to, wort may stand."""
    return reading.what not in DECIDED or reading.what is Measured.TOPPED_UP


def observed(recipe: Recipe, told: Sequence[Told]) -> tuple[Observed, ...]:
    """Return what the readings show of nature; `recipe` is as it was read."""
    readings = tuple(each.of_the_day for each in told)
    return tuple(_observed(recipe, each, readings) for each in told if is_observed(each.reading))


def _observed(recipe: Recipe, told: Told, readings: tuple[Reading, ...]) -> Observed:
    reading = told.of_the_day
    error = error_of(recipe, told.reading)
    shared, own = error.shared / told.times, error.own / told.times
    key = instrument_of(recipe, reading, readings)
    if reading.what is Measured.TOPPED_UP:
        rate = _off_at_mark(recipe, reading.value, hypot(shared, own))
        shared, own = rate * reading.value, READ_AT_THE_MARK * reading.value
    elif key in (WATER_IN, FERMENTER_MARK):
        known = _in_input(recipe, key, reading, readings)
        alike = min(shared, known * reading.value)
        shared, own = alike, hypot(own, sqrt(shared**2 - alike**2))
    if reading.what not in GRAVITIES and reading.what not in TEMPERATURES:
        shared = min(shared / max(abs(reading.value), _LEAST_OFF), 1.0)
    return Observed(
        reading.what,
        reading.left_min,
        _there(recipe, reading),
        key,
        shared / HALF_WIDTH_SIGMAS,
        max(own, _LEAST_OFF) / HALF_WIDTH_SIGMAS,
    )


def _there(recipe: Recipe, reading: Reading) -> float:
    """Return what was read, litres at a fermenter's mark as they really are."""
    if is_at_its_mark(reading):
        return true_litres(recipe.fermenter, reading.value)
    return reading.value


def is_at_its_mark(readable: Readable) -> bool:
    """Whether it is read at the marks of a fermenter."""
    by = getattr(readable, "by", By.MARK)
    return readable.what in VOLUMES_IN_FERMENTER and by is By.MARK


def _off_at_mark(recipe: Recipe, litres: float, own_l: float) -> float:
    """Return the share that the filled fermenter is off by: the same as that of its input."""
    typed = recipe.process.top_up_to
    if typed is None:
        return own_l / max(litres, 1e-9)
    if typed.spread is not None:
        return typed.spread / max(typed.value, 1e-9)
    return off_at_mark(recipe.fermenter, typed.value)


def _in_input(recipe: Recipe, key: str, reading: Reading, readings: tuple[Reading, ...]) -> float:
    """Return which share of the litres the input of that key stands for in other readings."""
    what = Measured.WATER_IN if key == WATER_IN else Measured.TOPPED_UP
    decided = next((each for each in readings if each.what is what), None)
    typed = recipe.process.start_water if key == WATER_IN else recipe.process.top_up_to
    if typed is None:
        return 1.0
    if decided is not None and typed.spread is not None:
        error = error_of(recipe, decided)
        return error.shared**2 / max(error.whole, 1e-12) / max(decided.value, 1e-9)
    if typed.spread is not None:
        return typed.spread / max(typed.value, 1e-9)
    if key == WATER_IN:
        return facts_of(recipe.process, "start_water").spread
    of_it, anyway_l = share_off(recipe.fermenter)
    whole = hypot(of_it, anyway_l / max(typed.value, 1e-9))
    return of_it**2 / max(whole, 1e-12)
