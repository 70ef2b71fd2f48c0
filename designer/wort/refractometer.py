"""For readings: extract from a refractometer, before and after fermentation.

The instrument is scaled for sucrose. Wort bends light a little more, so a reading is divided by a
correction that each brewer can calibrate: reading over hydrometer °P, usually 1.00 to 1.06. Once
there is alcohol the reading alone says nothing; together with the one before fermentation an
empirical fit gives the final gravity, ± 0.002 at best and not below 61 % apparent attenuation.
Never decide on it whether beer is safe to bottle.

Sources: correction 1.04: common practice, no source; final gravity: S. Terrill, "Refractometer FG
results" (2011, 68 beers), who found the linear form more accurate, the cubic a little more precise,
the older one 0.005 low.
"""

from __future__ import annotations

from collections.abc import Sequence

from designer.wort.method import Method
from designer.wort.numeric import Numeric, horner, largest

WORT_CORRECTION = 1.04
_SMALLEST_CORRECTION = 0.1
_TERRILL = "Terrill, Refractometer FG results (2011)"


def plato_from_brix(reading_brix: Numeric, correction: Numeric = WORT_CORRECTION) -> Numeric:
    """Return the extract in °P of unfermented wort."""
    return reading_brix / largest(correction, _SMALLEST_CORRECTION)


def final_gravity_linear(
    initial_brix: Numeric, final_brix: Numeric, correction: Numeric = WORT_CORRECTION
) -> Numeric:
    """Return the gravity of fermented beer from both readings, by the linear fit."""
    return _fitted((1.0, -0.00085683), (0.0, 0.0034941), (initial_brix, final_brix), correction)


def final_gravity_cubic(
    initial_brix: Numeric, final_brix: Numeric, correction: Numeric = WORT_CORRECTION
) -> Numeric:
    """Return the gravity of fermented beer from both readings, by the cubic fit."""
    of_initial = (1.0, -0.0044993, 0.00027581, -7.28e-6)
    of_final = (0.0, 0.011774, -0.0012717, 6.3293e-5)
    return _fitted(of_initial, of_final, (initial_brix, final_brix), correction)


def final_gravity_older(
    initial_brix: Numeric, final_brix: Numeric, correction: Numeric = WORT_CORRECTION
) -> Numeric:
    """Return the gravity of fermented beer from both readings, by the older cubic."""
    of_initial = (1.001843, -0.002318474, -7.775e-6, -3.4e-8)
    of_final = (0.0, 0.00574, 3.344e-5, 8.6e-8)
    return _fitted(of_initial, of_final, (initial_brix, final_brix), correction)


def _fitted(
    of_initial: Sequence[float],
    of_final: Sequence[float],
    readings: tuple[Numeric, Numeric],
    correction: Numeric,
) -> Numeric:
    initial, final = (plato_from_brix(reading, correction) for reading in readings)
    return horner(of_initial, initial) + horner(of_final, final)


REFRACTOMETER_METHODS = {
    "linear": Method(
        final_gravity_linear, "The most accurate of the three on 68 beers; the default.", _TERRILL
    ),
    "cubic": Method(
        final_gravity_cubic, "A little more precise, a little less accurate.", _TERRILL
    ),
    "older": Method(
        final_gravity_older,
        "Reads 0.0005 to 0.0085 low; for comparison with old notes.",
        "circulated before 2011, quoted by Terrill",
    ),
}
"""Ways to a final gravity from two readings, the default first."""
