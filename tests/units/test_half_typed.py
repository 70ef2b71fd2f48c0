"""What is typed is on its way to something, or already wrong. Common practice, no source."""

import pytest

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.units import read, read_when
from designer.units.half_typed import may_become, may_become_when

TYPED = [
    (Kind.MASS, "1.5 kg"),
    (Kind.MASS, "2 lb 3 ounces"),
    (Kind.VOLUME, "2 1/2 gallons"),
    (Kind.VOLUME, "10 fl oz"),
    (Kind.FRACTION, "7.2 % ± 0.5 %"),
    (Kind.FRACTION, "6 % (4.5-8.9 %)"),
    (Kind.TEMPERATURE, "155 °F"),
    (Kind.GRAVITY, "12.9 plato"),
    (Kind.MALT_COLOUR, "120 EBC"),
    (Kind.TIME, "90 minutes"),
]


@pytest.mark.parametrize(("kind", "text"), TYPED)
def test_each_key_on_the_way_to_a_quantity_is_read_or_may_become_one(kind, text):
    for length in range(1, len(text) + 1):
        typed = text[:length]
        try:
            read(kind, typed)
        except RefusedInputError:
            assert may_become(kind, typed), typed


@pytest.mark.parametrize(
    "text", ["boil 15 min", "flame-out", "stand 20 min at 80 °C", "dry hop 4 days"]
)
def test_each_key_on_the_way_to_a_moment_is_read_or_may_become_one(text):
    for length in range(1, len(text) + 1):
        typed = text[:length]
        try:
            read_when(typed)
        except RefusedInputError:
            assert may_become_when(typed), typed


@pytest.mark.parametrize(
    ("kind", "text"), [(Kind.MASS, "4.8 %"), (Kind.MASS, "5 ml"), (Kind.VOLUME, "3 kx")]
)
def test_a_unit_of_something_else_is_not_on_its_way(kind, text):
    assert not may_become(kind, text)


def test_a_share_typed_for_a_weight_is_called_a_share():
    with pytest.raises(RefusedInputError, match="% tells a share"):
        read(Kind.MASS, "4.8 %")
