"""How warm a beer was, day by day: notes as stretches of one temperature each."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from designer.brewday.fermenting.course import Warmth

MOST_STRETCHES = 48
"""More than these tell no course apart; those of a thermometer that logs are drawn together."""


class Stretch(NamedTuple):
    """From a day after pitching until the next stretch begins, °C."""

    day: float
    temp_c: float


def stretches(warmths: Sequence[Warmth], usual_c: float) -> tuple[Stretch, ...]:
    """Return the stretches from the day of pitching on; `usual_c` is for the time before a note."""
    noted = sorted(warmths, key=lambda each: each.day)
    before = [each for each in noted if each.day <= 0.0]
    after = [Stretch(each.day, each.temp_c) for each in noted if each.day > 0.0]
    first = Stretch(0.0, before[-1].temp_c if before else usual_c)
    return drawn_together((first, *after))


def drawn_together(found: tuple[Stretch, ...], most: int = MOST_STRETCHES) -> tuple[Stretch, ...]:
    """Return no more stretches than that, each the mean over its time; days are not below 0."""
    if len(found) <= most:
        return found
    step = found[-1].day / (most - 1)
    sums: dict[int, tuple[float, float]] = {}
    for each, following in pairwise(found):
        days, degrees = sums.get(int(each.day / step), (0.0, 0.0))
        lasts = max(following.day - each.day, 1e-9)
        sums[int(each.day / step)] = days + lasts, degrees + lasts * each.temp_c
    means = [Stretch(at * step, degrees / days) for at, (days, degrees) in sorted(sums.items())]
    return (*means, found[-1])


def warmest_since(warmths: Sequence[Warmth], day: float, now_day: float) -> float | None:
    """Return the warmest, °C, from a day until now; None where nobody noted it since.

    What was noted last before that day holds on if it was no more than two days before.
    """
    noted = sorted(warmths, key=lambda each: each.day)
    since = [each.temp_c for each in noted if day < each.day <= now_day]
    before = [each for each in noted if each.day <= day]
    if before and (since or day - before[-1].day <= HOLDS_ON_DAYS):
        since.append(before[-1].temp_c)
    return max(since, default=None)


HOLDS_ON_DAYS = 2.0
