"""Strength of wort, its density and its gravity.

Extract is treated as sucrose, which is what a degree Plato means by definition, so one equation
gives the density of wort of any strength at any temperature (0 to 85 % extract, 0 to 100 °C; the
printed tables agree within 0.07 kg/m³ up to 30 %). Gravity is the ratio to water, both at 20 °C
and weighed in air, as the tables of the trade are. Left out: that maltose and dextrins weigh a
little differently from sucrose.

Source: ICUMSA Specification and Standard SPS-4 (1998) for density (title from memory, coefficients
as in two independent transcriptions).
"""

from __future__ import annotations

from designer.wort.numeric import Numeric, clamp, horner, largest
from designer.wort.water import water_density

# Rows: powers of (t - 20)/100; columns: powers 1 to 6 of the extract fraction.
_ICUMSA = (
    (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890),
    (-46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0.0),
    (59.7712, 7.2491, 12.3630, -35.4791, 0.0, 0.0),
    (-47.2207, -21.6977, 27.6301, 0.0, 0.0, 0.0),
    (18.3184, 12.3081, 0.0, 0.0, 0.0, 0.0),
)
(_A1, _A2, _A3, _A4, _A5, _A6) = _ICUMSA[0]
(_B1, _B2, _B3, _B4, _B5, _) = _ICUMSA[1]
(_C1, _C2, _C3, _C4, _, _) = _ICUMSA[2]
(_D1, _D2, _D3, _, _, _) = _ICUMSA[3]
(_E1, _E2, _, _, _, _) = _ICUMSA[4]
_POWERS = tuple(tuple(c for c in column if c != 0.0) for column in zip(*_ICUMSA, strict=True))
"""For each power of the extract fraction its coefficients in rising powers of (t - 20)/100."""
_SLOPES_20 = tuple((power + 1) * c for power, c in enumerate(_ICUMSA[0]))
"""What each power of the extract fraction adds to the slope of the density at 20 °C."""
_NEWTON_STEPS = 4
_WEAKEST, _STRONGEST = -0.2, 1.0
_AIR_DENSITY = 1.2
_WATER_20 = water_density(20.0)


def _strength_coefficients(temp_c: Numeric) -> tuple[Numeric, ...]:
    """Return what each power of the extract fraction adds to the density at `temp_c`."""
    if isinstance(temp_c, (float, int)) and temp_c == 20.0:
        return _ICUMSA[0]
    hundreds = (temp_c - 20.0) / 100.0
    return tuple(horner(power, hundreds) for power in _POWERS)


def wort_density(extract_fraction: Numeric, temp_c: Numeric) -> Numeric:
    """Return the density of wort in kg/m³; 0 to 0.85 extract by mass, 0 to 100 °C."""
    if type(extract_fraction) is float and type(temp_c) is float:
        return _density_of_one(extract_fraction, temp_c)
    coefficients = _strength_coefficients(temp_c)
    return water_density(temp_c) + extract_fraction * horner(coefficients, extract_fraction)


def _density_of_one(w: float, temp_c: float) -> Numeric:
    """Return the same of one wort, its polynomials written out.

    A day asks for it more than a hundred times at each key; to the last digit it is what `horner`
    gives, for it goes the same way.
    """
    if temp_c == 20.0:
        return _WATER_20 + w * (((((_A6 * w + _A5) * w + _A4) * w + _A3) * w + _A2) * w + _A1)
    t = (temp_c - 20.0) / 100.0
    first = (((_E1 * t + _D1) * t + _C1) * t + _B1) * t + _A1
    second = (((_E2 * t + _D2) * t + _C2) * t + _B2) * t + _A2
    third = ((_D3 * t + _C3) * t + _B3) * t + _A3
    fourth = (_C4 * t + _B4) * t + _A4
    fifth = _B5 * t + _A5
    powers = ((((_A6 * w + fifth) * w + fourth) * w + third) * w + second) * w + first
    return water_density(temp_c) + w * powers


def _slope_coefficients(temp_c: Numeric) -> tuple[Numeric, ...]:
    """Return what each power of the extract fraction adds to how fast the density rises."""
    if isinstance(temp_c, (float, int)) and temp_c == 20.0:
        return _SLOPES_20
    return tuple((power + 1) * c for power, c in enumerate(_strength_coefficients(temp_c)))


def density_slope(extract_fraction: Numeric, temp_c: Numeric = 20.0) -> Numeric:
    """Return how fast the density in kg/m³ rises with the extract fraction."""
    return horner(_slope_coefficients(temp_c), extract_fraction)


def extract_fraction_from_density(density_kg_m3: Numeric, temp_c: Numeric = 20.0) -> Numeric:
    """Return the extract fraction of wort of a density, valid from -0.02 to 0.6.

    Newton's method with a fixed number of steps, so that arrays take one path.
    """
    coefficients = _strength_coefficients(temp_c)
    slopes = _slope_coefficients(temp_c)
    wanted = density_kg_m3 - water_density(temp_c)
    first_guess = 2.604 * wanted / largest(density_kg_m3, 1.0)
    fraction = clamp(first_guess, _WEAKEST, _STRONGEST)
    for _ in range(_NEWTON_STEPS):
        excess = fraction * horner(coefficients, fraction) - wanted
        fraction = clamp(fraction - excess / horner(slopes, fraction), _WEAKEST, _STRONGEST)
    return fraction


def gravity_from_plato(extract_plato: Numeric) -> Numeric:
    """Return the specific gravity 20/20 °C of wort of `extract_plato` per cent extract."""
    density = wort_density(extract_plato / 100.0, 20.0)
    return (density - _AIR_DENSITY) / (_WATER_20 - _AIR_DENSITY)


def plato_from_gravity(gravity_sg: Numeric) -> Numeric:
    """Return the extract in °Plato of wort of specific gravity `gravity_sg`; -2 to 60 °P."""
    density = gravity_sg * (_WATER_20 - _AIR_DENSITY) + _AIR_DENSITY
    return 100.0 * extract_fraction_from_density(density, 20.0)
