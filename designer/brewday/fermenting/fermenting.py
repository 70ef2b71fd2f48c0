"""The beer in the fermenter: the band it falls in, where it stands, what of it is known.

`may_fall` is told on the 95 % end, for bottles are judged by it. Unless a beer is done, the yeast
may yet bring it to the lower end of the forecast, however long it stood still.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from designer.brewday.fermenting.beer_steps import steps_of
from designer.brewday.fermenting.beer_words import advice_of, title_of, words_of
from designer.brewday.fermenting.course import (
    BeerReading,
    CoursePoint,
    Fermenting,
    Standing,
    Warmth,
)
from designer.brewday.fermenting.course_doubts import LITTLE_LEFT_SG, STRONGEST_ATTENUATION
from designer.brewday.fermenting.courses import Courses, as_it_should_go, expected_of, forecast_end
from designer.brewday.fermenting.knowing import after_readings, before_readings
from designer.brewday.fermenting.slow_causes import what_slows
from designer.brewday.fermenting.standing import Stood, stood
from designer.brewday.fermenting.warmths import warmest_since
from designer.brewday.results import Outlook, Range
from designer.recipe.document import Recipe
from designer.wort.density import plato_from_gravity
from designer.wort.fermentation import alcohol_by_volume, kcal_from_extracts, real_extract

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

BAND = (0.05, 0.5, 0.95)
LEAST_SHOWN_DAYS, SHOWN_BEYOND_DAYS = 21, 4
MOST_SHOWN_DAYS = 90
UNSURE_FALL_SG = 0.002
"""A beer that is not called done may fall by as much as one reading may be off, at the least."""
UNREAD_FALL_SHARE = 0.25
"""Of a beer that nobody has read a quarter of the fall may be left: one in 20 sticks high."""
_POINTS_A_DAY = 4
_FINE_DAYS = 14
RDF_PER_EXTRACT = 0.005161
"""Real attenuation is of the extract by weight of beer: ASBC Beer-6 (quoted)."""


def course_of(
    recipe: Recipe,
    outlook: Outlook,
    readings: Sequence[BeerReading] = (),
    warmths: Sequence[Warmth] = (),
    original: float | None = None,
    until_day: float = LEAST_SHOWN_DAYS,
) -> tuple[CoursePoint, ...]:
    """Return the 5 to 95 % band of the gravity in time, as it is known after readings."""
    og = outlook.forecasts["original_gravity"].value if original is None else original
    courses = after_readings(expected_of(recipe, outlook, warmths, og), readings)
    return _band(courses, _days(until_day))


def fermenting(
    recipe: Recipe,
    outlook: Outlook,
    readings: Sequence[BeerReading],
    warmths: Sequence[Warmth],
    now_day: float,
    original: float,
    original_half_width: float | None = None,
) -> Fermenting:
    """Return what is known of a beer so many days after pitching.

    `original` is its original gravity as far as that is known, with half the 5 to 95 % range of
    that; of the forecast where it is left out.
    """
    now_day = max(now_day, 0.0)
    in_order = sorted(readings, key=lambda each: each.day)
    expected = expected_of(recipe, outlook, warmths, original, original_half_width)
    known = after_readings(expected, in_order)
    forecast = before_readings(expected)
    usual = before_readings(as_it_should_go(expected, recipe))
    ends = forecast_end(outlook, original)
    days = _days(max(LEAST_SHOWN_DAYS, now_day + SHOWN_BEYOND_DAYS))
    left = _still_to_fall(known, now_day)
    found = stood(in_order, ends, original, left[1], _high_by(usual, in_order))
    over_day, surely_over = _over(known, days)
    return Fermenting(
        _band(known, days),
        _range(known.end),
        found.standing,
        title_of(found),
        words_of(found, ends),
        **_figures(recipe, original, found),
        may_fall=_may_fall(found, left, ends, original),
        steps=steps_of(found, now_day, over_day, recipe.process.package),
        advice=advice_of(found, what_slows(recipe, outlook, warmths)),
        warmest_since_done_c=warmest_since(warmths, min(surely_over, now_day), now_day),
        forecast=_band(forecast, days),
        forecast_end=ends,
    )


def _days(until_day: float) -> tuple[float, ...]:
    """Return the days of a band: finer while the gravity falls."""
    last = min(round(until_day), MOST_SHOWN_DAYS)
    fine = min(last, _FINE_DAYS)
    first = [at / _POINTS_A_DAY for at in range(fine * _POINTS_A_DAY)]
    return (*first, *map(float, range(fine, last + 1)))


def _band(courses: Courses, days: Sequence[float]) -> tuple[CoursePoint, ...]:
    import numpy as np

    low, middle, high = np.quantile(courses.gravity_at(days), BAND, axis=0).tolist()
    return tuple(
        CoursePoint(day, Range(mid, least, most, middle=mid))
        for day, least, mid, most in zip(days, low, middle, high, strict=True)
    )


def _range(of_courses: Array) -> Range:
    import numpy as np

    low, middle, high = np.quantile(of_courses, BAND).tolist()
    return Range(middle, low, high, middle=middle)


def _still_to_fall(courses: Courses, day: float) -> tuple[float, float]:
    """Return what is left to fall from a day on, 5 and 95 %."""
    import numpy as np

    left = courses.gravity_at([day])[:, 0] - courses.end
    least, most = np.quantile(left, (BAND[0], BAND[-1])).tolist()
    return max(least, 0.0), max(most, 0.0)


def _high_by(usual: Courses, readings: Sequence[BeerReading]) -> float:
    """Return the upper end of the band of courses on the day of the last reading."""
    import numpy as np

    if not readings:
        return 1.0
    return float(np.quantile(usual.gravity_at([readings[-1].day]), BAND[-1]))


def _over(courses: Courses, days: Sequence[float]) -> tuple[float, float]:
    """Return the days by which little is left to fall: as likely as not, and on the 95 % end."""
    import numpy as np

    left = courses.gravity_at(days) - courses.end[:, None]
    middle, most = np.quantile(left, BAND[1:], axis=0).tolist()

    def first(of: list[float]) -> float:
        within = (day for day, each in zip(days, of, strict=True) if each <= LITTLE_LEFT_SG)
        return next(within, days[-1])

    return first(middle), first(most)


def _may_fall(
    found: Stood, left: tuple[float, float], ends: Range, original: float
) -> tuple[float, float]:
    """Return by how much the gravity may still fall, least and most."""
    least, most = left
    if found.standing is Standing.DONE:
        return least, max(least, most)
    if found.last is None:
        return least, max(most, UNREAD_FALL_SHARE * (original - ends.low))
    lowest = ends.low
    if found.is_low:
        lowest = original - STRONGEST_ATTENUATION * (original - 1.0)
    most = max(most, found.last.gravity - lowest, UNSURE_FALL_SG)
    return min(least, most), most


def _figures(recipe: Recipe, original: float, found: Stood) -> dict[str, float]:
    """Return what the beer is by its last reading."""
    if found.last is None:
        return {}
    gravity = found.last.gravity
    extracts = float(plato_from_gravity(original)), float(plato_from_gravity(gravity))
    if extracts[0] <= 0.0:
        return {}
    left = float(real_extract(*extracts))
    by_weight = 1.0 - RDF_PER_EXTRACT * left
    return {
        "abv_percent": max(
            float(alcohol_by_volume(original, gravity, recipe.methods.alcohol, extracts)), 0.0
        ),
        "apparent_attenuation": (extracts[0] - extracts[1]) / extracts[0],
        "real_attenuation": (extracts[0] - left) / extracts[0] / by_weight,
        "kcal_per_100ml": float(kcal_from_extracts(*extracts, gravity)),
    }
