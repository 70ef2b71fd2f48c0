"""One quantity in another unit, by the words that fields take."""

import pytest

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.units.converting import convert, plainly
from designer.wort.density import plato_from_gravity
from tests.units.pints_own import pints_own


@pytest.mark.parametrize(
    ("text", "unit", "exact", "name"),
    [
        ("1.5 stone", "kg", "1.5 stone", "kilogram"),
        ("2 lb 4 oz", "g", "36 ounce", "gram"),
        ("1 1/2 oz", "g", "1.5 ounce", "gram"),
        ("5 cubic inches", "mL", "5 inch ** 3", "milliliter"),
        ("3 pecks", "L", "3 peck", "liter"),
        ("2 U.S. gal", "imp. gal", "2 gallon", "imperial_gallon"),
        ("2 kg", "slug", "2 kilogram", "slug"),
        ("1 fortnight", "d", "1 fortnight", "day"),
        ("0.5 gal/h", "L/h", "0.5 gallon / hour", "liter / hour"),
        ("12 psi", "bar", "12 psi", "bar"),
        ("5 m", "ft", "5 meter", "foot"),
        ("5 m", "h", "5 minute", "hour"),
    ],
)
def test_a_quantity_is_worth_what_pint_says(text, unit, exact, name):
    expected = pints_own().Quantity(exact).to(name).magnitude
    assert convert(text, unit).value == pytest.approx(expected, rel=1e-12)


def test_temperatures_have_their_zeros_and_differences_have_none():
    """Water freezes at 32 °F and boils at 212 °F: definition of the scale."""
    assert convert("0 °C", "°F").value == 32.0
    assert convert("212 F", "C").value == pytest.approx(100.0)
    assert convert("25 °C", "K").value == pytest.approx(298.15)
    assert convert("9 F", "C", Kind.TEMPERATURE_DIFFERENCE).value == pytest.approx(5.0)


def test_gravities_and_colours_go_by_the_scales_of_the_calculations():
    assert convert("1.050", "°P").value == pytest.approx(float(plato_from_gravity(1.05)))
    assert convert("50 points", "SG").value == 1.05
    assert convert("12 °P", "points").value == pytest.approx(48.4, abs=0.1)
    assert convert("24 EBC", "SRM").kind is Kind.BEER_COLOUR
    assert convert("24 EBC", "SRM").value == pytest.approx(24.0 / 1.97)
    malt = convert("24 EBC", "SRM", Kind.MALT_COLOUR)
    assert malt.value == pytest.approx(12.12, abs=0.01)
    assert convert("60 °L", "EBC").kind is Kind.MALT_COLOUR


def test_a_range_has_its_ends_in_the_other_unit():
    found = convert("6-8 lb", "oz")
    assert found.value == pytest.approx(112.0)
    assert found.ends == pytest.approx((96.0, 128.0))
    assert convert("20 ± 1 °C", "°F").ends == pytest.approx((66.2, 69.8))
    assert convert("7 lb", "oz").ends is None


@pytest.mark.parametrize(
    ("text", "unit", "kind", "told"),
    [
        ("1 L", "kg", None, "“1 L” is not a mass, such as .* (l is a unit of volume)"),
        ("5", "kg", None, "“5” has no unit; write a mass, such as 250 g"),
        ("5 kg", "kgg", None, "“kgg” is not known as a unit; write kg, lb, L"),
        ("5 kg", " ", None, "“” is not known as a unit; write kg"),
        ("2 kg", "lb", Kind.VOLUME, "“lb” is not known as a unit of volume; write a volume"),
        ("80 °P", "SG", None, "(°P go from -2 to 60)"),
        ("-300 C", "K", None, "nothing is colder than -273.15 °C; write more degrees"),
        ("1e300 t", "mg", None, "that is beyond all measure in mg; choose a larger unit"),
        ("3 kiloslugs", "kg", None, "unit “kiloslugs” is not known here"),
        ("2 tablets", "g", None, "unit “tablets” is not known here"),
    ],
)
def test_what_cannot_be_converted_is_refused_with_what_would_be_taken(text, unit, kind, told):
    first, _, last = told.partition(" .* ")
    with pytest.raises(RefusedInputError) as refused:
        convert(text, unit, kind)
    (problem,) = refused.value.problems
    assert first in problem
    assert last in problem


@pytest.mark.parametrize(
    ("figure", "text"),
    [
        (9.52543977, "9.52544"),
        (5.0, "5"),
        (0.000123456789, "0.000123457"),
        (12345678.9, "12345679"),
    ],
)
def test_a_figure_is_told_to_six_digits(figure, text):
    assert plainly(figure) == text


@pytest.mark.parametrize(
    ("text", "unit", "value", "within"),
    [
        ("36 ppg", "L°/kg", 300.4, 0.05),
        ("46.21 ppg", "%", 100.0, 1e-9),
        ("100 %", "ppg", 46.21, 1e-9),
        ("385.6 L°/kg", "%", 100.0, 0.02),
        ("44 points/lb/gal", "%", 95.2, 0.05),
        ("1 ppg", "litre degrees per kg", 8.3454, 1e-9),
    ],
)
def test_an_extract_yield_is_told_as_the_trade_tells_it(text, unit, value, within):
    """Source: 46.21 ppg is 385.6 L°/kg and all of dry sucrose, 1 ppg is 8.3454 L°/kg (Palmer,
    How to Brew, 1st ed., table 9, and computed).
    """
    assert convert(text, unit).value == pytest.approx(value, abs=within)
    assert convert(text, unit).kind is Kind.EXTRACT_YIELD


def test_a_range_in_brackets_is_turned_with_its_figure():
    found = convert("20 °C (18-24 °C)", "°F")
    assert (found.value, *found.ends) == pytest.approx((68.0, 64.4, 75.2))
