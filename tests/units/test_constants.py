"""The program's own constants are those of pint's full registry (outside reference, from PyPI)."""

from functools import cache

import pint
import pytest

from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind
from designer.units import read
from designer.units.quick_words import FACTORS
from designer.units.scales import SCALE_WORDS
from designer.wort.carbonation import BAR_PER_PSI, CO2_G_L_PER_VOLUME
from designer.wort.extract import POINTS_L_PER_KG_OF_PPG, SUCROSE_PPG


@cache
def registry():
    made = pint.UnitRegistry()
    made.define("firkin = 9 * imperial_gallon")  # the English brewers' measure; common practice
    return made


BASES = {
    Kind.MASS: "kilogram",
    Kind.VOLUME: "liter",
    Kind.TIME: "minute",
    Kind.POWER: "watt",
    Kind.LENGTH: "meter",
    Kind.EVAPORATION: "liter / hour",
    Kind.FRACTION: "dimensionless",
    Kind.CONCENTRATION: "milligram / liter",
    Kind.ABSORPTION: "liter / kilogram",
    Kind.LOSS_RATE: "watt / delta_degC",
    Kind.RATE: "1 / minute",
    Kind.PRESSURE: "bar",
}
"""What the base unit of each kind is to pint."""

WORDS = {
    "kg": "kilogram", "g": "gram", "mg": "milligram", "lb": "pound", "oz": "ounce",
    "dag": "decagram", "stone": "stone", "dram": "dram", "grain": "grain", "tonne": "metric_ton",
    "l": "liter", "ml": "milliliter", "cl": "centiliter", "dl": "deciliter", "hl": "hectoliter",
    "gal": "gallon", "qt": "quart", "pt": "pint", "cup": "cup", "fl oz": "fluid_ounce",
    "imp gal": "imperial_gallon", "imp qt": "imperial_quart", "imp pt": "imperial_pint",
    "imp fl oz": "imperial_fluid_ounce", "gill": "gill", "tbsp": "tablespoon", "tsp": "teaspoon",
    "bbl": "beer_barrel", "peck": "peck", "bushel": "bushel", "firkin": "firkin",
    "cc": "centimeter ** 3", "m3": "meter ** 3",
    "min": "minute", "h": "hour", "s": "second", "d": "day", "wk": "week",
    "w": "watt", "kw": "kilowatt", "hp": "horsepower", "btu/h": "Btu_it / hour",
    "m": "meter", "cm": "centimeter", "mm": "millimeter", "km": "kilometer", "in": "inch",
    "ft": "foot", "yd": "yard",
    "l/h": "liter / hour", "gal/h": "gallon / hour", "qt/h": "quart / hour",
    "ml/min": "milliliter / minute",
    "%": "percent", "mg/l": "milligram / liter", "g/l": "gram / liter",
    "l/kg": "liter / kilogram", "qt/lb": "quart / pound", "fl oz/oz": "fluid_ounce / ounce",
    "gal/lb": "gallon / pound", "w/k": "watt / delta_degC", "/min": "1 / minute", "/h": "1 / hour",
    "bar": "bar", "mbar": "millibar", "pa": "pascal", "hpa": "hectopascal", "kpa": "kilopascal",
    "psi": "psi", "atm": "standard_atmosphere",
}  # fmt: skip
"""One spelling of each common unit, in pint's words."""


def compared(kind):
    """Words of a kind that mean in its fields what they are listed for: not m of minutes."""
    base = registry().Quantity(1.0, BASES[kind])
    return {
        word
        for word in WORDS.keys() & FACTORS[kind].keys()
        if registry().Quantity(1.0, WORDS[word]).dimensionality == base.dimensionality
    }


@pytest.mark.parametrize("kind", BASES)
def test_every_common_unit_is_worth_what_pint_says(kind):
    for word in compared(kind):
        exact = registry().Quantity(1.0, WORDS[word]).to(BASES[kind]).magnitude
        assert FACTORS[kind][word] == pytest.approx(exact, rel=1e-12), word


def test_every_unit_that_is_listed_here_is_compared():
    assert set.union(*map(compared, BASES)) == WORDS.keys()


def test_every_kind_with_factors_is_compared_but_those_that_only_brewers_know():
    assert FACTORS.keys() - BASES.keys() == {
        Kind.CARBONATION,
        Kind.BITTERNESS,
        Kind.EXTRACT_YIELD,
    }


def test_a_pound_on_a_square_inch_is_the_same_to_the_formula_of_carbonation():
    assert FACTORS[Kind.PRESSURE]["psi"] == pytest.approx(BAR_PER_PSI, rel=1e-6)


def test_units_of_the_trade_are_worth_what_the_calculations_say():
    assert FACTORS[Kind.CARBONATION]["g/l"] == 1.0 / CO2_G_L_PER_VOLUME
    of_all = FACTORS[Kind.EXTRACT_YIELD]
    assert of_all["ppg"] == pytest.approx(1.0 / SUCROSE_PPG, rel=1e-15)
    assert of_all["l°/kg"] == pytest.approx(of_all["ppg"] / POINTS_L_PER_KG_OF_PPG, rel=1e-15)


def test_points_a_pound_and_a_gallon_are_litre_degrees_a_kilogram():
    """ppg and L°/kg differ by the units alone: gallons a pound in litres a kilogram."""
    exact = registry().Quantity(1.0, "gallon / pound").to("liter / kilogram").magnitude
    one = read(Kind.EXTRACT_YIELD, "1 ppg").value
    assert read(Kind.EXTRACT_YIELD, f"{exact!r} L°/kg").value == pytest.approx(one, rel=2e-5)


def test_a_volume_of_carbon_dioxide_weighs_its_molar_mass_in_its_molar_volume():
    """Sources: molar mass 44.0095 g/mol (IUPAC); molar volume of an ideal gas at 0 °C and
    1 atm 22.41396954 L/mol (CODATA 2018).
    """
    assert read(Kind.CARBONATION, f"{44.0095 / 22.41396954!r} g/L").value == pytest.approx(
        1.0, rel=1e-4
    )


@pytest.mark.parametrize(
    ("text", "name"), [("155 F", "degF"), ("-40 F", "degF"), ("20 °C", "degC"), ("300 K", "kelvin")]
)
def test_temperatures_are_converted_as_pint_does(text, name):
    number = float(text.split()[0])
    exact = registry().Quantity(number, name).to("degC").magnitude
    assert read(Kind.TEMPERATURE, text).value == pytest.approx(exact, abs=1e-9)


def test_differences_of_temperature_are_converted_as_pint_does():
    exact = registry().Quantity(9.0, "delta_degF").to("delta_degC").magnitude
    assert read(Kind.TEMPERATURE_DIFFERENCE, "9 F").value == pytest.approx(exact)


@pytest.mark.parametrize("us", [False, True])
def test_the_unit_of_a_bare_number_is_one_that_is_known(us):
    for kind, facts in KINDS.items():
        word = facts.bare_in(us=us).lower()
        assert word in (*FACTORS.get(kind, ()), *SCALE_WORDS.get(kind, ()), ""), kind
        assert bool(word) == (kind in {*FACTORS, *SCALE_WORDS} - {Kind.GRAVITY})
