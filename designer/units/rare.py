"""Rarer units, by a small private registry of pint's that is made when first asked.

Its twenty-odd units are those of the dimensions a recipe knows, so no farad or picoknot can be
meant by accident.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from designer.recipe.quantity import Kind

_UNITS = """
@defaults
    group = international
    system = mks
@end
kilo- = 1e3 = k-
milli- = 1e-3 = m-
centi- = 1e-2 = c-
meter = [length] = m = metre
second = [time] = s
kilogram = [mass] = kg
gram = 1e-3 * kilogram = g
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: 273.15 = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 459.67 = degF
minute = 60 * second = min
hour = 60 * minute = h
day = 24 * hour = d
liter = 1e-3 * meter ** 3 = L = litre
pound = 0.45359237 * kilogram = lb
ounce = pound / 16 = oz
stone = 14 * pound = st
dram = ounce / 16 = dr
grain = pound / 7000 = gr
ton = 1e3 * kilogram = t = tonne
inch = 0.0254 * meter = in
foot = 12 * inch = ft
yard = 3 * foot = yd
us_gallon = 231 * inch ** 3 = gal
imperial_gallon = 4.54609 * liter
us_barrel = 31 * us_gallon = bbl
firkin = 9 * imperial_gallon
tablespoon = us_gallon / 256 = tbsp
teaspoon = us_gallon / 768 = tsp
watt = kilogram * meter ** 2 / second ** 3 = W
joule = watt * second = J
british_thermal_unit = 1055.05585262 * joule = btu
horsepower = 745.69987158227022 * watt = hp
"""
_WORDS = {
    Kind.MASS: ("kilogram", ("stone", "st", "dram", "grain", "ton", "tonne", "t")),
    Kind.VOLUME: (
        "liter",
        ("bbl", "us_barrel", "firkin", "tablespoon", "tbsp", "teaspoon", "tsp", "m**3"),
    ),
    Kind.LENGTH: ("meter", ("yard", "yd")),
    Kind.POWER: ("watt", ("horsepower", "hp", "btu/h")),
}
_PLURALS = {
    "stones": "stone", "drams": "dram", "grains": "grain", "tons": "ton", "tonnes": "tonne",
    "barrel": "bbl", "barrels": "bbl", "firkins": "firkin", "tablespoons": "tablespoon",
    "teaspoons": "teaspoon", "yards": "yard", "m3": "m**3", "m³": "m**3", "btu/hr": "btu/h",
}  # fmt: skip


@cache
def registry() -> Any:
    """Return the one registry of the program; imports pint."""
    import pint

    made: Any = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=True)
    made.load_definitions(_UNITS.splitlines())
    return made


def rare_factor(kind: Kind, spelling: str) -> float | None:
    """Return what one of a rare unit is in the kind's base unit; None if it is not known."""
    base, words = _WORDS.get(kind, ("", ()))
    word = _PLURALS.get(spelling, spelling)
    if word not in words:
        return None
    return float(registry().Quantity(1.0, word).to(base).magnitude)
