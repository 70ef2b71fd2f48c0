"""What is said of fermenting beer and what is done on which day, for each place where it stands.

Readings three days apart, two weeks in bottles, a glass fermented warm for two days: common
practice, no source.
"""

import pytest

from designer.brewday.fermenting.beer_steps import steps_of
from designer.brewday.fermenting.beer_words import (
    advice_of,
    points_of,
    stuck_advice,
    title_of,
    words_of,
)
from designer.brewday.fermenting.course import BeerReading, Standing
from designer.brewday.fermenting.standing import Stood, Why
from designer.brewday.results import Range
from designer.recipe.choices import Package
from designer.recipe.message import say

ENDS = Range(1.012, 1.009, 1.015)
LAST, EARLIER = BeerReading(9.4, 1.013, 0.002), BeerReading(5.6, 1.014, 0.002)
BY_DROP = BeerReading(9.4, 1.013, 0.002, by_refractometer=True)
BOTTLES, KEG = Package.BOTTLES, Package.KEG


def stands(standing, why=Why.PLAIN, earlier=EARLIER, last=LAST, **more):
    return Stood(standing, why, last, earlier, **more)


SAID = [
    (Stood(Standing.NOT_READ), "Not read yet", "Nothing was read since the yeast went in."),
    (
        stands(Standing.FERMENTING),
        "Still fermenting",
        "1.014 on day 6, 1.013 on day 9: it still falls. It is expected to end at 1.009 to 1.015.",
    ),
    (
        stands(Standing.NOT_SURE, Why.ONE_READING, None),
        "Not yet sure",
        "1.013 on day 9: it may be done. Done when two readings 3 days apart",
    ),
    (stands(Standing.NOT_SURE, Why.MAY_FALL), "Not yet sure", "nearly the same, but it may still"),
    (stands(Standing.DONE), "Done", "both readings agree within 0.001, and it ended where"),
    (stands(Standing.DONE, Why.BELOW), "Done", "lower than the 1.009 to 1.015 that was expected."),
    (stands(Standing.NOT_SURE, Why.BELOW), "Not yet sure", "Wild yeast ferments on for weeks"),
    (stands(Standing.SLOW), "Slow", "higher than expected by now."),
    (stands(Standing.STUCK), "Stuck", "it stopped above the 1.009 to 1.015 that was expected."),
    (stands(Standing.NOT_SURE, Why.RISING), "Not yet sure", "beer does not rise."),
    (stands(Standing.SLOW, Why.NOT_BEGUN), "Not begun yet", "by now it should have fallen."),
    (stands(Standing.FERMENTING, Why.NOT_BEGUN), "Not begun yet", "it is early yet."),
    (
        stands(Standing.FERMENTING, Why.BY_REFRACTOMETER, None, BY_DROP),
        "Read with a hydrometer",
        "by refractometer: it still falls.",
    ),
    (
        stands(Standing.NOT_SURE, Why.BY_REFRACTOMETER, None, BY_DROP),
        "Read with a hydrometer",
        "off by 0.002 at best",
    ),
]


@pytest.mark.parametrize(("found", "title", "words"), SAID)
def test_where_it_stands_is_said_with_the_readings(found, title, words):
    assert title_of(found).text == title
    assert words in words_of(found, ENDS).text


def told(found, *behind):
    return [each.text for each in advice_of(found, behind)]


def test_what_slows_a_beer_is_told_first_while_it_is_slow_and_last_once_it_is_stuck():
    behind = say("a-test", "Too cold.")
    slow, stuck = (told(stands(each), behind) for each in (Standing.SLOW, Standing.STUCK))
    assert slow[0] == "Too cold."
    assert slow[1].startswith("Pour the sample between two glasses")
    assert "come to 20 °C" in slow[1]
    assert "2 °C to 3 °C warmer" in slow[2]
    assert slow[3] == "Never bottle on one reading."
    assert stuck[2].startswith("Ferment 0.2 L of it by itself")
    assert "at 25 °C for 2 days" in stuck[2]
    assert stuck[3:] == ["Too cold.", "Never bottle on one reading."]
    assert [each.text for each in stuck_advice()] == stuck[:3]


def test_a_beer_that_has_not_begun_is_warmed_and_no_sample_shaken():
    (warmer, never) = told(stands(Standing.SLOW, Why.NOT_BEGUN))
    assert warmer.startswith("Let the beer get")
    assert never == "Never bottle on one reading."


def test_done_beer_needs_no_advice_but_where_it_is_low():
    assert told(stands(Standing.DONE)) == []
    (low,) = told(stands(Standing.DONE, Why.BELOW, is_low=True))
    assert low.startswith("Lower than expected comes of wild yeast")
    by_drop = told(stands(Standing.NOT_SURE, Why.BY_REFRACTOMETER, None, BY_DROP))
    assert by_drop[0] == "Never bottle on refractometer readings alone."


def done_on(found, now=10.0, over=11.0, package=BOTTLES):
    return [(day, str(what)) for day, what in steps_of(found, now, over, package)]


AGAIN = "read again, gas shaken out"


def test_what_is_done_on_which_day():
    sample = "take a sample, shake the gas out, read"
    unread = Stood(Standing.NOT_READ)
    assert done_on(unread) == [(11.0, sample), (14.0, AGAIN)]
    assert done_on(unread, over=8.0) == [(10.0, sample), (13.0, AGAIN)]
    taste = "chill one bottle and taste"
    assert done_on(stands(Standing.DONE)) == [(10.0, "bottle"), (24.0, taste)]
    assert done_on(stands(Standing.DONE), package=KEG) == [(10.0, "fill the keg")]
    warm = "warm it a little, swirl"
    assert done_on(stands(Standing.SLOW)) == [(10.0, warm), (13.0, AGAIN)]
    stuck = done_on(stands(Standing.STUCK))
    assert [day for day, _ in stuck] == [10.0, 10.0, 12.0, 13.0]
    assert stuck[1][1] == "set a glass of it to ferment warm"
    falls = stands(Standing.FERMENTING)
    assert done_on(falls) == [(11.0, AGAIN), (14.0, AGAIN)]
    assert done_on(falls, over=5.0) == [(10.4, AGAIN), (13.4, AGAIN)]
    assert done_on(falls, over=5.0, now=12.0) == [(12.0, AGAIN), (15.0, AGAIN)]
    by_drop = stands(Standing.NOT_SURE, Why.BY_REFRACTOMETER, None, BY_DROP)
    assert done_on(by_drop) == [(10.0, "read with a hydrometer"), (13.0, AGAIN)]


def test_a_beer_that_may_be_done_is_packaged_if_the_next_reading_is_the_same():
    sure = stands(Standing.NOT_SURE, Why.ONE_READING, None)
    again, bottle, taste = done_on(sure)
    assert again == (12.4, AGAIN)
    assert bottle == (12.4, "bottle, if it reads 1.012 or 1.013")
    assert taste[0] == pytest.approx(26.4)
    assert done_on(sure, package=KEG)[1:] == [(12.4, "fill the keg, if it reads 1.012 or 1.013")]
    assert done_on(sure, now=20.0)[0][0] == 20.0
    low = stands(Standing.NOT_SURE, Why.BELOW, is_low=True)
    assert done_on(low)[0][0] == pytest.approx(16.4)


@pytest.mark.parametrize(
    ("may_fall", "points"),
    [
        ((0.0, 0.0), (0, 0)),
        ((0.0008, 0.0012), (1, 1)),
        ((0.0007, 0.0013), (0, 2)),
        ((0.0031, 0.0062), (3, 6)),
        ((0.0, 0.0002), (0, 0)),
    ],
)
def test_points_that_may_fall_are_whole_ones_rounded_outwards(may_fall, points):
    assert points_of(may_fall) == points
