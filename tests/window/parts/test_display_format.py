"""Typing and showing in preferred units."""

from contextlib import suppress

import pytest

from designer import translation
from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind, Quantity
from designer.spoken_language import catalogue_of
from designer.units import ShownUnits, pint_units, read
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


def test_what_was_typed_is_shown_where_it_is_in_the_shown_system(display):
    assert display.quantity(Kind.MASS, read(Kind.MASS, "1.50 kg")) == "1.50 kg"
    assert display.quantity(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "1.497 kg"
    display.settings.units = ShownUnits.US
    assert display.quantity(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "3.3 lb"
    display.settings.units = ShownUnits.BOTH
    assert display.quantity(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "3.3 lb (1.497 kg)"
    assert display.to_edit(Kind.MASS, read(Kind.MASS, "3.3 lb")) == "3.3 lb"


@pytest.mark.parametrize(("code", "said"), [("de", "1,044 bis 1,048"), ("fr", "1,044 à 1,048")])
def test_a_span_has_its_word_in_the_language_and_reads_back_as_the_same(
    display, monkeypatch, code, said
):
    from PySide6.QtCore import QLocale

    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    span = read(Kind.GRAVITY, "1.044 to 1.048")
    with translation.speaking(catalogue_of(f"program_{code}"), code):
        shown = display.to_edit(Kind.GRAVITY, span)
        back = display.read(Kind.GRAVITY, shown)
    assert shown == said
    assert (back.value, back.spread) == (span.value, span.spread)


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
def test_what_is_kept_reads_the_same_without_any_preference(display, units, kind, typed):
    display.settings.units = units
    found = display.read(kind, typed)
    assert read(kind, found.text).value == pytest.approx(found.value, rel=1e-12)


def test_a_decimal_comma_is_kept_so_that_others_read_it_right(display, monkeypatch):
    from PySide6.QtCore import QLocale

    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    display.settings.units = ShownUnits.METRIC
    found = display.read(Kind.MASS, "1,500 kg")
    assert found.value == pytest.approx(1.5)
    assert read(Kind.MASS, found.text).value == pytest.approx(1.5)
    assert display.value(Kind.VOLUME, 6.5) == "6,5 L"


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
    display, monkeypatch, kind, text, seen
):
    from PySide6.QtCore import QLocale

    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")
    display.settings.units = ShownUnits.METRIC
    quantity = read(kind, text)
    assert display.quantity(kind, quantity) == seen
    again = display.read(kind, display.to_edit(kind, quantity))
    assert again.value == pytest.approx(quantity.value, rel=1e-3)


def test_computed_values_are_rounded_as_a_kitchen_reads_them(display):
    assert display.rounded(Kind.VOLUME, 7.6812) == "7.7 L"
    assert display.rounded(Kind.TEMPERATURE, 13.8) == "14 °C"


@pytest.fixture(scope="module")
def rare_units():
    return pint_units.table_text()


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("5 cubic inches", "Read as 82 mL"),
        ("1 peck", "Read as 8.81 L"),
        ("1 firkin", "Read as 40.91 L"),
        ("0.1 hogshead", "Read as 23.85 L"),
        ("9 L", ""),
    ],
)
def test_a_unit_that_is_not_the_shown_one_is_told_as_what_it_was_read(
    display, monkeypatch, rare_units, typed, told
):
    """A hogshead is 63, a peck 2.3273 US gallons, a firkin nine imperial ones: from memory."""
    monkeypatch.setattr(pint_units, "_table", {})
    pint_units.take_table(rare_units)  # or it would be looked up
    assert display.read_as(Kind.VOLUME, display.read(Kind.VOLUME, typed)) == told


def test_colour_and_gravity_follow_the_chosen_scale(display):
    assert display.value(Kind.BEER_COLOUR, 10.0) == "10 SRM"
    display.settings.colour = "ebc"
    assert display.value(Kind.BEER_COLOUR, 10.0) == "20 EBC"
    display.settings.gravity = "plato"
    assert display.value(Kind.GRAVITY, 1.050) == "12.4 °P"


def test_nonsense_is_refused_in_one_line(display):
    with pytest.raises(RefusedInputError) as refused:
        display.read(Kind.MASS, "as much as fits")
    assert "\n" not in str(refused.value)
    assert display.quantity(Kind.MASS, None) == ""
    assert display.quantity(Kind.FRACTION, Quantity(0.072, "7.2 %")) == "7.2 %"


@pytest.mark.parametrize("text", ["stand 20 min at 80 °C", "dry hop 4 days", "boil 45 min"])
def test_a_time_of_the_day_is_typed_without_waiting_for_rare_units(display, monkeypatch, text):
    def fetch():
        pytest.fail("rare units were fetched while a key was waiting")

    monkeypatch.setattr(pint_units, "_table", {})
    monkeypatch.setattr(pint_units, "_fetch", fetch)
    for count in range(1, len(text) + 1):
        with suppress(RefusedInputError):
            display.read_when(text[:count])
    assert display.read_when(text).text == text


def test_an_extract_yield_is_shown_as_it_was_typed_or_by_the_chosen_units(display):
    """46.21 ppg is all of the mass (Palmer, How to Brew, 1st ed., table 9)."""
    of = Kind.EXTRACT_YIELD
    display.settings.units = ShownUnits.METRIC
    assert display.quantity(of, read(of, "78 %")) == "78 %"
    assert display.quantity(of, read(of, "300 L°/kg")) == "300 L°/kg"
    assert display.quantity(of, read(of, "36 ppg")) == "77.9 %"
    assert display.read_as(of, read(of, "36 ppg")) == "Typed 36 ppg"
    typed_here = display.read(of, "36 ppg")
    assert display.quantity(of, typed_here) == "36 ppg"
    assert display.read_as(of, typed_here) == "Read as 77.9 %"
    assert display.read_as(of, display.read(of, "300 L°/kg")) == "Read as 77.8 %"
    display.settings.units = ShownUnits.US
    assert display.quantity(of, read(of, "36 ppg")) == "36 ppg"
    assert display.quantity(of, read(of, "300 L°/kg")) == "35.9 ppg"
    assert display.read(of, "37", before="36 ppg").text == "37 ppg"
    display.settings.units = ShownUnits.BOTH
    assert display.quantity(of, read(of, "78 %")) == "78 % (36 ppg)"


def test_ingredients_are_shown_on_the_scale_of_the_beer_if_that_is_wished(display):
    crystal = read(Kind.MALT_COLOUR, "60 °L")
    assert display.quantity(Kind.MALT_COLOUR, crystal) == "60 °L"
    display.settings.ingredient_colour, display.settings.colour = "beer", "ebc"
    # 2.65 times 60 less 1.2, Morey's article as quoted.
    assert display.quantity(Kind.MALT_COLOUR, crystal) == "158 EBC"
    assert display.value(Kind.MALT_COLOUR, crystal.value) == "158 EBC"
    labelled = read(Kind.MALT_COLOUR, "157.5 EBC")
    assert display.quantity(Kind.MALT_COLOUR, labelled) == "157.5 EBC"
    display.settings.colour = "srm"
    # 1.3546 times 60 less 0.76, the same.
    assert display.quantity(Kind.MALT_COLOUR, crystal) == "81 SRM"
    typed = display.read(Kind.MALT_COLOUR, "90", before="81 SRM")
    assert typed.text == "90 SRM"
    assert display.quantity(Kind.MALT_COLOUR, typed) == "90 SRM"
