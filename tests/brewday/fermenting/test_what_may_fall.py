"""By how much a beer may still fall, the days of its band, and what slows it, case by case.

A quarter of the fall of a beer that nobody read, a point and a half, and 98 % that wild yeast
takes: judgement told in the modules.
"""

from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.fermenting.course import BeerReading, Standing, Warmth
from designer.brewday.fermenting.courses import SCORES, Expected, courses_of
from designer.brewday.fermenting.fermenting import (
    _days,
    _high_by,
    _may_fall,
    _over,
    _range,
    _still_to_fall,
    course_of,
)
from designer.brewday.fermenting.slow_causes import what_slows
from designer.brewday.fermenting.standing import Stood, Why
from designer.brewday.fermenting.warmths import Stretch
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Range
from designer.recipe.quantity import Quantity

ENDS = Range(1.012, 1.009, 1.015)
LAST = BeerReading(9.0, 1.013, 0.002)
EXPECTED = Expected(1.050, 0.0, (1.01, 1.011, 1.012, 1.013, 1.014), (Stretch(0.0, 20.0),), 1.0, 1.0)


def may_fall(standing, left, last=LAST, is_low=False):
    return _may_fall(Stood(standing, Why.PLAIN, last, None, is_low), left, ENDS, 1.050)


@pytest.mark.parametrize(
    ("standing", "left", "last", "is_low", "fall"),
    [
        (Standing.DONE, (0.0002, 0.0010), LAST, False, (0.0002, 0.0010)),
        (Standing.NOT_READ, (0.0, 0.002), None, False, (0.0, 0.25 * 0.041)),
        (Standing.NOT_READ, (0.0, 0.030), None, False, (0.0, 0.030)),
        (Standing.NOT_SURE, (0.0, 0.001), LAST, False, (0.0, 0.004)),
        (Standing.FERMENTING, (0.001, 0.006), LAST, False, (0.001, 0.006)),
        (Standing.NOT_SURE, (0.0, 0.0), BeerReading(9.0, 1.010, 0.002), False, (0.0, 0.002)),
        (Standing.NOT_SURE, (0.0, 0.0), BeerReading(9.0, 1.005, 0.002), True, (0.0, 0.004)),
    ],
)
def test_it_may_fall_to_the_end_of_the_forecast_unless_it_is_done(
    standing, left, last, is_low, fall
):
    assert may_fall(standing, left, last, is_low) == pytest.approx(fall)


def test_a_band_is_fine_while_the_gravity_falls_and_has_an_end():
    days = _days(21)
    assert days[:6] == (0.0, 0.25, 0.5, 0.75, 1.0, 1.25)
    assert days[56:] == tuple(map(float, range(14, 22)))
    assert _days(3)[-2:] == (2.75, 3.0)
    assert _days(500)[-1] == 90.0


def straight(**scores):
    rows = [np.array(scores.get(each, [0.0])) for each in SCORES]
    many = max(each.size for each in rows)
    return courses_of(EXPECTED, np.array([np.broadcast_to(each, many) for each in rows]))


def test_what_is_left_to_fall_and_when_it_is_over_are_those_of_the_courses():
    one = straight()
    left = float(one.gravity_at([4.0])[0, 0] - one.end[0])
    assert _still_to_fall(one, 4.0) == pytest.approx((left, left))
    days = _days(30)
    over, surely = _over(one, days)
    assert over == surely
    earlier = days[days.index(over) - 1]
    assert one.gravity_at([over])[0, 0] - one.end[0] <= 0.001
    assert one.gravity_at([earlier])[0, 0] - one.end[0] > 0.001
    assert _over(one, (0.0, 1.0)) == (1.0, 1.0)
    many = straight(speed=np.linspace(-2.0, 2.0, 101))
    lefts = many.gravity_at([4.0])[:, 0] - many.end
    assert _still_to_fall(many, 4.0) == pytest.approx(tuple(np.quantile(lefts, (0.05, 0.95))))
    assert _over(many, days)[1] > _over(many, days)[0]
    on_day = np.quantile(many.gravity_at([4.0]), 0.95)
    assert _high_by(many, [BeerReading(1.0, 1.05, 0.0), BeerReading(4.0, 1.02, 0.0)]) == on_day
    assert _high_by(many, []) == 1.0


def test_a_range_is_from_five_to_ninety_five_hundredths():
    found = _range(np.arange(101.0))
    assert (found.low, found.value, found.middle, found.high) == (5.0, 50.0, 50.0, 95.0)


def test_a_course_begins_at_the_forecast_where_no_gravity_is_told(harbour_porter):
    outlook = look_ahead(harbour_porter)
    first = course_of(harbour_porter, outlook)[0].gravity
    assert first.value == pytest.approx(outlook.forecasts["original_gravity"].value, abs=3e-4)
    assert course_of(harbour_porter, outlook, until_day=30)[-1].day == 30.0


def test_what_slows_a_beer_is_its_warmth_and_its_yeast(harbour_porter):
    outlook = look_ahead(harbour_porter, ranges=False)
    wanted = float(outlook.day.beer.yeast_wanted_g)

    def slows(warmths=(), lowest=None, grams=11.0):
        amount = Quantity(grams, f"{grams} g", unit="g")
        low = None if lowest is None else Quantity(lowest, f"{lowest} °C", unit="°C")
        yeast = replace(harbour_porter.yeast, amount=amount, lowest=low)
        told = what_slows(replace(harbour_porter, yeast=yeast), outlook, warmths)
        return [each.text for each in told]

    cold = (Warmth(5.0, 13.0), Warmth(0.0, 20.0))
    assert slows()[0] == "Measure how warm the beer is: cold yeast is slow."
    assert slows(cold)[0] == "It is at 13 °C: see whether that suits its yeast."
    assert slows(cold, 16.0)[0] == "It is at 13 °C; this yeast works from 16 °C on."
    assert slows(cold, 13.0)[0] == "It is at 13 °C, warm enough for its yeast."
    assert slows()[1] == "Old or tired yeast is slow: a fresh packet helps."
    assert "of yeast went in where" in slows(grams=0.3 * wanted)[1]
