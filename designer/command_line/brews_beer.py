"""The beer of a brew of the Recipe box, as the commands about it need it."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import NamedTuple

from designer.command_line.brews_logs import brewing_of_log, now
from designer.library.store.brews import Brew
from designer.recipe.message import refused
from designer.units import ShownUnits
from designer.units.quoting import one_line
from designer.workbench.brew.beer import BeerNow, beer_of
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.entries import Entry
from designer.workbench.brew.packing_of_beer import BeerPacked, packed_of
from designer.workbench.brew.reckoning import Reckoned, reckoned


class BrewedBeer(NamedTuple):
    """A brew, what is reckoned of it, its beer, and how that is packaged."""

    brewing: Brewing
    reckoned: Reckoned
    beer: BeerNow
    packed: BeerPacked
    today: date


def brewed_beer(brew: Brew, entries: tuple[Entry, ...], fermenter: int = 1) -> BrewedBeer:
    """Return the beer of a brew as it is now. Raises RefusedInputError while no yeast is in."""
    brewing = brewing_of_log(brew, entries)
    found = reckoned(brewing, ShownUnits.METRIC, advice=False)
    instant = now()
    beer = beer_of(brewing, found, instant, fermenter)
    if beer is None:
        raise refused(
            "no-beer-yet",
            "{name}: no yeast is in yet, so there is no beer yet. The log has to say that "
            "the yeast went in, or that the brew day is over.",
            name=one_line(brew.name),
        )
    today = datetime.fromtimestamp(instant.wall, UTC).astimezone().date()
    return BrewedBeer(brewing, found, beer, packed_of(brewing, beer, today), today)
