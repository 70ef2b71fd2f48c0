"""How far off a reading of the brew day may be, by what it was read with.

An error has two parts. What is wrong with the instrument is wrong in all that is read with it: the
place of a mark, how wide a dipstick is taken to be, a hydrometer's offset, a thermometer's. What
the eye adds is another each time. Half widths are those of 5 to 95 % ranges.

Sources: marks and eye, household measures ±5 % of every mark (ANSI Z61.1, quoted), buckets 5 to
10 % off in home tests, and the geometry of 2 to 5 mm of level; bathroom scale, common practice;
home hydrometer lines every 0.002 and an eye of one point, offset judgement; refractometer against
hydrometer 1.00 to 1.06 about 1.04, common practice; kitchen thermometer, common practice.
"""

from __future__ import annotations

from math import hypot, pi, sqrt
from typing import NamedTuple

from designer.brewday.heat_doubts import STAND
from designer.brewday.instrument import trusted_within
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.vessel_doubts import FERMENTER_MARK as FERMENTER_MARK
from designer.brewday.vessel_doubts import share_off
from designer.recipe.document import Recipe
from designer.recipe.fields import facts_of, number_or_none
from designer.recipe.plan import boils_of, fermenters_of, is_planned, recipe_at
from designer.recipe.quantity import Quantity, Stage
from designer.translation import message

POT_MARK = message("pot mark")
DIPSTICK = message("dipstick")
WATER_IN = message("water measured in")
HYDROMETER = message("hydrometer")
REFRACTOMETER = message("refractometer")
THERMOMETER = message("thermometer")

MARK_SHARE = 0.04
"""Share of the litres that the marks of a pot or jug are off by."""
DIPSTICK_SHARE = 0.02
"""The same of a dipstick: 2 mm of 24 cm across, twice (judgement)."""
USUAL_POT_M = 0.26
"""Width of a kitchen pot that nobody measured: one of 8 to 10 L (judgement)."""
EYE_MM = {By.MARK: 3.0, By.DIPSTICK: 2.0}
EYE_BOILING_MM = 5.0
"""With foam and a moving surface."""
WEIGHED_L = 0.2
"""Litres of a full vessel by a bathroom scale."""
WEIGHED_WATER_L = 0.05
"""Litres of water by a kitchen scale."""
EYE_SG = 0.001
MIXED_SG = 0.0005
"""What is left of layers where the wort was lifted from the bottom for minutes (judgement)."""
REFRACTOMETER_SHARE, REFRACTOMETER_EYE_SG = 0.03, 0.0008
"""Share of the points by the factor of wort; 0.2 °Bx by eye."""
THERMOMETER_C, THERMOMETER_EYE_C = 2.0, 0.5

VOLUMES_IN_POT = (Measured.BOIL_START_VOLUME, Measured.BOIL_VOLUME, Measured.BOIL_END_VOLUME)
VOLUMES_IN_FERMENTER = (Measured.INTO_FERMENTER, Measured.TOPPED_UP)
TEMPERATURES = (Measured.STRIKE, Measured.STEEP, Measured.COOLED, Measured.MIXED)
GRAVITIES = (
    Measured.BOIL_START_GRAVITY,
    Measured.BOIL_GRAVITY,
    Measured.BOIL_END_GRAVITY,
    Measured.ORIGINAL_GRAVITY,
)


class ReadingError(NamedTuple):
    """Half widths of what the instrument is off by, and of what the eye adds, in base units."""

    shared: float
    own: float

    @property
    def whole(self) -> float:
        """Both together."""
        return hypot(self.shared, self.own)

    def as_wide_as(self, half_width: float | None) -> ReadingError:
        """Return the same with the half width that was told of the whole."""
        if half_width is None or self.whole == 0.0:
            return self
        times = half_width / self.whole
        return ReadingError(times * self.shared, times * self.own)


def usual_half_width(recipe: Recipe, reading: Reading) -> float:
    """Return half the 5 to 95 % range of a reading's own error, in its base unit.

    Of a planned recipe pot and fermenter are those that the reading names, if there are such.
    """
    if is_planned(recipe):
        boil = min(max(reading.boil, 1), len(boils_of(recipe)))
        fermenter = min(max(reading.fermenter, 1), len(fermenters_of(recipe)))
        recipe = recipe_at(recipe, boil, fermenter)
    return error_of(recipe, reading).whole


def error_of(recipe: Recipe, reading: Reading) -> ReadingError:
    """Return how far off a reading may be, as told of it or else as is usual."""
    return _usual(recipe, reading).as_wide_as(reading.half_width)


def _usual(recipe: Recipe, reading: Reading) -> ReadingError:
    what, value = reading.what, abs(reading.value)
    if what in GRAVITIES:
        return _of_gravity(recipe, reading)
    if what in TEMPERATURES:
        return ReadingError(sqrt(THERMOMETER_C**2 - THERMOMETER_EYE_C**2), THERMOMETER_EYE_C)
    if what in (Measured.ALPHA, Measured.WEIGHT):
        return ReadingError(_of_line(recipe, reading), 0.0)
    if what is Measured.WATER_IN:
        return _of_water(recipe, reading)
    if reading.by is By.SCALE:
        return ReadingError(0.0, WEIGHED_L)
    if reading.by is By.DIPSTICK:
        return ReadingError(DIPSTICK_SHARE * value, _eye_l(recipe, reading))
    if what in VOLUMES_IN_FERMENTER:
        share, anyway_l = share_off(recipe.fermenter)
        return ReadingError(share * value, anyway_l)
    return ReadingError(MARK_SHARE * value, _eye_l(recipe, reading))


def _of_gravity(recipe: Recipe, reading: Reading) -> ReadingError:
    mixed = MIXED_SG if reading.what is Measured.ORIGINAL_GRAVITY else 0.0
    if reading.by is By.REFRACTOMETER:
        points = off_by_wort(recipe) * abs(reading.value - 1.0)
        return ReadingError(points, hypot(REFRACTOMETER_EYE_SG, mixed))
    whole = trusted_within(recipe.process)
    eye = min(EYE_SG, whole / sqrt(2.0))
    return ReadingError(sqrt(whole**2 - eye**2), hypot(eye, mixed))


def off_by_wort(recipe: Recipe) -> float:
    """Return the share of the points that the factor of wort is off by."""
    known = recipe.process.wort_correction
    if known is None or known.spread is None:
        return REFRACTOMETER_SHARE
    return known.spread / known.value


def _of_water(recipe: Recipe, reading: Reading) -> ReadingError:
    if reading.by is By.SCALE:
        return ReadingError(0.0, WEIGHED_WATER_L)
    if reading.by is By.DIPSTICK:
        return ReadingError(DIPSTICK_SHARE * reading.value, _eye_l(recipe, reading))
    return ReadingError(facts_of(recipe.process, "start_water").spread * reading.value, 0.0)


def _eye_l(recipe: Recipe, reading: Reading) -> float:
    """Return the litres of a few millimetres of level."""
    boils = reading.what in (Measured.BOIL_START_VOLUME, Measured.BOIL_VOLUME)
    high_mm = EYE_BOILING_MM if boils else EYE_MM.get(reading.by, EYE_MM[By.MARK])
    across_m = USUAL_POT_M
    if reading.what not in VOLUMES_IN_FERMENTER:
        across_m = number_or_none(recipe.pot, "diameter") or USUAL_POT_M
    return pi / 4.0 * across_m**2 * high_mm


def _of_line(recipe: Recipe, reading: Reading) -> float:
    """Return what a kitchen scale, or the figure of a packet, is off by."""
    name = "alpha" if reading.what is Measured.ALPHA else "amount"
    lines = recipe.hops if reading.what is Measured.ALPHA else getattr(recipe, reading.lines, ())
    line = next((each for each in lines if each.line_id == reading.line_id), None)
    if line is None:
        return 0.0
    typed: Quantity | None = getattr(line, name)
    if typed is not None and typed.spread is not None:
        return typed.spread
    facts = facts_of(line, name)
    return facts.spread * reading.value if facts.relative else facts.spread


def instrument_of(recipe: Recipe, reading: Reading, readings: tuple[Reading, ...]) -> str:
    """Return the key of what an instrument is off by, that of the day's own input where it is one.

    Water and wort read off the same marks of a pot are off alike, and so is what a fermenter is
    filled to with what else is read off its marks.
    """
    what = reading.what
    if what in GRAVITIES:
        return REFRACTOMETER if reading.by is By.REFRACTOMETER else HYDROMETER
    if what in TEMPERATURES:
        stands = any(hop.when.stage is Stage.STAND for hop in recipe.hops)
        return STAND.words if stands else THERMOMETER
    if what in VOLUMES_IN_POT:
        if _read_by(readings, Measured.WATER_IN, reading.by):
            return WATER_IN
        return DIPSTICK if reading.by is By.DIPSTICK else POT_MARK
    if what is Measured.TOPPED_UP or _read_by(readings, Measured.TOPPED_UP, reading.by):
        return FERMENTER_MARK
    return DIPSTICK if reading.by is By.DIPSTICK else FERMENTER_MARK


def _read_by(readings: tuple[Reading, ...], what: Measured, by: By) -> bool:
    return any(each.what is what and each.by is by for each in readings)
