"""How fast alpha acid turns to iso-alpha acid, at and below the boil.

Two reactions in a row: alpha acid to iso-alpha acid, and that to products which are not bitter.
Both follow Arrhenius. Dividing by the rate at 100 °C gives r, the boil-equivalent minutes that one
minute at a temperature is worth; its integral over a cooling curve is what a hop stand counts for.

Measured from 90 to 130 °C in a buffer of pH 5.2; below is extrapolation, and under 60 °C (r below
0.022) the clock is stopped. Left out: extraction from the hop, and oxidised hop compounds which a
laboratory counts as bitterness, so big late additions measure higher than this.

Sources: Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434 (the unit, per minute, is from
memory and fits the known half-life at the boil); Hosom (published blog article) for the upper
bound. Letting the empirical clock of the boil run at r is this project's proposal.
"""

from __future__ import annotations

import math

from designer.wort.numeric import (
    Numeric,
    any_positive,
    choose,
    exp,
    expm1,
    largest,
    mean_over,
    smallest,
)

ZERO_C_IN_K = 273.15
BOIL_K = 373.15
STOP_C = 60.0
"""Below this the reaction is not counted."""

_TINY = 1e-12
_ISO_ENERGY_K, _LOSS_ENERGY_K = 11858.0, 12994.0


def _kelvin(temp_c: Numeric) -> Numeric:
    return largest(temp_c + ZERO_C_IN_K, 1.0)


def isomerisation_rate(temp_c: Numeric) -> Numeric:
    """Return the rate, per minute, at which alpha acid turns to iso-alpha acid."""
    return 7.9e11 * exp(-_ISO_ENERGY_K / _kelvin(temp_c))


def degradation_rate(temp_c: Numeric) -> Numeric:
    """Return the rate, per minute, at which iso-alpha acid is lost."""
    return 4.1e12 * exp(-_LOSS_ENERGY_K / _kelvin(temp_c))


def relative_rate(temp_c: Numeric) -> Numeric:
    """Return r, the minutes at 100 °C that one minute at `temp_c` is worth."""
    return exp(_ISO_ENERGY_K / BOIL_K - _ISO_ENERGY_K / _kelvin(temp_c))


def relative_rate_hosom(temp_c: Numeric) -> Numeric:
    """Return the relative utilisation fitted to measured beers: an upper bound below the boil."""
    return 2.39e11 * exp(-9773.0 / _kelvin(temp_c))


def shares(temp_c: Numeric, time_min: Numeric) -> tuple[Numeric, Numeric, Numeric]:
    """Return the shares of the alpha acid left, made bitter, and lost again; they add up to 1."""
    made, lost = isomerisation_rate(temp_c), degradation_rate(temp_c)
    minutes = largest(time_min, 0.0)
    left = exp(-made * minutes)
    # Written with the difference of the rates, which is nowhere 0 in a kitchen (it is at 417 °C).
    bitter = left * made * -expm1(-(lost - made) * minutes) / (lost - made)
    return left, bitter, 1.0 - left - bitter


def peak_time(temp_c: Numeric) -> Numeric:
    """Return the minutes after which iso-alpha acid is at its most."""
    made, lost = isomerisation_rate(temp_c), degradation_rate(temp_c)
    log_ratio = math.log(7.9e11 / 4.1e12) + (_LOSS_ENERGY_K - _ISO_ENERGY_K) / _kelvin(temp_c)
    return log_ratio / (made - lost)


def equivalent_minutes_held(
    temp_c: Numeric, time_min: Numeric, stop_c: Numeric = STOP_C
) -> Numeric:
    """Return the boil-equivalent minutes of wort held at `temp_c`; 0 below `stop_c`."""
    return choose(temp_c >= stop_c, relative_rate(temp_c) * largest(time_min, 0.0), 0.0)


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

    def minutes_per_kelvin(temp_c: Numeric) -> Numeric:
        return relative_rate(temp_c) / largest(temp_c - coolant_c, _TINY)

    minutes = span * mean_over(minutes_per_kelvin, middle, half)
    minutes = minutes / largest(constant_per_min, _TINY)
    return choose(reached, minutes, choose(span > 0.0, math.inf, 0.0))
