"""What a list tells of a brew: when it was, its original gravity, how the beer was."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime

from designer.brewday.explaining.asked import Taken
from designer.brewday.fermenting.beer_readings import hydrometer_gravity, is_refractometer
from designer.brewday.measured.readings import Measured
from designer.library.store.brews import Brew
from designer.library.store.values import LONGEST_FERMENTING_DAYS
from designer.recipe.document import Process
from designer.translation import message
from designer.workbench.brew.afterwards import afterwards_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import count_in, text_in, values_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import reading_of
from designer.workbench.brew.what_counts import what_counts
from designer.wort.fermentation import alcohol_by_volume

MARKS = {
    1: message("not for drinking"),
    2: message("has a fault"),
    3: message("sound"),
    4: message("good"),
    5: message("brew it again"),
}
"""What the marks of a tasting say."""


@dataclass(frozen=True, slots=True)
class Tasted:
    """A tasting: when, the mark (0 for none), and what was noted of it."""

    at: Instant
    mark: int
    text: str


@dataclass(frozen=True, slots=True)
class BrewTold:
    """A brew as lists tell of it; `original_gravity` is None where it was not read.

    `pitched` is when the yeast went in, `packaged` when the beer went into bottles or keg, `ready`
    the day from which it is ready to drink, "" where that is not known. `abv_percent` is alcohol
    by what hydrometers read of wort and beer, None where they did not.
    """

    brew: Brew
    original_gravity: float | None = None
    tastings: tuple[Tasted, ...] = ()
    has_log: bool = False
    pitched: Instant | None = None
    packaged: Instant | None = None
    ready: str = ""
    abv_percent: float | None = None

    def fermenting_since(self, today: date) -> date | None:
        """Return since when the beer is in the fermenter; None where it is not any more.

        One that was tasted, or that was brewed long ago, was packaged without a word.
        """
        if self.pitched is None or self.packaged is not None or self.tastings:
            return None
        return fermenting_since(datetime.fromtimestamp(self.pitched.wall).date(), today)


def fermenting_since(day: date, today: date) -> date | None:
    """Return the day on which the yeast went in; None where that cannot be true."""
    return day if -1 <= (today - day).days <= LONGEST_FERMENTING_DAYS else None


def told_of(brew: Brew, entries: Iterable[Entry]) -> BrewTold:
    """Return what the log of a brew tells of it."""
    gravity, tastings, live = None, [], what_counts(entries).live
    found = BrewTold(brew, has_log=bool(live))
    for each in live:
        if each.what is What.TASTED:
            mark = count_in(each.values, "mark", 0)
            tastings.append(
                Tasted(each.at, mark if mark in MARKS else 0, text_in(each.values, "text"))
            )
        elif each.what is What.READING:
            reading = reading_of(values_in(each.values, "reading"))
            if reading is not None and reading.what is Measured.ORIGINAL_GRAVITY:
                gravity = reading.value
        elif each.what is What.FINISHED:
            found = replace(found, pitched=each.at)
        elif each.what is What.PACKAGED:
            found = replace(found, packaged=each.at, ready=text_in(each.values, "ready"))
    abv = _abv_percent(gravity, live)
    return replace(found, original_gravity=gravity, tastings=tuple(tastings), abv_percent=abv)


def _abv_percent(original: float | None, live: Iterable[Entry]) -> float | None:
    """Return the alcohol by the last hydrometer's sample of the beer; None where there is none."""
    beers = [
        kept.sample
        for kept in afterwards_of(live).samples
        if kept.sample.taken is Taken.FERMENTING and not is_refractometer(kept.sample)
    ]
    if original is None or not beers:
        return None
    gravity, _ = hydrometer_gravity(beers[-1], Process())
    return float(alcohol_by_volume(original, gravity)) if gravity < original else None
