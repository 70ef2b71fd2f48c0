"""What is no quantity of the field is refused in one line that says what would be taken."""

from math import inf, isfinite

import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.recipe.kinds import KINDS
from designer.recipe.limits import LONGEST_QUANTITY
from designer.recipe.quantity import Kind
from designer.units import ShownUnits, read, read_when
from designer.units.reading import WHEN_ACCEPTED


def refusal(kind, text, **how):
    with pytest.raises(RefusedInputError) as refused:
        read(kind, text, **how)
    assert len(refused.value.problems) == 1
    assert len(str(refused.value).splitlines()) == 1
    assert KINDS[kind].accepted in str(refused.value)
    return str(refused.value)


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(
    "text", ["", "   ", "nan", "NaN kg", "inf", "-inf", "Infinity", "1e400", "±", "%", "kg", "none"]
)
def test_no_kind_takes_what_is_not_a_finite_number(kind, text):
    refusal(kind, text)


@pytest.mark.parametrize(
    ("kind", "text", "why"),
    [
        (Kind.MASS, "5 L", "l is a unit of volume"),
        (Kind.MASS, "1 fl oz", "fl oz is a unit of volume"),
        (Kind.MASS, "68 F", "f is a unit of temperature"),
        (Kind.MASS, "1 pkt", "“pkt” is not known"),
        (Kind.VOLUME, "5 kg", "kg is a unit of mass"),
        (Kind.VOLUME, "1 oz", "write fl oz for a volume"),
        (Kind.VOLUME, "12 ounces", "write fl oz for a volume"),
        (Kind.TEMPERATURE, "68 farad", "“farad” is not known"),
        (Kind.TEMPERATURE, "68 L", "l is a unit of volume"),
        (Kind.TIME, "5 kg", "kg is a unit of mass"),
        (Kind.GRAVITY, "1.050 kg", "kg is a unit of mass"),
        (Kind.GRAVITY, "50", "write points or °P behind it"),
        (Kind.GRAVITY, "0", "write points or °P behind it"),
        (Kind.GRAVITY, "70 °P", "°P go from -2 to 60"),
        (Kind.BITTERNESS, "35 g", "g is a unit of mass"),
        (Kind.FRACTION, "7 kg", "kg is a unit of mass"),
        (Kind.POWER, "2000 kg", "kg is a unit of mass"),
        (Kind.BEER_COLOUR, "60 °L", "“°l” is not known"),
        (Kind.MONEY, "3 apples", "“apples” is not known"),
        (Kind.NUMBER, "4 kg", "kg is a unit of mass"),
    ],
)
def test_a_unit_of_another_dimension_is_named(kind, text, why):
    assert why in refusal(kind, text)


@pytest.mark.parametrize(
    "text",
    [
        "1..5 kg",
        "1.5.5 kg",
        "1,5,5 kg",
        "--1 kg",
        "1/0 oz",
        "1 1/2 1/2 oz",
        "1 kg 500",
        "1 000 kg",
        "1_000 g",
        "1 kg kg",
        "2 lb 4 oz of hops",
        "0x10 kg",
        "1 kg; 2 kg",
        "8-6 kg",
        "2 lb -4 oz",
        "1 kg ±",
        "± 1 kg",
        "1 kg ± nan",
        "1 kg ± 1e400 %",
        "1 kg ± 1 L",
        "1 kg to 2 L",
    ],
)
def test_a_mass_that_could_mean_two_things_or_none_is_refused(text):
    assert text in refusal(Kind.MASS, text)


@pytest.mark.parametrize("text", ["1 tablet ± 1 g", "1 tablet to 2 packets", "1 2", "5 cells 3"])
def test_a_dose_has_one_unit(text):
    refusal(Kind.DOSE, text)


def test_a_spread_of_temperature_has_to_be_finite_too():
    refusal(Kind.TEMPERATURE, "68 °C ± 1e400 °C")
    refusal(Kind.GRAVITY, "12 °P ± 30 °P")


def test_a_text_of_many_lines_is_refused_in_one():
    refusal(Kind.MASS, "3\n\tapples\r\nand pears")


def test_a_text_too_long_for_a_quantity_is_refused_without_repeating_it():
    said = refusal(Kind.MASS, "1" * (LONGEST_QUANTITY + 1))
    assert "too long" in said
    assert len(said) < 200


def test_a_minus_sign_is_read_whatever_dash_it_is_and_left_to_the_limits_of_the_field():
    for text in ("-1 kg", "−1 kg", "–1 kg"):
        assert read(Kind.MASS, text).value == -1.0
    assert read(Kind.TEMPERATURE, "-18 °C").value == -18.0


def understood(kind, text, **how):
    """The quantity read, or the line of the refusal."""
    try:
        return read(kind, text, **how)
    except RefusedInputError as refused:
        return str(refused)


def is_one_line_or_finite(found):
    if isinstance(found, str):
        return len(found.splitlines()) == 1
    return isfinite(found.value) and (found.spread is None or 0.0 <= found.spread < inf)


@given(st.sampled_from(Kind), st.text(max_size=60), st.sampled_from(ShownUnits), st.booleans())
def test_whatever_is_typed_is_a_finite_quantity_or_refused_in_one_line(kind, text, shown, comma):
    assert is_one_line_or_finite(understood(kind, text, shown=shown, decimal_comma=comma))


_PIECES = st.sampled_from(
    ["1", "1/2", "½", "1,5", "2.25", " ", "-", "±", "%", "kg", "lb", "oz", "F", "°P", "to", "e9"]
)


@given(st.sampled_from(Kind), st.lists(_PIECES, max_size=8).map("".join))
def test_any_heap_of_figures_and_units_is_read_or_refused_in_one_line(kind, text):
    assert is_one_line_or_finite(understood(kind, text))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "boil",
        "boil -5 min",
        "boil 1e9 min",
        "boil 60 kg",
        "boil 5-10 min",
        "stand 20 min at 500 C",
        "stand 20 min at noon",
        "dry hop 500 days",
        "dry hop -1 days",
        "steep 30 min",
        "at noon",
        "boil\n60\nkg",
        "x" * 300,
        "steep" + " " * 300 + "fermenter",
    ],
)
def test_a_moment_that_is_not_in_the_day_is_refused_with_those_that_are(text):
    with pytest.raises(RefusedInputError) as refused:
        read_when(text)
    assert WHEN_ACCEPTED in str(refused.value)
    assert len(str(refused.value).splitlines()) == 1
