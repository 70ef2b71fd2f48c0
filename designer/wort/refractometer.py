"""What a refractometer says, before yeast and after.

The scale is made for sucrose; wort reads a little high, by a correction that each brewer calibrates
(reading over hydrometer °P, 1.00 to 1.06). Alcohol bends light as well, so a reading of beer is no
extract: with the strength before yeast, a fit to measured beers gives the gravity.

Measured: 68 beers. No form is valid below 61 % apparent attenuation; ± 0.002 at best, so never
decide on it whether it is safe to bottle.

Sources: correction 1.04: common practice; refractive index: a published fit to the ICUMSA table,
20 °C and 589.3 nm; gravity of beer: S. Terrill, "Refractometer FG results", 7 April 2011, where the
linear form was the most accurate and the older one low by 0.005.
"""

from __future__ import annotations

from designer.wort.method import Method
from designer.wort.numeric import Numeric, horner, largest

USUAL_CORRECTION = 1.04
LEAST_ATTENUATION = 0.61
"""Apparent attenuation below which the forms for beer were not measured."""

_SUGAR_TABLE = (-99127.4536, 318417.95, -413145.80, 270177.93, -88885.21, 11758.74)


def plato_from_brix(reading_brix: Numeric, correction: Numeric = USUAL_CORRECTION) -> Numeric:
    """Return the extract in °Plato of unfermented wort; `correction` is held above 0.5."""
    return reading_brix / largest(correction, 0.5)


def brix_from_refractive_index(refractive_index: Numeric) -> Numeric:
    """Return °Brix of a sugar solution at 20 °C; 1.333 is water."""
    return horner(_SUGAR_TABLE, refractive_index)


def final_gravity_linear(initial_plato: Numeric, final_plato: Numeric) -> Numeric:
    """Return the gravity of beer; both readings already corrected by `plato_from_brix`."""
    return 1.0 - 0.00085683 * initial_plato + 0.0034941 * final_plato


def final_gravity_cubic(initial_plato: Numeric, final_plato: Numeric) -> Numeric:
    """Return the gravity of beer by the cubic; both readings already corrected."""
    from_initial = horner((0.0, -0.0044993, 0.00027581, -7.28e-6), initial_plato)
    return 1.0 + from_initial + horner((0.0, 0.011774, -0.0012717, 6.3293e-5), final_plato)


def final_gravity_older(initial_plato: Numeric, final_plato: Numeric) -> Numeric:
    """Return the gravity of beer by the form used before 2011; both readings corrected."""
    from_initial = horner((0.0, -0.002318474, -7.775e-6, -3.4e-8), initial_plato)
    return 1.001843 + from_initial + horner((0.0, 0.00574, 3.344e-5, 8.6e-8), final_plato)


REFRACTOMETER_METHODS = {
    "linear": Method(
        final_gravity_linear,
        "A straight fit to 68 beers; the most accurate.",
        "Terrill, Refractometer FG results (2011)",
    ),
    "cubic": Method(
        final_gravity_cubic,
        "A cubic fit to 68 beers; scatters a little less, slightly biased.",
        "Terrill, Refractometer FG results (2011)",
    ),
    "older": Method(
        final_gravity_older,
        "The form used before 2011; low by 0.005 on average.",
        "quoted in Terrill, Refractometer FG results (2011)",
    ),
}
"""The forms for the gravity of beer, the default first."""
