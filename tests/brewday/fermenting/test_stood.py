"""Where a beer stands, rule by rule: two readings of a hydrometer, days apart, that agree.

Two to three days apart and within 0.001: common practice, no source; the other limits are
judgement and told in the module.
"""

import pytest

from designer.brewday.fermenting.course import BeerReading, Standing
from designer.brewday.fermenting.standing import Stood, Why, agree, stood
from designer.brewday.results import Range

ENDS = Range(1.012, 1.009, 1.015)
HIGH_BY_NOW = 1.030


def read(day, gravity, by_refractometer=False, half_width=0.002):
    return BeerReading(float(day), gravity, half_width, by_refractometer)


def at(*readings, most_left=0.001, high_by_now=HIGH_BY_NOW):
    found = stood([read(*each) for each in readings], ENDS, 1.050, most_left, high_by_now)
    return found.standing, found.why


@pytest.mark.parametrize(
    ("apart", "fell", "same"),
    [
        (3.0, 0.0, True),
        (3.0, 0.001, True),
        (3.0, 0.0012, False),
        (2.6, 0.001, True),
        (2.4, 0.001, False),
        (2.0, 0.0005, True),
        (2.0, 0.0007, False),
        (1.8, 0.0, False),
        (3.0, -0.001, True),
        (2.0, -0.001, True),
        (3.0, -0.0012, False),
    ],
)
def test_readings_agree_that_are_days_apart_and_hardly_differ(apart, fell, same):
    assert agree(read(10.0 + apart, 1.012 - fell), read(10.0, 1.012)) is same


@pytest.mark.parametrize(
    ("readings", "standing", "why"),
    [
        ([], Standing.NOT_READ, Why.PLAIN),
        ([(2, 1.046)], Standing.SLOW, Why.NOT_BEGUN),
        ([(2, 1.040)], Standing.SLOW, Why.PLAIN),
        ([(9, 1.0315)], Standing.FERMENTING, Why.PLAIN),
        ([(9, 1.0325)], Standing.SLOW, Why.PLAIN),
        ([(6, 1.020), (9, 1.019)], Standing.STUCK, Why.PLAIN),
        ([(6, 1.021), (9, 1.019)], Standing.FERMENTING, Why.PLAIN),
        ([(8, 1.019), (9, 1.019)], Standing.FERMENTING, Why.PLAIN),
        ([(9, 1.012)], Standing.NOT_SURE, Why.ONE_READING),
        ([(8, 1.012), (9, 1.012)], Standing.NOT_SURE, Why.TOO_EARLY),
        ([(6, 1.012), (9, 1.012)], Standing.DONE, Why.PLAIN),
        ([(6, 1.010), (9, 1.012)], Standing.NOT_SURE, Why.RISING),
        ([(6, 1.016), (9, 1.012)], Standing.FERMENTING, Why.PLAIN),
        ([(3, 1.016), (9, 1.012)], Standing.NOT_SURE, Why.PLAIN),
        ([(6, 1.0135), (9, 1.012)], Standing.NOT_SURE, Why.PLAIN),
        ([(9, 1.006)], Standing.NOT_SURE, Why.BELOW),
        ([(6, 1.006), (9, 1.006)], Standing.NOT_SURE, Why.BELOW),
        ([(2, 1.006), (9.5, 1.006)], Standing.DONE, Why.BELOW),
        ([(1.5, 1.012), (9.5, 1.006)], Standing.NOT_SURE, Why.BELOW),
    ],
)
def test_where_a_beer_stands_by_its_readings(readings, standing, why):
    assert at(*readings) == (standing, why)


def test_an_earlier_reading_that_agrees_counts_though_one_between_does_not():
    assert at((5, 1.012), (7, 1.0145), (9, 1.012))[0] is Standing.DONE
    found = stood([read(7, 1.0145), read(5, 1.012), read(9, 1.012)], ENDS, 1.05, 0.0, 1.03)
    assert (found.last.day, found.earlier.day) == (9.0, 5.0)


def test_a_beer_that_may_still_fall_by_more_than_a_reading_can_miss_is_not_done():
    both = (6, 1.012), (9, 1.012)
    assert at(*both, most_left=0.0016) == (Standing.NOT_SURE, Why.MAY_FALL)
    assert at(*both, most_left=0.0014) == (Standing.DONE, Why.PLAIN)


def test_a_beer_that_has_not_begun_is_late_only_above_what_is_usual_by_then():
    assert at((1, 1.049), high_by_now=1.048) == (Standing.FERMENTING, Why.NOT_BEGUN)
    assert at((1, 1.049), high_by_now=1.046) == (Standing.SLOW, Why.NOT_BEGUN)
    assert at((0, 1.050), (3, 1.049), high_by_now=1.048)[1] is Why.NOT_BEGUN


@pytest.mark.parametrize(
    ("gravity", "standing"),
    [(1.016, Standing.NOT_SURE), (1.020, Standing.FERMENTING), (1.032, Standing.NOT_SURE)],
)
def test_a_refractometer_tells_at_most_that_it_still_falls(gravity, standing):
    assert at((9, gravity, True)) == (standing, Why.BY_REFRACTOMETER)
    assert at((6, gravity, True), (9, gravity, True))[0] is standing


def test_a_refractometer_beside_a_hydrometer_of_the_day_before_says_nothing_more():
    both = (6, 1.012), (9, 1.012)
    assert at(*both, (10, 1.014, True)) == (Standing.DONE, Why.PLAIN)
    assert at(*both, (11, 1.014, True)) == (Standing.NOT_SURE, Why.BY_REFRACTOMETER)


def test_an_instrument_that_is_off_by_more_needs_more_to_tell_it_is_high_or_low():
    def by(half_width, gravity):
        readings = [read(day, gravity, half_width=half_width) for day in (1, 9)]
        return stood(readings, ENDS, 1.050, 0.0, HIGH_BY_NOW)

    assert by(0.002, 1.018).standing is Standing.STUCK
    assert by(0.004, 1.018).standing is Standing.DONE
    assert by(0.002, 1.006).is_low
    assert not by(0.004, 1.006).is_low
    assert by(0.001, 1.016).standing is Standing.DONE


def test_nothing_is_said_of_a_beer_that_was_not_read():
    assert stood([], ENDS, 1.05, 0.0, 1.03) == Stood(Standing.NOT_READ)
