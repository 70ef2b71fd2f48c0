"""Readings that no error explains are asked about, with the slip that explains them first.

Conversions by their definitions (NIST SP 811, appendix B): 1 gal is 3.785 L, 1 oz 28.35 g,
°F = 1.8 °C + 32. 12.4 °P is 1.050 by the tables of the handbooks. A hydrometer in wort of 50 °C
shows about 0.010 too little (tables printed with hydrometers, from memory).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from designer.brewday.measured.doubtful import doubts_of, misread
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Range
from designer.library.recipe_file import load
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path

FORECASTS = {
    Measured.WATER_IN: (6.0, 0.24),
    Measured.STEEP: (68.0, 0.0),
    Measured.BOIL_START_VOLUME: (6.7, 0.3),
    Measured.BOIL_START_GRAVITY: (1.055, 0.003),
    Measured.BOIL_END_VOLUME: (6.0, 0.5),
    Measured.INTO_FERMENTER: (5.3, 0.5),
    Measured.COOLED: (40.0, 0.0),
    Measured.MIXED: (18.3, 1.5),
    Measured.ORIGINAL_GRAVITY: (1.046, 0.003),
    Measured.WEIGHT: (0.4, 0.004),
}
USUAL = {
    Measured.STEEP: 2.0,
    Measured.COOLED: 2.0,
    Measured.MIXED: 2.0,
    Measured.WEIGHT: 0.002,
    Measured.BOIL_START_GRAVITY: 0.002,
    Measured.ORIGINAL_GRAVITY: 0.002,
}
BY = {
    Measured.ORIGINAL_GRAVITY: By.HYDROMETER,
    Measured.BOIL_START_GRAVITY: By.HYDROMETER,
    Measured.WEIGHT: By.SCALE,
}


@pytest.fixture(scope="module")
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture(scope="module")
def outlook(porter):
    return look_ahead(porter, ranges=False)


@pytest.fixture
def doubt(porter, outlook):
    def ask(what, value, typed="", *, recipe=porter, beside=()):
        reading = Reading(what, value, BY.get(what, By.MARK))

        def expect(each):
            middle, half = FORECASTS[each.what]
            return Range(middle, middle - half, middle + half)

        return doubts_of(
            reading,
            outlook,
            recipe,
            expect=expect,
            half_width=lambda each: USUAL.get(each.what, 0.3),
            typed=typed,
            beside=[Reading(each, 0.0, By.MARK) for each in beside],
        )

    return ask


@pytest.mark.parametrize(
    ("what", "value"),
    [
        (Measured.WATER_IN, 6.4),
        (Measured.STEEP, 74.0),
        (Measured.BOIL_START_VOLUME, 7.4),
        (Measured.ORIGINAL_GRAVITY, 1.052),
        (Measured.COOLED, 22.0),
        (Measured.MIXED, 23.0),
        (Measured.WEIGHT, 0.45),
    ],
)
def test_a_reading_that_an_error_explains_is_not_asked_about(doubt, what, value):
    assert doubt(what, value) is None


SLIPS = [
    (Measured.STEEP, 154.0, "154", "fahrenheit", 67.8),
    (Measured.STEEP, 20.0, "68 °F", "celsius", 68.0),
    (Measured.COOLED, 104.0, "104", "fahrenheit", 40.0),
    (Measured.ORIGINAL_GRAVITY, 46.0, "46", "points without 1.", 1.046),
    (Measured.ORIGINAL_GRAVITY, 1046.0, "1046", "no decimal point", 1.046),
    (Measured.ORIGINAL_GRAVITY, 0.046, ".046", "no leading 1", 1.046),
    (Measured.ORIGINAL_GRAVITY, 1.46, "1.46", "hundredths", 1.046),
    (Measured.ORIGINAL_GRAVITY, 11.4, "11.4", "plato", 1.046),
    (Measured.ORIGINAL_GRAVITY, 1.0114, "11.4 points", "plato", 1.046),
    (Measured.BOIL_START_GRAVITY, 1.005, "1.005", "digit", 1.055),
    (Measured.ORIGINAL_GRAVITY, 1.064, "1.064", "swapped digits", 1.046),
    (Measured.BOIL_START_VOLUME, 1.77, "1.77", "gallons", 6.7),
    (Measured.BOIL_START_VOLUME, 25.36, "6.7 gal", "litres", 6.7),
    (Measured.BOIL_END_VOLUME, 60.0, "60", "comma", 6.0),
    (Measured.WEIGHT, 400.0, "400", "grams", 0.4),
    (Measured.WEIGHT, 0.0141, "14.1", "ounces", 0.4),
    (Measured.WEIGHT, 0.88, "0.88", "pounds", 0.4),
    (Measured.WEIGHT, 0.04, "40 g", "comma", 0.4),
]


@pytest.mark.parametrize(("what", "value", "typed_text", "code", "meant"), SLIPS)
def test_the_slip_that_was_made_is_asked_about_first(doubt, what, value, typed_text, code, meant):
    found = doubt(what, value, typed_text)
    assert found.slips[0].code == code
    assert found.slips[0].meant.value == pytest.approx(meant, rel=0.004)
    assert found.slips[0].meant.what is what
    assert found.slips[0].question.text.endswith(("?", "."))


def test_a_depth_on_the_dipstick_is_told_by_the_width_of_the_pot(doubt, porter):
    """A pot 25 cm across holds 0.491 L a centimetre: geometry."""
    wide = replace(porter, pot=replace(porter.pot, diameter=typed(Kind.LENGTH, 0.25)))
    found = doubt(Measured.BOIL_START_VOLUME, 13.6, "13.6", recipe=wide)
    assert found.slips[0].code == "depth"
    assert found.slips[0].meant.value == pytest.approx(6.68, abs=0.01)
    assert found.slips[0].meant.by is By.DIPSTICK


def test_a_hydrometer_in_warm_wort_is_asked_about(doubt):
    found = doubt(Measured.ORIGINAL_GRAVITY, 1.035)
    warm = next(each for each in found.slips if each.code == "warm")
    assert warm.question.text == "Was the sample still warm, about 50 °C? Then it is 1.046."


def test_a_figure_of_the_blank_beside_is_found(doubt):
    found = doubt(Measured.MIXED, 40.0, "40", beside=(Measured.COOLED, Measured.STEEP))
    assert found.slips[0].meant.what is Measured.COOLED
    assert found.slips[0].question.text == "Does it belong to the cooled wort?"


@pytest.mark.parametrize("value", [0.0, -3.0, 1e6, 12345.678, 1e-5])
def test_a_figure_however_odd_is_asked_about_and_breaks_nothing(doubt, value):
    for what in FORECASTS:
        assert doubt(what, value, "") is not None


@pytest.mark.parametrize(
    ("what", "value", "why"),
    [
        (Measured.ORIGINAL_GRAVITY, 0.95, "0.95 is no gravity of wort"),
        (Measured.ORIGINAL_GRAVITY, 1.3, "1.3 is no gravity of wort"),
        (Measured.STEEP, 104.0, "104 °C is hotter than it boils, at 100 °C."),
        (Measured.BOIL_START_VOLUME, 11.0, "11 L is more than the pot holds, 9 L."),
        (Measured.INTO_FERMENTER, 14.0, "14 L is more than the fermenter holds, 12 L."),
    ],
)
def test_what_cannot_be_is_told_with_its_limit_and_may_stay_all_the_same(doubt, what, value, why):
    found = doubt(what, value)
    assert found.is_impossible
    assert found.message.text.startswith(why)
    assert found.message.text.endswith("Read it again, or have it measured anyway.")
    assert found.reading.value == value
    assert found.anyway.text.startswith("Measured anyway")


# Without figures of its own: what would be read is that of the outlook, or of the line.
def test_a_packet_is_held_against_its_line_and_no_hop_has_more_than_three_tenths(porter, outlook):
    hop = porter.hops[0]
    known = hop.alpha.value

    def ask(value, typed=""):
        reading = Reading(Measured.ALPHA, value, By.PACKET, lines="hops", line_id=hop.line_id)
        return doubts_of(reading, outlook, porter, typed=typed)

    assert ask(1.1 * known) is None
    comma = ask(known / 10.0, f"{10.0 * known:.2f}")
    assert comma.slips[0].code == "comma"
    assert comma.slips[0].meant.value == pytest.approx(known)
    assert not comma.is_impossible
    beyond = ask(0.31)
    assert beyond.is_impossible
    assert beyond.message.text.startswith("No hop has 31 % of alpha acid; 30 % is the most.")
    assert ask(0.0).is_impossible
    assert not ask(0.30).is_impossible


def test_a_weight_is_held_against_its_line(porter, outlook):
    line = porter.fermentables[0]
    kg = line.amount.value

    def ask(value, line_id=line.line_id):
        lines = {"lines": "fermentables", "line_id": line_id}
        return doubts_of(Reading(Measured.WEIGHT, value, By.SCALE, **lines), outlook, porter)

    assert ask(1.1 * kg) is None
    assert ask(3.0 * kg) is not None
    assert ask(0.0).message.text.startswith("Nothing was weighed.")
    assert ask(3.0 * kg, line_id=999) is None  # of no line nothing is known


def test_a_text_that_is_no_reading_is_asked_about_if_a_slip_explains_it(porter, outlook):
    def ask(value, typed):
        return misread(
            Reading(Measured.ORIGINAL_GRAVITY, value, By.HYDROMETER), outlook, porter, typed
        )

    found = ask(46.0, "46")
    assert found.message.text == "“46” is no such reading."
    assert found.anyway is None
    assert found.slips[0].meant.value == pytest.approx(1.046)
    assert ask(1.046, "1.046") is None
    assert ask(1e6, "a million") is None


@pytest.mark.parametrize(
    ("value", "typed_text", "code"),
    [(1.474, "1.474", "imperial gallons"), (6700.0, "6700", "millilitres")],
)
def test_litres_that_were_read_in_other_units_are_known(doubt, value, typed_text, code):
    """An imperial gallon is 4.546 L (NIST SP 811)."""
    slips = doubt(Measured.BOIL_START_VOLUME, value, typed_text).slips
    meant = next(each.meant.value for each in slips if each.code == code)
    assert meant == pytest.approx(6.7, rel=0.001)


def test_what_cannot_be_begins_where_it_is_told(doubt, outlook):
    def impossible(what, value):
        found = doubt(what, value)
        return found is not None and found.is_impossible

    for what, least, most, nearly in (
        (Measured.ORIGINAL_GRAVITY, 0.980, 1.200, 0.001),
        (Measured.COOLED, -2.0, outlook.day.pot.boiling_c + 2.0, 0.1),
    ):
        assert not impossible(what, least)
        assert impossible(what, least - nearly)
        assert not impossible(what, most - nearly)
        assert impossible(what, most + nearly)
    assert not impossible(Measured.ORIGINAL_GRAVITY, 1.2)
    # A pot of 9 L and a bucket of 12 L may hold a twentieth more than is said of them.
    assert not impossible(Measured.BOIL_START_VOLUME, 9.44)
    assert impossible(Measured.BOIL_START_VOLUME, 9.46)
    assert not impossible(Measured.INTO_FERMENTER, 12.59)
    assert impossible(Measured.INTO_FERMENTER, 12.61)
    empty = "That is an empty vessel. Read it again, or have it measured anyway."
    assert doubt(Measured.INTO_FERMENTER, 0.0).message.text == empty
    assert doubt(Measured.COOLED, -3.0).message.text.startswith("At -3 °C it would be ice.")


def test_a_reading_is_doubted_from_three_and_a_half_deviations_on(doubt):
    """Of 1.046, 0.003 of the forecast, 0.002 of the instrument: 3.5/1.645 of 0.0036 is 0.0077."""
    assert doubt(Measured.ORIGINAL_GRAVITY, 1.0536) is None
    assert doubt(Measured.ORIGINAL_GRAVITY, 1.0538) is not None
    assert doubt(Measured.ORIGINAL_GRAVITY, 1.0384) is None
    assert doubt(Measured.ORIGINAL_GRAVITY, 1.0382) is not None
    # Cooled to 40 °C: what the brewer decides may be 16 °C otherwise, and 2 °C the thermometer.
    assert doubt(Measured.COOLED, 40.0 + 34.2) is None
    assert doubt(Measured.COOLED, 40.0 + 34.4) is not None


def test_no_more_than_three_slips_are_asked_about_and_no_meaning_twice(doubt):
    for what, value, typed_text, *_ in SLIPS:
        slips = doubt(what, value, typed_text).slips
        assert 1 <= len(slips) <= 3
        meant = [(each.meant.what, f"{each.meant.value:.3g}") for each in slips]
        if what is not Measured.ORIGINAL_GRAVITY and what is not Measured.BOIL_START_GRAVITY:
            assert len(set(meant)) == len(meant)
