"""What a brewer types into a field is understood as a brewer means it.

Definitions of the units: international avoirdupois pound 0.45359237 kg and US gallon 231 cubic
inches, imperial gallon 4.54609 L (NIST Handbook 44, appendix C).
"""

import pytest

from designer import translation
from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.spoken_language import catalogue_of
from designer.units import ShownUnits, read

OZ = 0.45359237 / 16
LB = 0.45359237
US_GAL = 3.785411784
US_FL_OZ = US_GAL / 128


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("1 1/2 oz", 1.5 * OZ),
        ("1-1/2 oz", 1.5 * OZ),
        ("2 lb 4 oz", 2.25 * LB),
        ("2lb4oz", 2.25 * LB),
        ("2 lb and 4 oz", 2.25 * LB),
        ("2 lb, 4 oz", 2.25 * LB),
        ("1 lb. 4 oz.", 1.25 * LB),
        ("1½ lb", 1.5 * LB),
        ("1 ½ lb", 1.5 * LB),
        ("½ oz", 0.5 * OZ),
        ("⅔ lb", 2 / 3 * LB),
        ("1\u20442 lb", 0.5 * LB),
        ("1,5 kg", 1.5),
        (",5 kg", 0.5),
        (".5 kg", 0.5),
        ("5. kg", 5.0),
        ("1 LB", LB),
        ("1 Lbs", LB),
        ("1 oz.", OZ),
        ("3.3 lb", 3.3 * LB),
        ("1 kg 500 g", 1.5),
        ("1.234,5 kg", 1234.5),
        ("1,234.5 kg", 1234.5),
        ("1'000 g", 1.0),
        ("1e3 g", 1.0),
        ("1e-3 kg", 0.001),
        ("250g", 0.25),
        ("250\u00a0g", 0.25),
        ("250\u202fg", 0.25),
        ("  250 g  ", 0.25),
        ("1 MG", 1e-6),
        ("1 stone", 14 * LB),
        ("2 stones", 28 * LB),
        ("5 grains", 5 * LB / 7000),
        ("1 tonne", 1000.0),
        ("0 kg", 0.0),
    ],
)
def test_a_mass_is_read_as_it_is_meant(text, kg):
    assert read(Kind.MASS, text).value == pytest.approx(kg, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("6.5 L", 6.5),
        ("6,5 l", 6.5),
        ("500 mL", 0.5),
        ("5 ML", 0.005),
        ("50 cl", 0.5),
        ("5 gal", 5 * US_GAL),
        ("5 US gallon", 5 * US_GAL),
        ("5 U.S. gallons", 5 * US_GAL),
        ("5 imp gal", 5 * 4.54609),
        ("5 imp. gal.", 5 * 4.54609),
        ("5 imperial gallons", 5 * 4.54609),
        ("1 UK pint", 4.54609 / 8),
        ("1 pt", US_GAL / 8),
        ("1 fl oz", US_FL_OZ),
        ("1 fl. oz.", US_FL_OZ),
        ("1 imp fl oz", 4.54609 / 160),
        ("2 gal 1 qt", 2.25 * US_GAL),
        ("2 1/2 gal", 2.5 * US_GAL),
        ("1 cup", US_GAL / 16),
        ("1 tbsp", US_GAL / 256),
        ("1 tsp", US_GAL / 768),
        ("1 m3", 1000.0),
        ("1 m³", 1000.0),
    ],
)
def test_a_volume_is_read_and_a_gallon_is_us_unless_imperial_is_typed(text, litres):
    assert read(Kind.VOLUME, text).value == pytest.approx(litres, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("155 F", 68 + 1 / 3),
        ("155°F", 68 + 1 / 3),
        ("68 °F", 20.0),
        ("68 F", 20.0),
        ("68 degF", 20.0),
        ("68 deg. F", 20.0),
        ("68°C", 68.0),
        ("68 C", 68.0),
        ("68º C", 68.0),
        ("68 celsius", 68.0),
        ("-18 °C", -18.0),
        ("−18 °C", -18.0),
        ("0 F", -160 / 9),
        ("293.15 K", 20.0),
    ],
)
def test_a_temperature_is_read_in_celsius_fahrenheit_and_kelvin(text, celsius):
    assert read(Kind.TEMPERATURE, text).value == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize(("text", "kelvin"), [("9 °F", 5.0), ("5 °C", 5.0), ("5 K", 5.0)])
def test_a_difference_of_temperature_has_no_offset(text, kelvin):
    assert read(Kind.TEMPERATURE_DIFFERENCE, text).value == pytest.approx(kelvin)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("25 min", 25.0),
        ("1 h 15 min", 75.0),
        ("1h15m", 75.0),
        ("1 hour and 15 minutes", 75.0),
        ("1½ h", 90.0),
        ("90 s", 1.5),
        ("60'", 60.0),
        ("60 min.", 60.0),
        ("2 days", 2880.0),
        ("2 weeks", 20160.0),
    ],
)
def test_a_time_is_read(text, minutes):
    assert read(Kind.TIME, text).value == pytest.approx(minutes)


@pytest.mark.parametrize(
    "text", ["1.050", "1050", "1,050", "50 points", "50 pts", "50 GU", "1.050 SG"]
)
def test_a_gravity_is_read_in_every_way_of_writing_it(text):
    assert read(Kind.GRAVITY, text).value == pytest.approx(1.050, abs=1e-12)


@pytest.mark.parametrize("text", ["12.4 °P", "12,4 °P", "12.4 Plato", "12.4 °Bx"])
def test_degrees_plato_are_per_cent_of_sugar_by_weight(text):
    """Source: NBS Circular C440 (1942), table 114: 12.4 % of sucrose is SG 1.0501 (from memory)."""
    assert read(Kind.GRAVITY, text).value == pytest.approx(1.0501, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "lovibond"),
    [
        ("60 °L", 60.0),
        ("60 L", 60.0),
        ("60", 60.0),
        ("40 SRM", (40 + 0.76) / 1.3546),
        ("118.2 EBC", (118.2 + 1.2) / 2.65),
    ],
)
def test_a_malt_colour_is_read_in_lovibond_srm_and_ebc(text, lovibond):
    """Source: SRM = 1.3546 °L - 0.76 and EBC = 2.65 °L - 1.2, the malt trade's usual regressions;
    constants from memory.
    """
    assert read(Kind.MALT_COLOUR, text).value == pytest.approx(lovibond, rel=1e-3)


def test_a_beer_colour_is_read_in_srm_and_ebc():
    """Source: EBC = 1.97 SRM; the methods' factors are 12.7 for 1/2 inch and 25 for 1 cm (ASBC
    Beer-10, EBC 9.6; from memory).
    """
    assert read(Kind.BEER_COLOUR, "12 SRM").value == 12.0
    assert read(Kind.BEER_COLOUR, "19.7 EBC").value == pytest.approx(10.0, rel=1e-3)


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        (Kind.FRACTION, "7.2 %", 0.072),
        (Kind.FRACTION, "7,2 percent", 0.072),
        (Kind.POWER, "2.2 kW", 2200.0),
        (Kind.POWER, "1 hp", 745.69987158),
        (Kind.LENGTH, '10"', 0.254),
        (Kind.LENGTH, "1 ft 2 in", 0.3556),
        (Kind.LENGTH, "240 mm", 0.24),
        (Kind.EVAPORATION, "0.5 gal/h", 0.5 * US_GAL),
        (Kind.EVAPORATION, "15 mL/min", 0.9),
        (Kind.BITTERNESS, "24 EBU", 24.0),
        (Kind.LOSS_RATE, "4 W/°C", 4.0),
        (Kind.ABSORPTION, "0.5 qt/lb", 0.5 * US_GAL / 4 / LB),
        (Kind.CONCENTRATION, "2 ppm", 2.0),
        (Kind.CARBONATION, "2.4 volumes", 2.4),
        (Kind.RATE, "3.6 /h", 0.06),
        (Kind.EXTRACT_YIELD, "78 %", 0.78),
        (Kind.EXTRACT_YIELD, "36 ppg", 36.0 / 46.21),
        (Kind.EXTRACT_YIELD, "300 L°/kg", 300.0 / (46.21 * 8.3454)),
        (Kind.NUMBER, "4,15", 4.15),
        (Kind.MONEY, "€3.20", 3.20),
        (Kind.MONEY, "3,20 EUR", 3.20),
        (Kind.MONEY, "£1,500", 1500.0),
    ],
)
def test_every_other_kind_takes_its_units(kind, text, value):
    assert read(kind, text).value == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("11 g", 11.0, "g"),
        ("1 oz", 28.349523125, "g"),
        ("5 mL", 5.0, "mL"),
        ("1 tsp", 4.92892159375, "mL"),
        ("0.5 tablet", 0.5, "tablet"),
        ("½ tablet", 0.5, "tablet"),
        ("1 pkt", 1.0, "pkt"),
        ("2", 2.0, "piece"),
    ],
)
def test_a_dose_is_a_mass_a_volume_or_so_many_pieces(text, value, unit):
    found = read(Kind.DOSE, text)
    assert (found.value, found.unit) == (pytest.approx(value), unit)


@pytest.mark.parametrize(
    ("text", "comma", "kg"),
    [
        ("1,500 kg", False, 1500.0),
        ("1,500 kg", True, 1.5),
        ("1.500 kg", False, 1.5),
        ("1.500 kg", True, 1500.0),
        ("0,500 kg", False, 0.5),
        ("1,500,000 g", True, 1500.0),
        ("1,5 kg", True, 1.5),
        ("1.5 kg", True, 1.5),
        ("1.500,25 kg", False, 1500.25),
        ("1,500.25 kg", True, 1500.25),
    ],
)
def test_three_digits_behind_a_sign_follow_the_locale_and_all_else_explains_itself(text, comma, kg):
    assert read(Kind.MASS, text, decimal_comma=comma).value == pytest.approx(kg, rel=1e-12)


@pytest.mark.parametrize(
    ("kind", "text", "metric", "us"),
    [
        (Kind.MASS, "2", 2.0, 2 * LB),
        (Kind.VOLUME, "5", 5.0, 5 * US_GAL),
        (Kind.TEMPERATURE, "68", 68.0, 20.0),
        (Kind.TEMPERATURE_DIFFERENCE, "9", 9.0, 5.0),
        (Kind.LENGTH, "10", 0.1, 0.254),
        (Kind.EVAPORATION, "1", 1.0, US_GAL),
        (Kind.TIME, "60", 60.0, 60.0),
        (Kind.FRACTION, "7.2", 0.072, 0.072),
        (Kind.EXTRACT_YIELD, "40", 0.4, 40.0 / 46.21),
        (Kind.POWER, "2000", 2000.0, 2000.0),
        (Kind.CARBONATION, "2.4", 2.4, 2.4),
    ],
)
def test_a_bare_number_takes_the_shown_unit(kind, text, metric, us):
    assert read(kind, text).value == pytest.approx(metric)
    assert read(kind, text, shown=ShownUnits.BOTH).value == pytest.approx(metric)
    assert read(kind, text, shown=ShownUnits.US).value == pytest.approx(us)


@pytest.mark.parametrize(
    ("kind", "text", "value", "spread"),
    [
        (Kind.FRACTION, "7.2 % ± 0.5 %", 0.072, 0.005),
        (Kind.FRACTION, "7.2 ± 0.5 %", 0.072, 0.005),
        (Kind.FRACTION, "7.2 % +/- 0.5", 0.072, 0.005),
        (Kind.EXTRACT_YIELD, "78 % ± 2 %", 0.78, 0.02),
        (Kind.EXTRACT_YIELD, "78 ± 2 %", 0.78, 0.02),
        (Kind.EXTRACT_YIELD, "36 ppg ± 1", 36.0 / 46.21, 1.0 / 46.21),
        (Kind.EXTRACT_YIELD, "36 ppg ± 2 %", 36.0 / 46.21, 0.02 * 36.0 / 46.21),
        (Kind.MASS, "1 kg ± 5 %", 1.0, 0.05),
        (Kind.MASS, "1 kg ± 50 g", 1.0, 0.05),
        (Kind.MASS, "250 g ± 10", 0.25, 0.01),
        (Kind.MASS, "250 ± 10 g", 0.25, 0.01),
        (Kind.MASS, "2 lb 4 oz ± 1 oz", 2.25 * LB, OZ),
        (Kind.MASS, "3.3 lb ± 0.1", 3.3 * LB, 0.1 * LB),
        (Kind.VOLUME, "5 gal ± 2%", 5 * US_GAL, 0.1 * US_GAL),
        (Kind.TEMPERATURE, "68 °C ± 2 °C", 68.0, 2.0),
        (Kind.TEMPERATURE, "68 ± 2 °C", 68.0, 2.0),
        (Kind.TEMPERATURE, "154.4 F ± 3.6", 68.0, 2.0),
        (Kind.TEMPERATURE, "154.4 ± 3.6 F", 68.0, 2.0),
        (Kind.GRAVITY, "1.050 ± 0.002", 1.050, 0.002),
        (Kind.GRAVITY, "1.050 ± 2", 1.050, 0.002),
        (Kind.GRAVITY, "1.050 ± 0.4 points", 1.050, 0.0004),
        (Kind.GRAVITY, "1050 ± 2 points", 1.050, 0.002),
        (Kind.GRAVITY, "50 ± 2 points", 1.050, 0.002),
        (Kind.GRAVITY, "1.050 ± 4 %", 1.050, 0.002),
        (Kind.MALT_COLOUR, "60 °L ± 5", 60.0, 5.0),
        (Kind.MALT_COLOUR, "40 SRM ± 13.546", (40 + 0.76) / 1.3546, 10.0),
        (Kind.BEER_COLOUR, "12 SRM ± 1", 12.0, 1.0),
        (Kind.DOSE, "11.5 g ± 1 g", 11.5, 1.0),
        (Kind.DOSE, "1 tablet ± 10 %", 1.0, 0.1),
        (Kind.TIME, "1 min ± 10 s", 1.0, 1 / 6),
    ],
)
def test_what_stands_behind_plus_minus_is_half_the_width_of_the_range(kind, text, value, spread):
    found = read(kind, text)
    assert found.value == pytest.approx(value, rel=1e-9)
    assert found.spread == pytest.approx(spread, rel=1e-3)


@pytest.mark.parametrize("text", ["12.4 °P ± 0.2 °P", "12.4 ± 0.2 °P", "12.4 °P ± 0.2"])
def test_a_spread_in_degrees_plato_is_worth_four_points_a_degree(text):
    """Source: NBS Circular C440 (1942), table 114: 1.0484 at 12 %, 1.0526 at 13 % (from memory)."""
    found = read(Kind.GRAVITY, text)
    assert found.value == pytest.approx(1.0501, abs=1e-4)
    assert found.spread == pytest.approx(0.2 * 0.0042, rel=0.02)


@pytest.mark.parametrize(
    ("kind", "text", "low", "high"),
    [
        (Kind.FRACTION, "6.5-8.5 %", 0.065, 0.085),
        (Kind.FRACTION, "6.5–8.5 %", 0.065, 0.085),
        (Kind.FRACTION, "6,5-8,5 %", 0.065, 0.085),
        (Kind.FRACTION, "6.5 % to 8.5 %", 0.065, 0.085),
        (Kind.FRACTION, "6½-8½ %", 0.065, 0.085),
        (Kind.MASS, "1 - 2 kg", 1.0, 2.0),
        (Kind.MASS, "1 1/2-2 oz", 1.5 * OZ, 2 * OZ),
        (Kind.MASS, "1/2-3/4 oz", 0.5 * OZ, 0.75 * OZ),
        (Kind.TEMPERATURE, "64-68 F", 160 / 9, 20.0),
        (Kind.TEMPERATURE, "18 to 20 °C", 18.0, 20.0),
        (Kind.TEMPERATURE, "-20 to -16 °C", -20.0, -16.0),
        (Kind.GRAVITY, "1.050-1.055", 1.050, 1.055),
        (Kind.GRAVITY, "1050 to 1055", 1.050, 1.055),
        (Kind.MALT_COLOUR, "55-65 °L", 55.0, 65.0),
        (Kind.DOSE, "1-2 tablets", 1.0, 2.0),
    ],
)
def test_a_span_is_its_middle_and_half_its_width(kind, text, low, high):
    found = read(kind, text)
    assert found.value == pytest.approx((low + high) / 2, rel=1e-9)
    assert found.spread == pytest.approx((high - low) / 2, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "text", "value", "ends"),
    [
        (Kind.FRACTION, "6 % (4.5-8.9 %)", 0.06, (0.045, 0.089)),
        (Kind.FRACTION, "6 % (4.5–8.9 %)", 0.06, (0.045, 0.089)),
        (Kind.FRACTION, "6%(4.5 % to 8.9 %)", 0.06, (0.045, 0.089)),
        (Kind.FRACTION, "6 (4.5-8.9)", 0.06, (0.045, 0.089)),
        (Kind.MASS, "250 g (240-270)", 0.25, (0.24, 0.27)),
        (Kind.TEMPERATURE, "68 F (64-70 F)", 20.0, (160 / 9, 190 / 9)),
        (Kind.GRAVITY, "1.050 (1.050-1.056)", 1.050, (1.050, 1.056)),
    ],
)
def test_a_range_in_brackets_need_not_lie_evenly_about_its_figure(kind, text, value, ends):
    found = read(kind, text)
    assert found.value == pytest.approx(value)
    assert found.ends == pytest.approx(ends)
    assert found.spread == pytest.approx((ends[1] - ends[0]) / 2.0)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("6 % (4.5 %)", "what stands in brackets is a range"),
        ("6 % (7-8 %)", "the range in brackets holds the figure before it"),
        ("6 % (8-7 %)", "the first figure of a span is the smaller one"),
        ("6 % (strong)", "what stands in brackets is a range"),
    ],
)
def test_brackets_with_anything_else_are_refused(text, why):
    with pytest.raises(RefusedInputError, match=why):
        read(Kind.FRACTION, text)


def test_the_text_typed_is_kept_and_only_the_ends_are_trimmed():
    assert read(Kind.MASS, " 1 1/2  oz ").text == "1 1/2  oz"
    assert read(Kind.FRACTION, "6.5–8.5 %").text == "6.5–8.5 %"


@pytest.mark.parametrize(
    ("kind", "typed", "english"),
    [
        (Kind.GRAVITY, "1,044 bis 1,048", "1.044 to 1.048"),
        (Kind.GRAVITY, "1,044 à 1,048", "1.044 to 1.048"),
        (Kind.GRAVITY, "50 Punkte", "50 points"),
        (Kind.TIME, "1 Stunde 15 Minuten", "1 h 15 min"),
        (Kind.TIME, "3 Wochen", "3 weeks"),
        (Kind.MASS, "200 Gramm", "200 g"),
        (Kind.MASS, "1 Kilogramm", "1 kg"),
        (Kind.TEMPERATURE, "20 Grad", "20 °C"),
        (Kind.TEMPERATURE, "20 degrés", "20 °C"),
        (Kind.GRAVITY, "12,5 Grad Plato", "12.5 °P"),
        (Kind.VOLUME, "2 EL", "30 mL"),
        (Kind.VOLUME, "2 c. à café", "10 mL"),
        (Kind.DOSE, "1 TL", "5 mL"),
        (Kind.DOSE, "2 Päckchen", "2 packets"),
        (Kind.DOSE, "3 Stk", "3 piece"),
        (Kind.DOSE, "2 comprimés", "2 tablets"),
        (Kind.EVAPORATION, "2 Liter pro Stunde", "2 L/h"),
        (Kind.FRACTION, "4,5 bis 6 Prozent", "4.5 to 6 %"),
    ],
)
def test_units_and_spans_are_read_in_the_languages_of_the_program(kind, typed, english):
    found, meant = read(kind, typed), read(kind, english)
    assert (found.value, found.spread) == (meant.value, meant.spread)


def test_what_was_typed_is_quoted_as_the_language_quotes():
    translation.use(catalogue_of("program_de"), "de")
    try:
        with pytest.raises(RefusedInputError, match=r"^„zwei“ passt nicht"):
            read(Kind.MASS, "zwei")
    finally:
        translation.use(None)
