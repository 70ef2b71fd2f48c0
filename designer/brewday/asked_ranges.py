"""Forecasts held against ranges that are asked for, such as those of a style.

A figure counts as it is shown: what reads 1.060 is no more than 1.060.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Range

Asked = Mapping[str, tuple[float, float]]
"""The lowest and the highest that is asked of forecasts, by their keys."""

USUAL_WIDTH = {
    "original_gravity": 0.016,
    "final_gravity": 0.007,
    "abv_percent": 1.8,
    "bitterness_ibu": 18.0,
    "colour_srm": 8.0,
}
"""About how wide the ranges of styles are, over which misses of different figures are weighed
against each other: means over the catalogue, rounded; the weighing is a judgement."""


@dataclass(frozen=True, slots=True)
class Miss:
    """A forecast outside what is asked of it: its figure as shown, and both limits."""

    key: str
    value: float
    low: float
    high: float

    @property
    def is_above(self) -> bool:
        """Whether it is more than is asked."""
        return self.value > self.high

    @property
    def limit(self) -> float:
        """The limit that it misses."""
        return self.high if self.is_above else self.low

    @property
    def by(self) -> float:
        """By how much it misses, without a sign."""
        return _apart(self.value, self.limit)

    @property
    def weight(self) -> float:
        """The same in usual widths of such a range."""
        return self.by / USUAL_WIDTH[self.key]


def _apart(value: float, limit: float) -> float:
    return round(abs(value - limit), 6)


def as_shown(key: str, value: float) -> float:
    """Return a forecast rounded as it is shown."""
    return round(value, BY_KEY[key].decimals)


def misses(values: Mapping[str, float], asked: Asked) -> tuple[Miss, ...]:
    """Return which forecasts lie outside what is asked, in the order of what is asked."""
    return tuple(missed({key: as_shown(key, values[key]) for key in asked}, asked))


def missed(shown: Mapping[str, float], asked: Asked) -> Iterator[Miss]:
    """Yield the same of forecasts that are rounded as they are shown."""
    for key, (low, high) in asked.items():
        value = shown[key]
        if not low <= value <= high:
            yield Miss(key, value, low, high)


def how_far_off(shown: Mapping[str, float], asked: Asked, enough: float = inf) -> float:
    """Return by how much such forecasts miss in all, in usual widths; 0 where they miss nothing.

    It is what each `Miss` weighs. Once that is `enough`, what else they miss is not counted.
    """
    off = 0.0
    for key, (low, high) in asked.items():
        value = shown[key]
        if not low <= value <= high:
            off += _apart(value, high if value > high else low) / USUAL_WIDTH[key]
            if off >= enough:
                break
    return off


def share_inside(found: Range, low: float, high: float) -> float:
    """Return about which share of the brews lands between two limits.

    Between the known hundredths (5, 25, 50, 75, 95) brews are taken to lie evenly, and those beyond
    as far out again; so it is rough, and told in words alone.
    """
    if found.high <= found.low:
        return 1.0 if low <= found.value <= high else 0.0
    return max(_below(found, high) - _below(found, low), 0.0)


def _below(found: Range, limit: float) -> float:
    """Return about which share of the brews lies below a limit."""
    middle = found.value if found.middle is None else found.middle
    first = 0.5 * (found.low + middle) if found.first_quartile is None else found.first_quartile
    third = 0.5 * (found.high + middle) if found.third_quartile is None else found.third_quartile
    points = [
        (2.0 * found.low - first, 0.0),
        (found.low, 0.05),
        (first, 0.25),
        (middle, 0.5),
        (third, 0.75),
        (found.high, 0.95),
        (2.0 * found.high - third, 1.0),
    ]
    for (left, from_), (right, to) in pairwise(points):
        if limit < right:
            along = (limit - left) / (right - left) if right > left else 1.0
            return from_ + max(along, 0.0) * (to - from_)
    return 1.0
