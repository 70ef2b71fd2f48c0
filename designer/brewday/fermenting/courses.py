"""Courses that a fermentation may take: a few hundred curves of gravity in time.

A course is a function of standard normal scores, one for each doubt, so that readings can tell of
the scores (`knowing.py`). The share that has fermented at a time t is, with middle m, pace p and
shape s, (1 + s exp(-(t - m)/p)) ** (-1/s), less what that would be at pitching; a part of it
follows later and slower. The time is that of a beer at 20 °C: a cold day counts for less.

Source of the curve: see `course_doubts`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from designer.brewday.doubts import drawn_at
from designer.brewday.fermenting.course import Warmth
from designer.brewday.fermenting.course_doubts import (
    ENOUGH_PITCHED,
    LEAST_PITCHED,
    LITTLE_YEAST_LATER,
    LITTLE_YEAST_SLOWER,
    MIDDLE_DAY,
    MOST_ORIGINAL_SG,
    MOST_PITCHED,
    OFF_CURVE_SHARE,
    PACE_DAYS,
    REFERENCE_C,
    SHAPE,
    SLOW_SHARE,
    SLOW_TIMES,
    SPEED,
    TEN_DEGREES,
    UNKNOWN_ENDS_SG,
    UNNOTED_WARMTH_C,
    WARMTH_C,
)
from designer.brewday.fermenting.warmths import Stretch, stretches
from designer.brewday.results import Outlook, Range
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.brewday.yeast_doubts import pitched_dry_g
from designer.recipe.document import Recipe
from designer.recipe.fields import number, number_or_none

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SCORES = (
    "speed", "middle", "pace", "shape", "slow share", "slow times", "ten degrees", "thermometer",
    "end", "original", "bump", "hydrometer", "refractometer",
)  # fmt: skip
_QUARTER = 0.6744897501960817
"""Standard deviations from the middle of a normal range to its third quartile."""


@dataclass(frozen=True, slots=True)
class Expected:
    """What a fermentation is expected from: the wort, its end, its warmth, its yeast.

    `ends` are the 5, 25, 50, 75 and 95 % points of the final gravity, `pitched` the yeast pitched
    over that wanted.
    """

    original: float
    original_half_width: float
    ends: tuple[float, float, float, float, float]
    warmth: tuple[Stretch, ...]
    warmth_half_width_c: float
    pitched: float


@dataclass(frozen=True, slots=True)
class Courses:
    """Some courses, an entry each: what gravity they begin and end with, and their curves."""

    expected: Expected
    original: Array
    end: Array
    middle: Array
    pace: Array
    shape: Array
    slow_share: Array
    slow_times: Array
    slopes: Array
    """Degrees of warmth into natural logarithms of the speed."""
    warmer_c: Array
    bump: Array
    """Share of the fall by which it is off the curve half-way."""
    hydrometer: Array
    """Standard normal scores of what the hydrometer shows too much."""
    refractometer: Array

    def gravity_at(self, days: Sequence[float]) -> Array:
        """Return the gravity on each of these days after pitching: a course a row."""
        left = 1.0 - self.fermented_at(days)
        bumped = left + 4.0 * self.bump[:, None] * left * (1.0 - left)
        found: Array = self.end[:, None] + (self.original - self.end)[:, None] * bumped
        return found

    def fermented_at(self, days: Sequence[float]) -> Array:
        """Return the share of the whole fall that has fermented, 0 to 1: a course a row."""
        times, start = self._times(days), self._times([0.0])
        slow_pace = self.pace * self.slow_times
        slow_middle = self.middle + slow_pace / 2.0
        fast = _share(times, start, self.middle, self.pace, self.shape)
        slow = _share(times, start, slow_middle, slow_pace, self.shape)
        share = self.slow_share[:, None]
        found: Array = fast + share * (slow - fast)
        return found

    def _times(self, days: Sequence[float]) -> Array:
        """Return the days at 20 °C that these days count for."""
        import numpy as np

        told = np.asarray(days, dtype=float)
        begins = np.array([each.day for each in self.expected.warmth])
        ends = np.append(begins[1:], np.inf)
        lasts = np.clip(told[None, :], begins[:, None], ends[:, None]) - begins[:, None]
        warmth = np.array([each.temp_c for each in self.expected.warmth])
        above = warmth[None, :] + self.warmer_c[:, None] - REFERENCE_C
        found: Array = np.exp(self.slopes[:, None] * above) @ lasts
        return found


def _share(times: Array, start: Array, middle: Array, pace: Array, shape: Array) -> Array:
    """Return the share of a curve that is past since the start, 0 to 1."""
    import numpy as np

    def curve(at: Array) -> Array:
        late = np.exp(np.minimum((middle[:, None] - at) / pace[:, None], 60.0))
        found: Array = np.exp(-np.log1p(shape[:, None] * late) / shape[:, None])
        return found

    at_start = curve(start)
    found: Array = (curve(times) - at_start) / (1.0 - at_start)
    return found


def expected_of(
    recipe: Recipe,
    outlook: Outlook,
    warmths: Sequence[Warmth],
    original: float,
    original_half_width: float | None = None,
) -> Expected:
    """Return what a recipe's fermentation is expected from, its wort having this gravity."""
    of_wort = outlook.forecasts["original_gravity"]
    half_width = original_half_width
    if half_width is None:
        half_width = (of_wort.high - of_wort.low) / 2.0
    usual_c = number(recipe.process, "pitch_temperature")
    return Expected(
        original,
        min(half_width, MOST_ORIGINAL_SG),
        _ends(outlook.forecasts["final_gravity"], _wort_before(of_wort, original), original),
        stretches(warmths, usual_c),
        WARMTH_C if warmths else UNNOTED_WARMTH_C,
        _pitched(recipe, outlook),
    )


def as_it_should_go(expected: Expected, recipe: Recipe) -> Expected:
    """Return what is expected of enough yeast as warm as the recipe and its yeast want it."""
    usual_c = number(recipe.process, "pitch_temperature")
    lowest = number_or_none(recipe.yeast, "lowest")
    warm_c = usual_c if lowest is None else max(usual_c, lowest)
    return replace(
        expected, warmth=(Stretch(0.0, warm_c),), pitched=max(expected.pitched, ENOUGH_PITCHED)
    )


def forecast_end(outlook: Outlook, original: float) -> Range:
    """Return where a beer is expected to end whose wort had this gravity."""
    found = outlook.forecasts["final_gravity"]
    of_wort = outlook.forecasts["original_gravity"]
    ends = _ends(found, _wort_before(of_wort, original), original)
    value = _as_strong(found.value, of_wort.value, original)
    return Range(
        value,
        min(ends[0], value),
        max(ends[-1], value),
        first_quartile=ends[1],
        middle=ends[2],
        third_quartile=ends[3],
    )


def _wort_before(of_wort: Range, original: float) -> float:
    """Return the gravity of the wort that the forecast of the end goes with.

    That is the middle of the draws, of which it was made, unless nothing else is known of the wort.
    """
    is_forecast = of_wort.middle is None or abs(original - of_wort.value) < 1e-9
    return of_wort.value if is_forecast or of_wort.middle is None else of_wort.middle


def _ends(
    found: Range, of_original: float, original: float
) -> tuple[float, float, float, float, float]:
    """Return the points of the final gravity, of a wort that has another gravity by now."""
    middle = found.value if found.middle is None else found.middle
    first, third = found.first_quartile, found.third_quartile
    low, high = found.low, found.high
    if first is None or third is None or high - low < 1e-6:
        low, high = middle - UNKNOWN_ENDS_SG[0], middle + UNKNOWN_ENDS_SG[1]
        part = _QUARTER / HALF_WIDTH_SIGMAS
        first, third = middle - part * (middle - low), middle + part * (high - middle)
    low5, low25, mid, high75, high95 = (
        _as_strong(each, of_original, original) for each in (low, first, middle, third, high)
    )
    return low5, low25, mid, high75, high95


def _as_strong(end: float, of_original: float, original: float) -> float:
    """Return an end at the same attenuation of a wort of another gravity."""
    if of_original - 1.0 < 1e-6:
        return end
    return 1.0 + (end - 1.0) * (original - 1.0) / (of_original - 1.0)


def _pitched(recipe: Recipe, outlook: Outlook) -> float:
    """Return the yeast pitched over that wanted; 1 where nobody knows."""
    dry_g, wanted_g = pitched_dry_g(recipe.yeast), float(outlook.day.beer.yeast_wanted_g)
    if dry_g is None or wanted_g <= 0.0:
        return 1.0
    return min(max(dry_g / wanted_g, LEAST_PITCHED), MOST_PITCHED)


def courses_of(expected: Expected, scores: Array) -> Courses:
    """Return the courses at standard normal scores: a row for each of `SCORES`."""
    import numpy as np

    of = dict(zip(SCORES, scores, strict=True))
    speed = drawn_at(SPEED, of["speed"])
    little = 1.0 / expected.pitched
    places = np.array((-HALF_WIDTH_SIGMAS, -_QUARTER, 0.0, _QUARTER, HALF_WIDTH_SIGMAS))
    end = _beyond_ends(of["end"], places, np.array(expected.ends))
    wort = expected.original_half_width / HALF_WIDTH_SIGMAS
    original = expected.original + wort * of["original"]
    return Courses(
        expected,
        original,
        np.minimum(end, original),
        drawn_at(MIDDLE_DAY, of["middle"]) * speed * little**LITTLE_YEAST_LATER,
        drawn_at(PACE_DAYS, of["pace"]) * speed * little**LITTLE_YEAST_SLOWER,
        drawn_at(SHAPE, of["shape"]),
        drawn_at(SLOW_SHARE, of["slow share"]),
        drawn_at(SLOW_TIMES, of["slow times"]),
        np.log(drawn_at(TEN_DEGREES, of["ten degrees"])) / 10.0,
        expected.warmth_half_width_c / HALF_WIDTH_SIGMAS * of["thermometer"],
        OFF_CURVE_SHARE * of["bump"],
        of["hydrometer"],
        of["refractometer"],
    )


def _beyond_ends(scores: Array, places: Array, values: Array) -> Array:
    """Return values at scores, in straight lines between places and on beyond the last."""
    import numpy as np

    found = np.interp(scores, places, values)
    low, high = scores - places[0], scores - places[-1]
    down = (values[1] - values[0]) / (places[1] - places[0])
    up = (values[-1] - values[-2]) / (places[-1] - places[-2])
    whole: Array = found + np.minimum(low, 0.0) * down + np.maximum(high, 0.0) * up
    return whole
