"""Density of water, and the temperature at which it boils up a hill.

Hot liquid takes more room than cold, so every volume in a pot goes through the density of water.
Kell's form is the default because it covers 0 to 100 °C within 0.006 kg/m³ of the international
standard equation of state (IAPWS-95). Left out: air dissolved in the water (0.003 kg/m³), salts,
and the weather, which moves the boiling point by up to half a degree.

Sources: Kell, J. Chem. Eng. Data 20 (1975) 97 to 105, with the coefficients for the 1990
temperature scale that go with the ICUMSA sucrose equation; ICAO standard atmosphere; Antoine
equation of water for 1 to 100 °C (constants from memory, checked against IAPWS-95: 0.06 °C at most
up to 3000 m).
"""

from __future__ import annotations

import math

from designer.wort.numeric import Numeric, horner, largest, log

STANDARD_PRESSURE_PA = 101325.0
PASCAL_PER_MM_HG = 133.322
WATER_KG_PER_L = 0.998203
"""A litre of water at 20 °C weighs so many kilograms."""
HIGHEST_ALTITUDE_M = 30000.0
"""Above this the standard atmosphere used here has no meaning; higher answers as this."""

_KELL_ITS_90 = (999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12)
(_K0, _K1, _K2, _K3, _K4, _K5) = _KELL_ITS_90


def water_density(temp_c: Numeric) -> Numeric:
    """Return the density of water in kg/m³, 0 to 100 °C, after Kell on the 1990 scale."""
    if type(temp_c) is float:  # `horner` written out: a day asks for it at each step
        powers = ((((_K5 * temp_c + _K4) * temp_c + _K3) * temp_c + _K2) * temp_c + _K1) * temp_c
        return (powers + _K0) / (1.0 + 16.887236e-3 * temp_c)
    return horner(_KELL_ITS_90, temp_c) / (1.0 + 16.887236e-3 * temp_c)


def air_pressure(altitude_m: Numeric) -> Numeric:
    """Return the pressure of the standard atmosphere in pascal at a height above the sea."""
    height = -largest(-altitude_m, -HIGHEST_ALTITUDE_M)
    return STANDARD_PRESSURE_PA * (1.0 - 2.25577e-5 * height) ** 5.25588


def boiling_point(altitude_m: Numeric) -> Numeric:
    """Return the temperature in °C at which water boils at a height above the sea."""
    mm_hg = log(air_pressure(altitude_m) / PASCAL_PER_MM_HG) / math.log(10.0)
    return 1730.63 / (8.07131 - mm_hg) - 233.426
