"""What a brew's beer takes to be packaged, its label, and its days: read off its log."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime

from designer.brewday.packaging.packaged import Packaged, Packing
from designer.brewday.packaging.packed import packaged
from designer.brewday.packaging.waiting import BEST_FROM, BOTTLE_IF_SAME, dates_of
from designer.recipe.message import Message
from designer.sheet.labels import LabelFacts
from designer.workbench.brew.beer import BeerNow
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.packing_chosen import as_chosen
from designer.workbench.brew.reckoning import Reckoned


@dataclass(frozen=True, slots=True)
class BeerPacked:
    """How a beer is to be packaged today, or how it was: then `on` is the day of that."""

    packing: Packing
    packed: Packaged
    on: date | None = None

    @property
    def dates(self) -> tuple[tuple[date, Message], ...]:
        """What follows and when; of beer that is packaged, from that day on."""
        return self.packed.dates if self.on is None else dates_of(self.packing, self.on)


def packed_of(brewing: Brewing, beer: BeerNow, today: date) -> BeerPacked:
    """Return how a beer is packaged: as it was, else as was chosen and follows of the beer."""
    done = brewing.after.packaged_in(beer.fermenter)
    if done is not None:
        packing, at = done
        return BeerPacked(packing, packaged(packing, today), _day(at.wall, today))
    packing = as_chosen(brewing.after.packing_in(beer.fermenter), beer.packing)
    again = beer.read_again
    return BeerPacked(packing, packaged(packing, today, None if again is None else again.date()))


def label_facts(
    name: str, reckoned: Reckoned, beer: BeerNow, packed: BeerPacked, today: date
) -> LabelFacts:
    """Return what is known of a beer for its label.

    Beer that is not packaged yet is taken to be so today, or when it is read again if it waits.
    """
    known = {what.id: day for day, what in reversed(packed.dates)}
    alcohol = beer.fermenting.abv_percent
    forecasts = reckoned.outlook.forecasts
    return LabelFacts(
        name,
        forecasts["abv_percent"].value if alcohol is None else alcohol,
        forecasts["bitterness_ibu"].value,
        packed.on or known.get(BOTTLE_IF_SAME.id, today),
        known.get(BEST_FROM.id),
        strained=packed.packed.strains,
    )


def beer_dates(beer: BeerNow, packed: BeerPacked) -> tuple[tuple[date, Message], ...]:
    """Return what is to be done with a beer and when, for a calendar."""
    if packed.on is not None:
        return packed.dates
    return tuple((when.date(), what) for when, what in beer.dates)


def _day(wall: float, today: date) -> date:
    try:
        return datetime.fromtimestamp(wall, UTC).astimezone().date()
    except (ValueError, OverflowError, OSError):
        return today
