"""How fast alpha acid turns to iso-alpha acid, at and below the boil.

The reaction follows Arrhenius. Dividing by the rate at 100 °C gives r, the boil-equivalent minutes
that one minute at a temperature is worth; its integral over a cooling curve is what a hop stand
counts for. That iso-alpha acid is lost again in a long boil is in the empirical curve it serves.

Measured from 90 to 130 °C in a buffer of pH 5.2; below is extrapolation, and under 60 °C (r below
0.022) the clock is stopped. Left out: extraction from the hop, and oxidised hop compounds which a
laboratory counts as bitterness, so big late additions measure higher than this.

Source: Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434. Letting the empirical clock of
the boil run at r is this project's proposal.
"""

from __future__ import annotations

import math

from designer.wort.numeric import (
    Numeric,
    any_positive,
    choose,
    everywhere,
    exp,
    largest,
    mean_over,
    smallest,
)

ZERO_C_IN_K = 273.15
BOIL_K = 373.15
STOP_C = 60.0
"""Below this the reaction is not counted."""

_TINY = 1e-12
_ISO_ENERGY_K = 11858.0
_AT_THE_BOIL = _ISO_ENERGY_K / BOIL_K
_COLDEST_C = 1.0 - ZERO_C_IN_K
"""One kelvin above nothing; no wort is that cold."""


def _kelvin(temp_c: Numeric) -> Numeric:
    return largest(temp_c + ZERO_C_IN_K, 1.0)


def relative_rate(temp_c: Numeric) -> Numeric:
    """Return r, the minutes at 100 °C that one minute at `temp_c` is worth."""
    if type(temp_c) is float and temp_c > _COLDEST_C:
        return math.exp(_AT_THE_BOIL - _ISO_ENERGY_K / (temp_c + ZERO_C_IN_K))
    return exp(_AT_THE_BOIL - _ISO_ENERGY_K / _kelvin(temp_c))


def equivalent_minutes_straight(
    from_c: Numeric, to_c: Numeric, time_min: Numeric, stop_c: Numeric = STOP_C
) -> Numeric:
    """Return the boil-equivalent minutes while wort goes evenly from one temperature to another."""
    hot, cold = largest(from_c, to_c), smallest(from_c, to_c)
    if not any_positive(hot - stop_c + _TINY):
        return 0.0 * hot
    lower = largest(cold, smallest(stop_c, hot))
    span = hot - cold
    share = choose(span > _TINY, (hot - lower) / largest(span, _TINY), 1.0)
    middle, half = (hot + lower) / 2.0, (hot - lower) / 2.0
    # Over 8 kelvin, which is what stirring extract in costs, four points are within 1e-10.
    points = 8 if any_positive(half - 4.0) else 4
    mean = mean_over(relative_rate, middle, half, points)
    counted = largest(time_min, 0.0) * share * mean
    return choose(hot >= stop_c, counted, 0.0)


def equivalent_minutes_cooling(
    from_c: Numeric,
    to_c: Numeric,
    coolant_c: Numeric,
    constant_per_min: Numeric,
    stop_c: Numeric = STOP_C,
) -> Numeric:
    """Return the boil-equivalent minutes while wort cools by Newton's law.

    Time is exchanged for temperature, dt = dT / (k (T - coolant)), and the integral of r taken by
    eight Gauss points: no step to choose. Within one in a million for a coolant below 45 °C, one
    in a hundred for one a degree below the end. Infinite where the end is never reached.
    """
    end = largest(to_c, stop_c)
    span = largest(from_c - end, 0.0)
    if not any_positive(span):
        return span
    reached = smallest(end - coolant_c, constant_per_min) > 0.0
    middle, half = end + span / 2.0, span / 2.0
    coolest_c = smallest(coolant_c, end - _TINY)  # where it is not reached nothing hangs on it

    def minutes_per_kelvin(temp_c: Numeric) -> Numeric:
        return relative_rate(temp_c) / (temp_c - coolest_c)

    minutes = span * mean_over(minutes_per_kelvin, middle, half)
    minutes = minutes / largest(constant_per_min, _TINY)
    if everywhere(reached):
        return minutes
    return choose(reached, minutes, choose(span > 0.0, math.inf, 0.0))
