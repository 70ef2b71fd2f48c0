"""What a hydrometer should show, beside what the wort is.

The forecast's range is that of the wort. The instrument adds a doubt of its own: home hydrometers
are trusted to 0.002 (common practice, no source), one that was floated in water to half of that
(judgement). Both are independent, so their half widths add as squares, on each side of the middle
of the draws. A scale is read to 0.001: the ends are rounded outwards, for no reading lies between
two marks.
"""

from __future__ import annotations

from math import ceil, floor, hypot

from designer.brewday.results import Range
from designer.recipe.document import Process
from designer.recipe.fields import facts_of, number
from designer.wort.density import wort_density
from designer.wort.hydrometer import extract_from_reading
from designer.wort.water import water_density

WATER_SG = 1.0
CHECKED_WITHIN_SG = 0.001
"""How far an instrument may still be off that was floated in water (judgement)."""
MARKS = 1000.0
"""Marks of the scale for each unit of gravity, read between the lines."""


def trusted_within(process: Process) -> float:
    """Return half the width of the 5 to 95 % range of the hydrometer's own error, in gravity."""
    typed = process.hydrometer_in_water
    if typed is None:
        return facts_of(process, "hydrometer_in_water").spread
    return typed.spread if typed.spread is not None else CHECKED_WITHIN_SG


def reads_high_by(process: Process) -> float:
    """Return what the hydrometer shows too much, in gravity, as it was found in water."""
    return number(process, "hydrometer_in_water") - WATER_SG


def true_gravity(shown_sg: float, sample_c: float, process: Process) -> float:
    """Return the gravity at 20/20 °C of a sample, from what the hydrometer shows in it."""
    in_sample = shown_sg - reads_high_by(process)
    return gravity_at_20(in_sample, sample_c, number(process, "hydrometer_made_for"))


def gravity_at_20(shown_sg: float, sample_c: float, made_for_c: float) -> float:
    """Return the gravity at 20/20 °C of a sample, from what a hydrometer that is right shows."""
    fraction = extract_from_reading(shown_sg, sample_c, made_for_c) / 100.0
    return float(wort_density(fraction, 20.0) / water_density(20.0))


def reading_range(found: Range, process: Process) -> tuple[float, float]:
    """Return from what to what a corrected reading of the forecast gravity lies, 5 to 95 %."""
    trusted = trusted_within(process)
    middle = found.value if found.middle is None else found.middle
    low = middle - hypot(max(middle - found.low, 0.0), trusted)
    high = middle + hypot(max(found.high - middle, 0.0), trusted)
    rounding = 1e-9
    return (
        floor(min(low, found.low) * MARKS + rounding) / MARKS,
        ceil(max(high, found.high) * MARKS - rounding) / MARKS,
    )
