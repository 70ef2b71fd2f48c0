"""Figures, clock times and dates: rounded as a kitchen reads them, never far from what is meant."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.sheet.clock import clock, date_text, day_text
from designer.sheet.figures import Figures, metric_mass, pieces, us_mass, us_volume
from designer.sheet.language import language
from designer.units import ShownUnits
from designer.units.days import read_day

ENGLISH, GERMAN, FRENCH = (language(code) for code in ("en", "de", "fr"))
# International avoirdupois pound and US gallon of 231 cubic inches: NIST Handbook 44, appendix C.
IN_KG = {"lb": 0.45359237, "oz": 0.45359237 / 16.0, "g": 0.001}
IN_L = {"gal": 3.785411784, "qt": 3.785411784 / 4.0, "fl oz": 3.785411784 / 128.0}


def _worth(text, units):
    """The sum of all figures of a text with their units."""
    found = re.findall(r"([\d.]+) (fl oz|[a-z]+)", text)
    assert found, text
    return sum(float(figure) * units[unit] for figure, unit in found)


@given(st.floats(0.002, 30.0))
def test_a_mass_in_pounds_and_ounces_is_within_one_percent(kg):
    # what is too little for ounces is in grams, to the tenth that a fine scale shows
    assert _worth(us_mass(kg), IN_KG) == pytest.approx(kg, rel=0.0105, abs=6e-5)


@given(st.floats(0.002, 30.0))
def test_a_mass_in_grams_and_kilograms_is_within_one_percent(kg):
    assert _worth(metric_mass(kg), {"kg": 1.0, **IN_KG}) == pytest.approx(kg, rel=0.0105, abs=6e-5)


def test_what_was_typed_in_pounds_is_weighed_in_round_kilograms():
    assert metric_mass(3.3 * 0.45359237) == "1.5 kg"
    assert metric_mass(2.25 * 0.45359237) == "1.02 kg"
    assert metric_mass(3.03) == "3.03 kg"


def test_what_is_bought_is_no_less_than_what_is_weighed_out():
    assert metric_mass(0.725 + 0.6) == "1.325 kg"


@pytest.mark.parametrize(
    ("kg", "shown"),
    # As coarse as one per cent allows: tenths, then twentieths, then hundredths.
    [(1.206, "1.2 kg"), (7.777, "7.8 kg"), (3.456, "3.45 kg"), (1.2345, "1.23 kg")],
)
def test_a_mass_is_as_coarse_as_one_percent_allows(kg, shown):
    assert metric_mass(kg) == shown


@given(st.floats(0.05, 60.0))
def test_a_volume_in_quarts_and_gallons_is_within_one_percent(litres):
    assert _worth(us_volume(litres), IN_L) == pytest.approx(litres, rel=0.0105)


@pytest.mark.parametrize(
    ("kg", "shown"),
    [
        (0.250, "8.8 oz"),
        (0.150, "5.3 oz"),
        (0.025, "0.88 oz"),
        (0.700, "1 lb 8.5 oz"),
        (0.500, "1 lb 1.5 oz"),
        (0.900, "2 lb"),
        (3.3 * 0.45359237, "3.3 lb"),
        (0.75 * 0.45359237 / 16.0, "0.75 oz"),
        (15.94 * 0.45359237 / 16.0, "15.9 oz"),
        (0.0004, "0.4 g"),
        (0.0, "0 oz"),
    ],
)
def test_a_kitchen_scale_can_show_the_mass_in_us_units(kg, shown):
    assert us_mass(kg) == shown


@pytest.mark.parametrize(
    ("litres", "shown"),
    [
        (6.5, "6.9 qt"),
        (9.0, "2.4 gal"),
        (10.0, "2.65 gal"),
        (3.785412, "1 gal"),
        (5.67812, "1.5 gal"),
        (20.0, "5.3 gal"),
        (0.3, "10.1 fl oz"),
    ],
)
def test_jugs_and_pots_are_marked_so_in_us_units(litres, shown):
    assert us_volume(litres) == shown


def test_figures_are_rounded_in_the_unit_that_is_shown():
    metric, us, both = (Figures(ShownUnits(name)) for name in ("metric", "us", "both"))
    assert metric.temperature((175.0 - 32.0) / 1.8) == "79 °C"
    assert us.temperature((175.0 - 32.0) / 1.8) == "175 °F"
    assert both.temperature((175.0 - 32.0) / 1.8) == "79 °C (175 °F)"
    assert metric.volume(7.3602) == "7.4 L"
    assert us.rough_mass(10.0) == "22 lb"
    assert metric.temperatures(16.0, 21.0) == "16 to 21 °C"
    assert [pieces(n) for n in (0.5, 1.25, 2.0, 0.3)] == ["½", "1 ¼", "2", "0.3"]


def test_figures_have_the_decimal_sign_of_the_language():
    for spoken in (GERMAN, FRENCH):
        figures = Figures(ShownUnits.BOTH, spoken)
        assert figures.volume(6.5) == "6,5 L (6,9 qt)"
        assert figures.gravity(1.052) == "1,052"
        assert figures.pressure(0.8) == "0,8 bar (12 psi)"


def test_clock_and_dates_are_written_plainly():
    assert clock(9 * 60, 0.4, ENGLISH) == "09:00"
    assert clock(9 * 60, 0.5, ENGLISH) == "09:01"
    assert clock(23 * 60, 60.0, ENGLISH) == "00:00 next day"
    assert clock(0, 3 * 1440.0, ENGLISH) == "00:00 3 days on"
    assert date_text(date(2026, 3, 28), ENGLISH) == "Sat 28 March 2026"
    assert day_text(date(2026, 2, 27), 2, ENGLISH) == "Day 2\nSun 1 Mar"
    assert day_text(date(9999, 12, 31), 2, ENGLISH) == "Day 2"
    assert day_text(None, 14, ENGLISH) == "Day 14"


def test_dates_are_written_as_the_language_has_them():
    assert date_text(date(2026, 3, 28), GERMAN) == "Sa, 28. März 2026"
    assert date_text(date(2026, 3, 28), FRENCH) == "sam 28 mars 2026"
    assert day_text(date(2026, 2, 27), 2, GERMAN) == "Tag 2\nSo, 1. März"
    assert day_text(date(2026, 2, 27), 2, FRENCH) == "Jour 2\ndim 1 mars"


def test_a_day_is_typed_as_year_month_and_day():
    assert read_day(" 2026-03-28 ") == date(2026, 3, 28)
    for typed in ("28.3.2026", "2026-02-30", "2026-3-1", "tomorrow", "", "0000-01-01", "20260328"):
        with pytest.raises(RefusedInputError, match="such as 2026-03-28"):
            read_day(typed)
