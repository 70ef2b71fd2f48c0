"""What a hydrometer says of a sample that is warm, cold or not mixed.

A hydrometer floats by the density of the liquid and grows with the temperature like its glass. A
reading R at t °C on an instrument for t0 therefore weighs the wort, water being known:

    density(extract, t) · (1 + 25e-6 (t - t0)) = R · density of water(t0)

which is solved for the extract. A corrected reading is a gravity t0/t0; one of 15/15 °C is 0.0002
above 20/20 °C at 12 °P, so where that matters take the extract itself (`plato_from_reading`).

Use from 0 to 60 °C. Above about 40 °C the sample cools and evaporates while one reads, and the
error is larger than the correction is worth: cool it first. Left out: that beer holds alcohol.
Against the printed table (density of water, no glass) it is 0.0018 off at 1.080 and 49 °C.

Sources: ICUMSA density of `density`; glass: ISO 1768:1975; polynomial: C. Lyons, Homebrew Digest
963 (1992; attribution from memory); layers: a weighing by volume, good to 0.0002.
"""

from __future__ import annotations

from designer.wort.density import extract_fraction_from_density, wort_density
from designer.wort.method import Method
from designer.wort.numeric import Numeric, choose, horner, largest
from designer.wort.water import water_density

MODERN_CALIBRATION_C = 20.0
OLDER_CALIBRATION_C = 15.0
HOTTEST_SAMPLE_C = 40.0
"""Above this a sample is better cooled than corrected."""

TRUST_SG = 0.002
"""How far a home instrument is to be believed (common practice, no source)."""

UNMIXED_BEYOND_SG = 0.003
"""A reading further than this from the mass balance, yet within the layers, says "not mixed"."""

GLASS_PER_K = 25e-6
_POLYNOMIAL_F = (1.313454e-3, -0.132674e-3, 2.057793e-6, -2.627634e-9)
_NOTHING_L = 1e-12


def _glass(sample_c: Numeric, calibrated_c: Numeric) -> Numeric:
    """Return how much larger the float is than where it was calibrated."""
    return 1.0 + GLASS_PER_K * (sample_c - calibrated_c)


def _extract_fraction(reading_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric) -> Numeric:
    density = reading_sg * water_density(calibrated_c) / _glass(sample_c, calibrated_c)
    return extract_fraction_from_density(density, sample_c)


def plato_from_reading(
    reading_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = MODERN_CALIBRATION_C
) -> Numeric:
    """Return the extract in °Plato of a sample at `sample_c`; an apparent one if it is beer."""
    return 100.0 * _extract_fraction(reading_sg, sample_c, calibrated_c)


def true_gravity(
    reading_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = MODERN_CALIBRATION_C
) -> Numeric:
    """Return what the instrument would read were the sample at `calibrated_c`."""
    fraction = _extract_fraction(reading_sg, sample_c, calibrated_c)
    return wort_density(fraction, calibrated_c) / water_density(calibrated_c)


def reading_for(
    gravity_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = MODERN_CALIBRATION_C
) -> Numeric:
    """Return what the instrument reads in wort of `gravity_sg` (at `calibrated_c`) at `sample_c`.

    The inverse of `true_gravity`.
    """
    water = water_density(calibrated_c)
    fraction = extract_fraction_from_density(gravity_sg * water, calibrated_c)
    return wort_density(fraction, sample_c) * _glass(sample_c, calibrated_c) / water


def _polynomial(temp_c: Numeric) -> Numeric:
    return horner(_POLYNOMIAL_F, 1.8 * temp_c + 32.0)


def true_gravity_polynomial(
    reading_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = OLDER_CALIBRATION_C
) -> Numeric:
    """Return the reading corrected by the polynomial in °F, which does not know the strength.

    It was made for 15 °C (59 °F); for another calibration the step between the two is taken off.
    """
    step = _polynomial(calibrated_c) - _polynomial(OLDER_CALIBRATION_C)
    return reading_sg + _polynomial(sample_c) - step


HYDROMETER_METHODS = {
    "density": Method(
        true_gravity,
        "Weighs the sample by the density of sucrose and the growth of glass.",
        "ICUMSA SPS-4 (1998); ISO 1768:1975",
    ),
    "polynomial": Method(
        true_gravity_polynomial,
        "One curve for every strength; 0.002 off in strong and hot wort.",
        "C. Lyons, Homebrew Digest 963 (1992; attribution from memory)",
    ),
}


def mixed_gravity(
    lower_l: Numeric, lower_sg: Numeric, upper_l: Numeric, upper_sg: Numeric = 1.0
) -> Numeric:
    """Return the gravity once two layers are stirred, weighed by volume; 1.0 if there is none."""
    total = lower_l + upper_l
    points = (lower_l * (lower_sg - 1.0) + upper_l * (upper_sg - 1.0)) / largest(total, _NOTHING_L)
    return 1.0 + choose(total > 0.0, points, 0.0)


def straddling_reading(
    lower_sg: Numeric, share_in_lower: Numeric, upper_sg: Numeric = 1.0
) -> Numeric:
    """Return what is read with a share (0 to 1) of the displaced volume in the lower layer."""
    return share_in_lower * lower_sg + (1.0 - share_in_lower) * upper_sg


def layer_bounds(lower_sg: Numeric, upper_sg: Numeric = 1.0) -> tuple[Numeric, Numeric]:
    """Return the least and the most that a sample of unmixed layers may read."""
    return straddling_reading(lower_sg, 0.0, upper_sg), straddling_reading(lower_sg, 1.0, upper_sg)
