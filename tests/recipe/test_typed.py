"""Quantities that the program types for the brewer read back as what they are."""

import pytest

from designer.recipe.kinds import KINDS, typed
from designer.recipe.quantity import Kind, Quantity
from designer.units.reading import read


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind is not Kind.LENGTH])
def test_what_is_typed_reads_back_as_its_value(kind):
    for value in (1.05,) if kind is Kind.GRAVITY else (0.25, 0.999, 1.05, 2.0):
        made = typed(kind, value)
        assert read(kind, made.text).value == pytest.approx(value)
        assert made.value == value


@pytest.mark.parametrize(
    ("made", "text"),
    [
        (typed(Kind.MASS, 0.0125), "12.5 g"),
        (typed(Kind.MASS, 1.5), "1.5 kg"),
        (typed(Kind.MASS, 0.7, unit="kg"), "0.7 kg"),
        (typed(Kind.MASS, 1.5, unit="g"), "1500 g"),
        (typed(Kind.FRACTION, 0.0725), "7.25 %"),
        (typed(Kind.VOLUME, 6.0, ".1f"), "6.0 L"),
        (typed(Kind.TEMPERATURE, 18.6, ".0f"), "19 °C"),
        (typed(Kind.LENGTH, 0.24, unit="cm"), "24 cm"),
        (typed(Kind.GRAVITY, 1.05), "1.05"),
    ],
)
def test_it_is_typed_in_the_unit_that_a_kitchen_measures_in(made, text):
    assert made.text == text


def test_a_dose_keeps_its_own_unit_and_pieces_may_have_none():
    assert typed(Kind.DOSE, 2.0, unit="packet") == Quantity(2.0, "2 packet", unit="packet")
    assert typed(Kind.DOSE, 0.5) == Quantity(0.5, "0.5")
