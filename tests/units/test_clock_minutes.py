"""Clock times as minutes after midnight."""

import pytest

from designer.units.clock import minutes_of, time_after


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("00:00", 0), ("9:05", 545), (" 09.30 ", 570), ("18h30", 1110), ("23:59", 1439)],
)
def test_a_time_of_the_day_is_minutes_after_midnight(text, minutes):
    assert minutes_of(text) == minutes


@pytest.mark.parametrize("text", ["24:00", "9:60", "9", "", "nine", "9:5", "109:00", "9:00 am"])
def test_what_is_no_time_of_the_24_hour_clock_is_none(text):
    assert minutes_of(text) is None


def test_time_passes_midnight_into_the_next_days():
    assert time_after(9 * 60, 25) == (0, "09:25")
    assert time_after(23 * 60, 60) == (1, "00:00")
    assert time_after(0, 3 * 1440 + 1) == (3, "00:01")


def test_half_a_minute_is_rounded_up_and_less_is_not():
    assert time_after(540, 0.49) == (0, "09:00")
    assert time_after(540, 0.5) == (0, "09:01")
    assert time_after(1439, 0.5) == (1, "00:00")
