"""For readings: what a hydrometer shows, and what the wort's gravity is.

A hydrometer floats by density, so warm wort reads low; its glass widens a little too. The reading
is turned into a density at the sample's temperature, that into an extract, and the extract into the
gravity at the temperature of calibration.

Measured range 0 to 60 °C; above about 40 °C the reading is worth less than the correction, so cool
the sample first. How far home instruments can be trusted, and an offset found by floating one in
water of its own temperature: `designer.brewday.instrument`.

Sources: ISO 1768:1975 for the glass; density from ICUMSA SPS-4.
"""

from __future__ import annotations

from designer.wort.density import extract_fraction_from_density, wort_density
from designer.wort.numeric import Numeric
from designer.wort.water import water_density

GLASS_EXPANSION_PER_K = 25e-6


def extract_from_reading(
    reading_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = 20.0
) -> Numeric:
    """Return the extract in °P of a sample at `sample_c` read on an instrument."""
    glass = 1.0 + GLASS_EXPANSION_PER_K * (sample_c - calibrated_c)
    density = reading_sg * water_density(calibrated_c) / glass
    return 100.0 * extract_fraction_from_density(density, sample_c)


def true_gravity(reading_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = 20.0) -> Numeric:
    """Return the gravity that the instrument would show at its own temperature.

    It is relative to water at that temperature: a 15/15 °C gravity is 0.0002 above the 20/20 °C one
    at 12 °P.
    """
    extract_plato = extract_from_reading(reading_sg, sample_c, calibrated_c)
    return wort_density(extract_plato / 100.0, calibrated_c) / water_density(calibrated_c)


def reading_for(gravity_sg: Numeric, sample_c: Numeric, calibrated_c: Numeric = 20.0) -> Numeric:
    """Return what an instrument shows in a sample at `sample_c`: the inverse of `true_gravity`."""
    density = gravity_sg * water_density(calibrated_c)
    fraction = extract_fraction_from_density(density, calibrated_c)
    glass = 1.0 + GLASS_EXPANSION_PER_K * (sample_c - calibrated_c)
    return wort_density(fraction, sample_c) * glass / water_density(calibrated_c)


def on_its_scale(gravity_sg: Numeric, calibrated_c: Numeric) -> Numeric:
    """Return a 20/20 °C gravity as an instrument made for another temperature tells it there.

    Each is relative to water of its own temperature.
    """
    fraction = extract_fraction_from_density(gravity_sg * water_density(20.0), 20.0)
    return wort_density(fraction, calibrated_c) / water_density(calibrated_c)
