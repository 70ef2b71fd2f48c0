"""Strength of wort, its density and its gravity.

Extract is treated as sucrose, which is what a degree Plato means by definition, so one equation
gives the density of wort of any strength at any temperature (0 to 85 % extract, 0 to 100 °C; the
printed tables agree within 0.07 kg/m³ up to 30 %). Gravity is the ratio to water, both at 20 °C
and weighed in air, as the tables of the trade are. Shorter equations in use are here as named
alternatives. Left out: that maltose and dextrins weigh a little differently from sucrose.

Sources: ICUMSA Specification and Standard SPS-4 (1998) for density (title from memory,
coefficients as in two independent transcriptions); for each alternative see `PLATO_METHODS`.
"""

from __future__ import annotations

from designer.wort.method import Method
from designer.wort.numeric import Numeric, choose, clamp, horner, largest, sqrt
from designer.wort.water import water_density

# Rows: powers of (t - 20)/100; columns: powers 1 to 6 of the extract fraction.
_ICUMSA = (
    (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890),
    (-46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0.0),
    (59.7712, 7.2491, 12.3630, -35.4791, 0.0, 0.0),
    (-47.2207, -21.6977, 27.6301, 0.0, 0.0, 0.0),
    (18.3184, 12.3081, 0.0, 0.0, 0.0, 0.0),
)
_POWERS = tuple(tuple(c for c in column if c != 0.0) for column in zip(*_ICUMSA, strict=True))
"""For each power of the extract fraction its coefficients in rising powers of (t - 20)/100."""
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
    coefficients = _strength_coefficients(temp_c)
    return water_density(temp_c) + extract_fraction * horner(coefficients, extract_fraction)


def density_slope(extract_fraction: Numeric, temp_c: Numeric = 20.0) -> Numeric:
    """Return how fast the density in kg/m³ rises with the extract fraction."""
    coefficients = _strength_coefficients(temp_c)
    return horner([(i + 1) * c for i, c in enumerate(coefficients)], extract_fraction)


def extract_fraction_from_density(density_kg_m3: Numeric, temp_c: Numeric = 20.0) -> Numeric:
    """Return the extract fraction of wort of a density, valid from -0.02 to 0.6.

    Newton's method with a fixed number of steps, so that arrays take one path.
    """
    coefficients = _strength_coefficients(temp_c)
    slopes = [(i + 1) * c for i, c in enumerate(coefficients)]
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


_ASBC = (-616.868, 1111.14, -630.272, 135.997)


def plato_from_gravity_asbc(gravity_sg: Numeric) -> Numeric:
    """Return °Plato by the cubic printed with the ASBC table; wort of 1.000 is held at 0."""
    cubic = horner(_ASBC, gravity_sg)
    return choose(gravity_sg >= 1.0, largest(cubic, 0.0), cubic)


def gravity_from_plato_asbc(extract_plato: Numeric) -> Numeric:
    """Return the gravity that the ASBC cubic turns into `extract_plato`, by Newton's method."""
    slopes = [power * c for power, c in enumerate(_ASBC)][1:]
    gravity = gravity_from_plato_closed_form(extract_plato)
    for _ in range(_NEWTON_STEPS):
        gravity = gravity - (horner(_ASBC, gravity) - extract_plato) / horner(slopes, gravity)
    return gravity


def plato_from_gravity_closed_form(gravity_sg: Numeric) -> Numeric:
    """Return °Plato by the form that can be solved both ways, fitted to 0 to 40 °Brix."""
    return 28.14203 * gravity_sg + 202.4427 - 230.5870 / largest(gravity_sg, 0.5)


def gravity_from_plato_closed_form(extract_plato: Numeric) -> Numeric:
    """Return the gravity by the exact inverse of the closed form."""
    b = 202.4427 - extract_plato
    return (sqrt(b * b + 4.0 * 28.14203 * 230.5870) - b) / (2.0 * 28.14203)


def plato_from_gravity_lincoln(gravity_sg: Numeric) -> Numeric:
    """Return °Plato by the Lincoln equation."""
    return (463.0 - 205.0 * gravity_sg) * (gravity_sg - 1.0)


def gravity_from_plato_lincoln(extract_plato: Numeric) -> Numeric:
    """Return the gravity by the usual companion of the Lincoln equation."""
    return 1.0 + extract_plato / (258.6 - 227.1 * extract_plato / 258.2)


def plato_from_gravity_de_clerck(gravity_sg: Numeric) -> Numeric:
    """Return °Plato by the quadratic of De Clerck."""
    return horner((-463.37, 668.72, -205.347), gravity_sg)


def plato_from_gravity_one_parameter(gravity_sg: Numeric) -> Numeric:
    """Return °Plato by Buhl's form with one constant."""
    return 260.4 * (1.0 - 1.0 / largest(gravity_sg, 0.5))


def gravity_from_plato_one_parameter(extract_plato: Numeric) -> Numeric:
    """Return the gravity by the exact inverse of the form with one constant."""
    return 260.4 / largest(260.4 - extract_plato, 1.0)


def plato_from_gravity_quarter_points(gravity_sg: Numeric) -> Numeric:
    """Return °Plato as a quarter of the gravity points, the rule of the thumb."""
    return 250.0 * (gravity_sg - 1.0)


def gravity_from_plato_quarter_points(extract_plato: Numeric) -> Numeric:
    """Return the gravity as 1 and four points a degree Plato."""
    return 1.0 + extract_plato / 250.0


PLATO_METHODS = {
    "ICUMSA": Method(
        plato_from_gravity,
        "Solves the density equation of sucrose; good from 0 to 60 °P.",
        "ICUMSA Specification and Standard SPS-4 (1998)",
    ),
    "ASBC": Method(
        plato_from_gravity_asbc,
        "Cubic fitted to the brewing chemists' table, 1.000 to 1.083; within 0.012 °P to 25 °P.",
        "ASBC Methods of Analysis, table 1, fit quoted by A. J. deLange",
    ),
    "closed form": Method(
        plato_from_gravity_closed_form,
        "Fit to the sugar table that solves exactly both ways; within 0.017 °P to 25 °P.",
        "Fit to NBS Circular 440, 0 to 40 °Brix, printed in an encyclopedia article",
    ),
    "Lincoln": Method(
        plato_from_gravity_lincoln,
        "Short quadratic; within 0.019 °P to 25 °P.",
        "Lincoln equation (origin from memory)",
    ),
    "De Clerck": Method(
        plato_from_gravity_de_clerck,
        "Older quadratic of the brewing schools, nearly the same as Lincoln's.",
        "De Clerck (origin from memory)",
    ),
    "one constant": Method(
        plato_from_gravity_one_parameter,
        "One constant only; within 0.11 °P to 25 °P.",
        "Buhl, Physical equations relating extract and relative density, OSF preprint (2023)",
    ),
    "quarter points": Method(
        plato_from_gravity_quarter_points,
        "Points divided by four; 0.3 °P high at 15 °P and 1.4 °P high at 25 °P.",
        "common practice, no source",
    ),
}
