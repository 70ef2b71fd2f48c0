"""What may have been meant by an odd figure, each slip reckoned anew.

Gallons, quarts, ounces and pounds: NIST SP 811 and 1049, exact by definition; degrees Fahrenheit
too. Extract in °P: 259 - 259 / SG, a rule of thumb of the handbooks, good to 0.1 °P for wort. What
an instrument adds to a warm sample: `tests/wort`, held here only by its sign and its steps.
"""

from dataclasses import replace
from math import pi

import pytest

from designer.brewday.measured.digit_slips import digits_of, figure_in
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.slips import slips_of
from designer.brewday.results import Range
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.wort.hydrometer import true_gravity

M = Measured
GALLON, POUND = 3.785411784, 0.45359237
DIGITS = {"comma", "digit", "swapped digits"}


@pytest.fixture
def recipe(harbour_porter):
    """The porter in a pot 26 cm across, with a hydrometer made for 20 °C."""
    pot = replace(harbour_porter.pot, diameter=typed(Kind.LENGTH, 0.26))
    return replace(harbour_porter, pot=pot)


@pytest.fixture
def slips(recipe):
    def ask(what, value, typed_text="", by=By.MARK, forecast=1.046, beside=()):
        around = Range(forecast, forecast - 0.01, forecast + 0.01)
        found = slips_of(Reading(what, value, by), recipe, around, typed_text, beside)
        return [each for each in found if each.code not in DIGITS]

    return ask


def meant(found):
    return {each.code: each.meant.value for each in found}


def test_degrees_are_mixed_up_either_way(slips):
    found = meant(slips(M.STEEP, 68.0))
    assert found == {"fahrenheit": pytest.approx(20.0), "celsius": pytest.approx(154.4)}


def test_a_gravity_is_written_in_many_ways_that_mean_the_same(slips):
    found = slips(M.ORIGINAL_GRAVITY, 1.12)
    by_code = {each.code: each.meant.value for each in found if each.code != "plato"}
    assert by_code == {
        "points without 1.": pytest.approx(1.00112),
        "no decimal point": pytest.approx(0.00112),
        "no leading 1": pytest.approx(2.12),
        "hundredths": pytest.approx(1.012),
        "tenths left out": pytest.approx(2.2),
    }
    (degrees,) = (each.meant.value for each in found if each.code == "plato")
    assert 259.0 - 259.0 / degrees == pytest.approx(1.12, abs=0.1)  # 120 °P is no wort


def test_degrees_plato_are_taken_for_a_gravity_or_for_its_points(slips):
    found = [each for each in slips(M.ORIGINAL_GRAVITY, 1.0114) if each.code == "plato"]
    as_typed, as_points = (259.0 - 259.0 / each.meant.value for each in found)
    assert as_typed == pytest.approx(1.01, abs=0.1)
    assert as_points == pytest.approx(11.4, abs=0.1)
    assert not [each for each in slips(M.ORIGINAL_GRAVITY, 40.0) if each.code == "plato"]
    assert not [each for each in slips(M.ORIGINAL_GRAVITY, 0.99) if each.meant.value < -1.0]


def test_a_warm_sample_is_asked_about_by_whole_steps_up_to_sixty_degrees(slips, recipe):
    def warm(value, forecast, by=By.HYDROMETER):
        found = slips(M.ORIGINAL_GRAVITY, value, by=by, forecast=forecast)
        return next((each for each in found if each.code == "warm"), None)

    for sample_c in (30.0, 45.0, 60.0):
        there = float(true_gravity(1.040, sample_c, 20.0))
        found = warm(1.040, there)
        assert found.meant.value == pytest.approx(there, abs=1e-9)
        assert found.question.figures[0] == (Kind.TEMPERATURE, pytest.approx(sample_c))
        assert found.odd == 0.5
    assert warm(1.040, 1.2).question.figures[0][1] == 60.0
    assert warm(1.040, 1.0).question.figures[0][1] == 30.0  # nearer than 8 °C it changes nothing
    assert warm(1.040, 1.05, by=By.REFRACTOMETER) is None
    assert warm(0.95, 1.05) is None
    assert warm(1.2, 1.25) is None


def test_litres_may_have_been_any_of_the_units_of_a_kitchen(slips):
    found = meant(slips(M.TOPPED_UP, 2.5))
    assert found == {
        "gallons": pytest.approx(2.5 * GALLON),
        "quarts": pytest.approx(2.5 * GALLON / 4.0),
        "imperial gallons": pytest.approx(2.5 * 4.54609),
        "millilitres": pytest.approx(0.0025),
    }
    in_gallons = meant(slips(M.TOPPED_UP, 2.5 * GALLON, "2.5 gal"))
    assert in_gallons["litres"] == pytest.approx(2.5)
    assert "gallons" not in in_gallons


def test_a_weight_whose_text_is_not_known_was_grams_or_kilograms(slips):
    found = slips(M.WEIGHT, 0.5)
    pounds = [each.meant.value for each in found if each.code == "pounds"]
    assert sorted(pounds) == pytest.approx([0.5 * POUND, 500.0 * POUND])
    typed_so = meant(slips(M.WEIGHT, 0.5 * POUND, "0.5 lb"))
    assert typed_so["kilograms"] == pytest.approx(0.5)
    assert typed_so["ounces"] == pytest.approx(0.5 * POUND / 16.0)


def test_a_text_that_fits_no_unit_within_half_a_hundredth_tells_none(slips):
    near, far = (meant(slips(M.TOPPED_UP, 2.5, text)) for text in ("2.51", "2.52"))
    assert "quarts" in near
    assert far == {}


def test_centimetres_of_a_stick_are_litres_of_a_round_pot(slips):
    found = next(each for each in slips(M.BOIL_END_VOLUME, 11.0) if each.code == "depth")
    assert found.meant.value == pytest.approx(pi / 4.0 * 2.6**2 * 1.1)
    assert found.meant.by is By.DIPSTICK
    assert "depth" not in meant(slips(M.TOPPED_UP, 11.0))


def test_a_figure_may_belong_to_another_blank_of_its_kind(slips):
    others = [
        Reading(M.BOIL_END_VOLUME, 0.0, By.MARK),
        Reading(M.TOPPED_UP, 0.0, By.MARK),
        Reading(M.STEEP, 0.0, By.THERMOMETER),
        Reading(M.TOPPED_UP, 0.0, By.MARK, fermenter=2),
    ]
    found = [e for e in slips(M.TOPPED_UP, 10.0, beside=others) if e.code == "beside"]
    assert [(e.meant.what, e.meant.fermenter) for e in found] == [
        (M.BOIL_END_VOLUME, 1),
        (M.TOPPED_UP, 2),
    ]
    assert {(e.meant.value, e.odd) for e in found} == {(10.0, 0.7)}


@pytest.mark.parametrize(
    ("text", "figure"),
    [("10,5 L", 10.5), (".046", 0.046), ("about 1.046", 1.046), ("none", None), ("", None)],
)
def test_the_first_figure_of_a_text_is_read_with_point_or_comma(text, figure):
    assert figure_in(text) == figure


@pytest.mark.parametrize(
    ("what", "kind", "value", "text", "forecast", "wanted"),
    [
        # Of all figures that are one slip away, the one nearest to the forecast.
        (M.TOPPED_UP, Kind.VOLUME, 81.0, "81", 10.0,
         {"comma": 8.1, "swapped digits": 18.0, "digit": 11.0}),
        (M.ORIGINAL_GRAVITY, Kind.GRAVITY, 1.064, "1.064", 1.046,
         {"swapped digits": 1.046, "digit": 1.044}),
        (M.COOLED, Kind.TEMPERATURE, 86.0, "86", 9.0,
         {"comma": 8.6, "swapped digits": 68.0, "digit": 6.0}),
        # Degrees Fahrenheit as they were typed: nine of them are five of the others.
        (M.STEEP, Kind.TEMPERATURE, (145.0 - 32.0) / 1.8, "145 °F", (154.0 - 32.0) / 1.8,
         {"swapped digits": (154.0 - 32.0) / 1.8}),
        (M.WEIGHT, Kind.MASS, 0.054, "", 0.45, {"swapped digits": 0.045, "comma": 0.54}),
        (M.ALPHA, Kind.FRACTION, 0.52, "", 0.052, {"comma": 0.052, "swapped digits": 0.25}),
    ],
)  # fmt: skip
def test_fingers_slip_by_a_digit_by_two_or_by_a_comma(what, kind, value, text, forecast, wanted):
    around = Range(forecast, forecast, forecast)
    found = {e.code: e for e in digits_of(Reading(what, value, By.MARK), kind, around, text)}
    for code, each in wanted.items():
        assert found[code].meant.value == pytest.approx(each), code
    odd = {"comma": 0.8, "swapped digits": 1.2, "digit": 1.6}
    assert {code: each.odd for code, each in found.items()} == {c: odd[c] for c in found}


def test_of_nothing_no_digit_slipped():
    around = Range(1.0, 1.0, 1.0)
    assert not list(digits_of(Reading(M.TOPPED_UP, 0.0, By.MARK), Kind.VOLUME, around, "0"))
