"""Where a beer stands by its readings: done and stuck take two, and a refractometer says neither.

Two readings two to three days apart: common practice, no source. What to do about a beer that
stopped high, and how often it does: judgement.
"""

from dataclasses import replace

import pytest

from designer.brewday.fermenting.course import BeerReading, Standing, Warmth
from designer.brewday.fermenting.fermenting import fermenting
from designer.brewday.outlook import look_ahead
from designer.recipe.choices import Package
from designer.recipe.quantity import Quantity

KEPT = (Warmth(0.0, 19.0), Warmth(3.0, 21.0), Warmth(6.0, 20.0))


@pytest.fixture
def porter(harbour_porter):
    """A beer of 1.046 in the bucket: what is known of it after readings."""
    outlook = look_ahead(harbour_porter)

    def known(*read, now=None, recipe=harbour_porter, warmths=KEPT, original=1.046, by=False):
        readings = [BeerReading(float(day), sg, 0.002, by) for day, sg in read]
        now = read[-1][0] if now is None else now
        return fermenting(recipe, outlook, readings, warmths, float(now), original)

    return known


def said(found):
    return " ".join(map(str, (found.title, found.words, *found.advice)))


def test_a_beer_that_nobody_has_read_is_not_called_done_however_long_it_stood(porter):
    found = porter(now=40)
    assert found.standing is Standing.NOT_READ
    assert found.abv_percent is None
    assert found.may_fall[1] > 0.005
    assert next(str(each) for _, each in found.steps).startswith("take a sample")


def test_two_equal_readings_three_days_apart_are_done(porter):
    found = porter((9, 1.013), (12, 1.013))
    assert found.standing is Standing.DONE
    assert 0.0 <= found.may_fall[0] <= found.may_fall[1] < 0.0015
    assert [(day, str(each)) for day, each in found.steps] == [
        (12.0, "bottle"),
        (26.0, "chill one bottle and taste"),
    ]


def test_one_reading_is_never_enough(porter):
    found = porter((15, 1.013))
    assert found.standing is Standing.NOT_SURE
    assert found.may_fall[1] >= 0.002
    assert "Never bottle on one reading." in said(found)


def test_two_readings_on_one_day_are_one(porter):
    assert porter((12, 1.013), (12.3, 1.013)).standing is Standing.NOT_SURE


def test_a_beer_that_fell_slowly_until_today_may_fall_on(porter):
    found = porter((0, 1.046), (3, 1.027), (6, 1.017), (9, 1.014), (11, 1.013))
    assert found.standing is Standing.NOT_SURE
    assert 0.0015 < found.may_fall[1] < 0.0055
    again, bottle, taste = found.steps
    assert again[0] == bottle[0] == pytest.approx(14.0)
    assert "1.012 or 1.013" in str(bottle[1])
    assert taste[0] == pytest.approx(28.0)


def test_a_point_lost_in_two_days_is_no_agreement_in_three_it_is(porter):
    assert porter((14, 1.013), (16, 1.012)).standing is Standing.NOT_SURE
    assert porter((14, 1.013), (16, 1.013)).standing is Standing.DONE
    assert porter((14, 1.013), (17, 1.012)).standing is Standing.DONE
    assert porter((14, 1.013), (17, 1.0115)).standing is Standing.NOT_SURE


def test_a_beer_still_falling_is_fermenting_and_read_again_towards_its_end(porter):
    found = porter((0, 1.046), (3, 1.027))
    assert found.standing is Standing.FERMENTING
    assert found.steps[0][0] > 4.0


@pytest.mark.parametrize(("first", "second"), [(1.022, 1.022), (1.025, 1.0245), (1.019, 1.019)])
def test_two_equal_readings_above_what_the_yeast_leaves_are_stuck(porter, first, second):
    found = porter((8, first), (11, second))
    assert found.standing is Standing.STUCK
    assert found.may_fall[1] > 0.006
    words = said(found)
    for each in ("Pour the sample between two glasses", "20 °C", "warmer", "0.2 L", "25 °C"):
        assert each in words
    assert [day for day, _ in found.steps] == [11.0, 11.0, 13.0, 14.0]


def test_a_beer_behind_the_forecast_is_slow_until_a_second_reading(porter):
    found = porter((8, 1.022))
    assert found.standing is Standing.SLOW
    assert "temperature, the yeast and how much" in said(found)


def test_what_is_known_to_slow_a_beer_is_named(porter, harbour_porter):
    from_16 = replace(harbour_porter.yeast, lowest=Quantity(16.0, "16 °C", unit="°C"))
    little = replace(from_16, amount=Quantity(2.0, "2 g", unit="g"))
    cold = (Warmth(0.0, 13.0),)
    found = porter((16, 1.022), warmths=cold, recipe=replace(harbour_porter, yeast=little))
    assert found.standing is Standing.SLOW
    words = said(found)
    assert "It is at 13 °C; this yeast works from 16 °C on." in words
    assert "2 g of yeast went in where" in words
    assert "Measure how warm the beer is" in said(porter((9, 1.024), warmths=()))


def test_equal_readings_before_it_begins_are_no_stuck_beer(porter):
    found = porter((0, 1.046), (2, 1.045))
    assert found.standing in (Standing.FERMENTING, Standing.SLOW)
    assert str(found.title) == "Not begun yet"


def test_a_refractometer_alone_never_says_that_it_is_done_or_stuck(porter):
    for gravity in (1.008, 1.012, 1.020):
        found = porter((12, gravity), (15, gravity), by=True)
        assert found.standing is Standing.NOT_SURE
        assert str(found.title) == "Read with a hydrometer"
        assert found.may_fall[1] >= 0.002


def test_a_beer_far_below_the_forecast_has_to_agree_for_a_week(porter):
    found = porter((12, 1.005), (15, 1.005))
    assert found.standing is Standing.NOT_SURE
    assert "Wild yeast" in said(found)
    assert found.may_fall[1] > 0.003
    later = porter((12, 1.005), (15, 1.005), (19.5, 1.005))
    assert later.standing is Standing.DONE
    assert "lower than" in str(later.words)


def test_a_reading_that_rises_is_read_again(porter):
    found = porter((9, 1.010), (12, 1.014))
    assert found.standing is Standing.NOT_SURE
    assert "does not rise" in said(found)


def test_a_keg_is_filled_and_not_tasted_from_a_bottle(porter, harbour_porter):
    process = replace(harbour_porter.process, package=Package.KEG)
    found = porter((9, 1.013), (12, 1.013), recipe=replace(harbour_porter, process=process))
    assert [str(each) for _, each in found.steps] == ["fill the keg"]


def test_the_warmest_since_its_end_is_what_was_noted_since(porter):
    noted = (*KEPT, Warmth(10.0, 17.0), Warmth(20.0, 18.5))
    done = ((16, 1.013), (21, 1.013))
    assert porter(*done, warmths=noted).warmest_since_done_c == 18.5
    assert porter(*done, warmths=()).warmest_since_done_c is None
    assert porter(*done, warmths=(Warmth(0.0, 22.0),)).warmest_since_done_c is None


def test_what_may_fall_is_never_less_than_nothing(porter):
    for gravity in (0.999, 1.006, 1.013, 1.030, 1.046, 1.050):
        least, most = porter((10, gravity), (13, gravity)).may_fall
        assert 0.0 <= least <= most
