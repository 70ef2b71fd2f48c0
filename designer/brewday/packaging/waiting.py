"""When packaged beer is ready, is tasted, and is best drunk by: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import exp, log

from designer.brewday.packaging.kegs import FEWEST_DAYS, MOST_DAYS
from designer.brewday.packaging.packaged import Packing
from designer.recipe.choices import Package
from designer.recipe.message import Message, say

CONDITION_DAYS = 14
"""Two weeks at 18 to 22 °C."""
USUAL_CONDITION_C = 20.0
_HALVED_BY_C = 10.0
_SHORTEST_DAYS, _LONGEST_DAYS, _MOST_HALVINGS = 10, 42, 8.0
"""Ten degrees colder takes twice as long, as fermentation does; a judgement, and so its ends."""
LIVELY_VOLUMES, LIVELY_DAYS = 3.0, 7
"""What wants more gas than that takes a week longer; a judgement."""
KEEPS_DAYS = 180
"""Half a year, cool and dark."""

READ_AGAIN_DAYS = 3
"""Two equal readings two to three days apart."""

READ_AGAIN = say("read-again", "read it again, gas shaken out")
BOTTLE_IF_SAME = say("bottle-if-same", "package it, if it has not fallen")
TASTE_ONE = say("taste-one", "chill one bottle and taste it")
BEST_FROM = say("best-from", "best from now on")
BEST_BEFORE = say("best-before", "best drunk by now")
KEG_LOOK = say("keg-look", "taste a glass from the keg")
KEG_READY = say("keg-ready", "the keg is ready")


def condition_days(volumes: float, temp_c: float) -> int:
    """Return the days until primed bottles are ready, at such a temperature."""
    colder_by = (USUAL_CONDITION_C - temp_c) / _HALVED_BY_C
    days = CONDITION_DAYS * exp(log(2.0) * min(colder_by, _MOST_HALVINGS))
    whole = round(min(max(days, float(_SHORTEST_DAYS)), float(_LONGEST_DAYS)))
    return whole + (LIVELY_DAYS if volumes > LIVELY_VOLUMES else 0)


def dates_of(packing: Packing, packaged_on: date) -> tuple[tuple[date, Message], ...]:
    """Return what follows once the beer is packaged on a day, in order."""
    return tuple(
        (day, words)
        for days, words in _days_of(packing)
        if (day := _after(packaged_on, days)) is not None
    )


def dates_of_unfinished(packing: Packing, again: date) -> tuple[tuple[date, Message], ...]:
    """Return what follows of beer that is read again on a day: reading, packaging, tasting."""
    return ((again, READ_AGAIN), (again, BOTTLE_IF_SAME), *dates_of(packing, again))


def _days_of(packing: Packing) -> Iterator[tuple[int, Message]]:
    if packing.package == Package.KEG:
        yield round(FEWEST_DAYS), KEG_LOOK
        yield round(MOST_DAYS), KEG_READY
    else:
        ready = condition_days(packing.volumes, packing.condition_c)
        yield ready, TASTE_ONE
        yield ready, BEST_FROM
    yield KEEPS_DAYS, BEST_BEFORE


def _after(day: date, days: int) -> date | None:
    try:
        return day + timedelta(days=days)
    except OverflowError:
        return None
