"""What is shown can be typed back, and typed back it is shown the same."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from designer.recipe.quantity import Kind
from designer.units import ShownUnits, read, show

RANGES = {
    Kind.MASS: (0.0, 10_000.0),
    Kind.VOLUME: (0.0, 100_000.0),
    Kind.TEMPERATURE: (-60.0, 110.0),
    Kind.TEMPERATURE_DIFFERENCE: (-100.0, 100.0),
    Kind.TIME: (0.0, 525_600.0),
    Kind.GRAVITY: (0.97, 1.2),
    Kind.MALT_COLOUR: (0.0, 2000.0),
    Kind.BEER_COLOUR: (0.0, 500.0),
    Kind.EVAPORATION: (0.0, 1000.0),
    Kind.BITTERNESS: (0.0, 10_000.0),
    Kind.FRACTION: (0.0, 1.0),
    Kind.POWER: (0.0, 1e6),
    Kind.LOSS_RATE: (0.0, 1e4),
    Kind.ABSORPTION: (0.0, 30.0),
    Kind.LENGTH: (-430.0, 6000.0),
    Kind.PRESSURE: (0.0, 10.0),
    Kind.MONEY: (0.0, 1e9),
    Kind.CONCENTRATION: (0.0, 50.0),
    Kind.CARBONATION: (0.0, 6.0),
    Kind.RATE: (0.0, 5.0),
    Kind.EXTRACT_YIELD: (0.0, 1.003),
    Kind.DOSE: (0.0, 1e7),
    Kind.NUMBER: (-1e6, 1e6),
}
"""Values of each kind that a recipe may hold, in base units."""


def near(low, high):
    """Values over the whole range, crowded where kitchens are and beside round figures."""
    kitchen = st.floats(max(low, -30.0), min(high, 100.0))
    edges = st.sampled_from(
        [0.09999, 0.1, 0.75708, 0.9994, 0.9995, 0.99999, 1.0, 2.9999, 3.0, 9.96, 179.6, 2879.7]
    )
    return st.one_of(kitchen, edges, st.floats(low, high)).map(lambda x: min(max(x, low), high))


kinds_and_values = st.sampled_from(sorted(RANGES)).flatmap(
    lambda kind: st.tuples(st.just(kind), near(*RANGES[kind]))
)
one_system = st.sampled_from([ShownUnits.METRIC, ShownUnits.US])


def test_every_kind_has_a_range_here():
    assert RANGES.keys() == set(Kind)


@given(kinds_and_values, one_system, st.booleans())
@example((Kind.MASS, 0.9996), ShownUnits.METRIC, False)
@example((Kind.MASS, 0.9995), ShownUnits.METRIC, True)
@example((Kind.VOLUME, 0.0999), ShownUnits.METRIC, False)
@example((Kind.VOLUME, 0.2 * 3.785411784), ShownUnits.US, False)
@example((Kind.MASS, 0.4535), ShownUnits.US, False)
@example((Kind.TIME, 2879.8), ShownUnits.METRIC, False)
@example((Kind.LENGTH, 2.99999), ShownUnits.METRIC, False)
def test_what_is_shown_is_shown_the_same_after_typing_it_back(case, units, comma):
    kind, value = case
    text = show(kind, value, units, decimal_comma=comma)
    again = read(kind, text, shown=units, decimal_comma=comma)
    assert show(kind, again.value, units, decimal_comma=comma) == text
    twice = read(kind, show(kind, again.value, units, decimal_comma=comma), decimal_comma=comma)
    assert twice.value == again.value


@given(kinds_and_values, one_system, st.booleans())
def test_what_is_typed_back_is_the_value_within_the_rounding_of_a_kitchen(case, units, comma):
    kind, value = case
    again = read(kind, show(kind, value, units, decimal_comma=comma), decimal_comma=comma)
    floor = {
        Kind.MASS: 2e-4,
        Kind.VOLUME: 2.1e-2,
        Kind.TIME: 0.51,
        Kind.LENGTH: 0.51,
        Kind.POWER: 0.51,
        Kind.BITTERNESS: 0.51,
        Kind.GRAVITY: 5.1e-4,
        Kind.TEMPERATURE: 0.3,
        Kind.TEMPERATURE_DIFFERENCE: 0.3,
        Kind.FRACTION: 5.1e-4,
        Kind.RATE: 5.1e-5,
        Kind.EVAPORATION: 2e-2,
    }.get(kind, 0.051)
    assert again.value == pytest.approx(value, rel=2.6e-2, abs=floor)


@given(st.sampled_from([Kind.MASS, Kind.VOLUME]), st.floats(0.001, 100.0), one_system)
def test_amounts_keep_three_figures_or_what_a_kitchen_scale_or_jug_can_tell(kind, value, units):
    again = read(kind, show(kind, value, units))
    least = {Kind.MASS: 2e-4, Kind.VOLUME: 5.1e-3}[kind]
    assert again.value == pytest.approx(value, rel=5e-3, abs=least)


@pytest.mark.parametrize(
    ("kind", "value", "metric", "us"),
    [
        (Kind.MASS, 1.5, "1.5 kg", "3.31 lb"),
        (Kind.MASS, 0.25, "250 g", "8.82 oz"),
        (Kind.MASS, 0.0145, "14.5 g", "0.51 oz"),
        (Kind.MASS, 0.9999, "1 kg", "2.2 lb"),
        (Kind.MASS, 0.0, "0 g", "0 oz"),
        (Kind.VOLUME, 6.5, "6.5 L", "1.72 gal"),
        (Kind.VOLUME, 0.5, "0.5 L", "16.9 fl oz"),
        (Kind.VOLUME, 1.0, "1 L", "1.06 qt"),
        (Kind.VOLUME, 0.05, "50 mL", "1.7 fl oz"),
        (Kind.TEMPERATURE, 68.0, "68 °C", "154 °F"),
        (Kind.TEMPERATURE, -18.0, "-18 °C", "0 °F"),
        (Kind.TEMPERATURE_DIFFERENCE, 5.0, "5 °C", "9 °F"),
        (Kind.TIME, 25.0, "25 min", "25 min"),
        (Kind.TIME, 2.5, "2.5 min", "2.5 min"),
        (Kind.TIME, 185.0, "3 h 5 min", "3 h 5 min"),
        (Kind.TIME, 240.0, "4 h", "4 h"),
        (Kind.TIME, 20160.0, "14 d", "14 d"),
        (Kind.GRAVITY, 1.05, "1.050", "1.050"),
        (Kind.EVAPORATION, 0.9, "0.9 L/h", "0.24 gal/h"),
        (Kind.LENGTH, 0.24, "24 cm", "9.4 in"),
        (Kind.LENGTH, 1609.0, "1609 m", "5279 ft"),
        (Kind.FRACTION, 0.072, "7.2 %", "7.2 %"),
        (Kind.BITTERNESS, 34.6, "35 IBU", "35 IBU"),
        (Kind.BEER_COLOUR, 12.34, "12.3 SRM", "12.3 SRM"),
        (Kind.CARBONATION, 2.3, "2.3 vol", "2.3 vol"),
        (Kind.MONEY, 3.2, "3.20", "3.20"),
        (Kind.MONEY, 3.0, "3", "3"),
        (Kind.NUMBER, 4.15, "4.15", "4.15"),
    ],
)
def test_figures_are_rounded_as_a_kitchen_reads_them(kind, value, metric, us):
    assert show(kind, value) == metric
    assert show(kind, value, ShownUnits.US) == us


def test_both_systems_stand_side_by_side_where_they_differ():
    assert show(Kind.VOLUME, 6.5, ShownUnits.BOTH) == "6.5 L (1.72 gal)"
    assert show(Kind.TIME, 60.0, ShownUnits.BOTH) == "60 min"
    assert show(Kind.VOLUME, 6.5, ShownUnits.BOTH, decimal_comma=True) == "6,5 L (1,72 gal)"


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        (Kind.MASS, "1 1/2 oz"),
        (Kind.MASS, "2 lb 4 oz"),
        (Kind.MASS, "1½ lb"),
        (Kind.MASS, "1,5 kg"),
        (Kind.VOLUME, "5 imp gal"),
        (Kind.TEMPERATURE, "155 F"),
        (Kind.FRACTION, "6.5-8.5 %"),
        (Kind.FRACTION, "8 % ± 0.6 %"),
        (Kind.GRAVITY, "12.4 °P"),
        (Kind.DOSE, "0.5 tablet"),
    ],
)
def test_a_quantity_read_again_from_its_own_text_is_the_same_quantity(kind, text):
    typed = read(kind, text)
    assert read(kind, typed.text) == typed


def test_no_minus_stands_before_a_zero():
    for kind in RANGES.keys() - {Kind.GRAVITY}:  # no gravity is near zero
        assert not show(kind, -1e-12).startswith("-"), kind
        assert not show(kind, -1e-12, ShownUnits.US).startswith("-"), kind
