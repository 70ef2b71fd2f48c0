"""Typing and showing in preferred units."""

from contextlib import suppress

import pytest

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, rare, read
from designer.window.parts.display_format import stepped


@pytest.mark.parametrize(
    ("text", "steps", "after"),
    [
        ("6.5 L", 1, "6.6 L"),
        ("6.5 L", -10, "5.5 L"),
        ("250 g", 1, "255 g"),
        ("20 g", 1, "21 g"),
        ("1.5 kg", 1, "1.55 kg"),
        ("60 min", -1, "55 min"),
        ("8 min", 1, "9 min"),
        ("3.3 lb", 1, "3.5 lb"),
        ("7.2 %", 1, "7.3 %"),
        ("1,5 kg", 1, "1,55 kg"),
        ("0 L", -1, "0 L"),
        ("0.5 tablet", 1, "1 tablet"),
        ("none", 1, None),
        ("1 1/2 oz", 1, None),
    ],
)
def test_arrow_keys_step_a_number_in_its_own_unit(text, steps, after):
    assert stepped(text, steps) == after


def test_what_was_typed_is_shown_where_it_is_in_the_shown_system(shown):
    assert shown.quantity(Kind.MASS, read(Kind.MASS, "1.50 kg")) == "1.50 kg"
    assert shown.quantity(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "1.497 kg"
    shown.settings.units = ShownUnits.US
    assert shown.quantity(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "3.3 lb"
    shown.settings.units = ShownUnits.BOTH
    assert shown.quantity(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "3.3 lb (1.497 kg)"
    assert shown.to_edit(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "3.3 lb"


@pytest.mark.parametrize("units", list(ShownUnits))
@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        (Kind.MASS, "2"),
        (Kind.VOLUME, "5"),
        (Kind.TEMPERATURE, "20"),
        (Kind.TIME, "45"),
        (Kind.FRACTION, "7.2"),
        (Kind.LENGTH, "10"),
        (Kind.EVAPORATION, "1.5"),
        (Kind.POWER, "2000"),
        (Kind.MALT_COLOUR, "60"),
        (Kind.GRAVITY, "1.050"),
        (Kind.VOLUME, "1 1/2 gal"),
        (Kind.MASS, "1,5 kg"),
    ],
)
def test_what_is_kept_reads_the_same_without_any_preference(shown, units, kind, typed):
    shown.settings.units = units
    found = shown.read(kind, typed)
    assert read(kind, found.text).value == pytest.approx(found.value, rel=1e-12)


def test_a_decimal_comma_is_kept_so_that_others_read_it_right(shown, monkeypatch):
    from PySide6.QtCore import QLocale

    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    shown.settings.units = ShownUnits.METRIC
    found = shown.read(Kind.MASS, "1,500 kg")
    assert found.value == pytest.approx(1.5)
    assert read(Kind.MASS, found.text).value == pytest.approx(1.5)
    assert shown.value(Kind.VOLUME, 6.5) == "6,5 L"


@pytest.mark.parametrize(
    ("kind", "text", "seen"),
    [
        (Kind.MASS, "1.7 kg", "1,7 kg"),
        (Kind.MASS, "1,7 kg", "1,7 kg"),
        (Kind.MASS, "1 1/2 lb", "680 g"),
        (Kind.MASS, "1,500 g", "1,5 kg"),
        (Kind.FRACTION, "7.2 % ± 0.5 %", "7,2 % ± 0,5 %"),
        (Kind.DOSE, "0.5 tablet", "0,5 tablet"),
        (Kind.GRAVITY, "1.050", "1,050"),
    ],
)
def test_what_was_typed_is_shown_with_the_decimal_sign_of_the_place(
    shown, monkeypatch, kind, text, seen
):
    from PySide6.QtCore import QLocale

    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    shown.settings.units = ShownUnits.METRIC
    quantity = read(kind, text)
    assert shown.quantity(kind, quantity) == seen
    again = shown.read(kind, shown.to_edit(kind, quantity))
    assert again.value == pytest.approx(quantity.value, rel=1e-3)


def test_computed_values_are_rounded_as_a_kitchen_reads_them(shown):
    assert shown.rounded(Kind.VOLUME, 7.6812) == "7.7 L"
    assert shown.rounded(Kind.TEMPERATURE, 13.8) == "14 °C"


def test_colour_and_gravity_follow_the_chosen_scale(shown):
    assert shown.value(Kind.BEER_COLOUR, 10.0) == "10 SRM"
    shown.settings.colour = "ebc"
    assert shown.value(Kind.BEER_COLOUR, 10.0) == "20 EBC"
    shown.settings.gravity = "plato"
    assert shown.value(Kind.GRAVITY, 1.050) == "12.4 °P"


def test_nonsense_is_refused_in_one_line(shown):
    with pytest.raises(RefusedInputError) as refused:
        shown.read(Kind.MASS, "as much as fits")
    assert "\n" not in str(refused.value)
    assert shown.quantity(Kind.MASS, None) == ""
    assert shown.quantity(Kind.FRACTION, Quantity(0.072, "7.2 %")) == "7.2 %"


@pytest.mark.parametrize("text", ["stand 20 min at 80 °C", "dry hop 4 days", "boil 45 min"])
def test_a_time_of_the_day_is_typed_without_waiting_for_rare_units(shown, monkeypatch, text):
    def fetch():
        pytest.fail("rare units were fetched while a key was waiting")

    monkeypatch.setattr(rare, "_table", {})
    monkeypatch.setattr(rare, "_fetch", fetch)
    for count in range(1, len(text) + 1):
        with suppress(RefusedInputError):
            shown.read_when(text[:count])
    assert shown.read_when(text).text == text
