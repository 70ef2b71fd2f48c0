"""What a beer in the fermenter is to be remembered for by itself: what is to be done next with it.

It is reckoned as the beer stood when its log was last written, so that it stays due once it is.
What is to be done at once is shown where one reads; of that one is reminded from the next morning
on. A brew takes a fifth of a second to be reckoned, so this is for a thread beside the window.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time, timedelta

from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.library.store.brews import Brew
from designer.units.shown import ShownUnits
from designer.workbench.brew.afterwards import Afterwards
from designer.workbench.brew.beer import beers_of
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.reminders import DAY_S, Expected

AT = time(9)
"""The hour of a day at which one is reminded; that of the calendar file."""
LONGEST_DUE_DAYS = 42
"""Beer of which nothing was said for so long was packaged without a word; a judgement."""
_SAYS_NOTHING = frozenset((What.REMINDER, What.COUNTS, What.NOTE, What.CLOCK))


def expected_of(brew: Brew, entries: Sequence[Entry], now: Instant) -> tuple[Expected, ...]:
    """Return what is to be done next with each beer of a brew, and when."""
    try:
        recipe = read_document(brew.document, brew.name)
    except DesignerError:
        return ()  # it is told when one goes on with it
    first = brewing_of(recipe, (), entries)
    steps = reckoned(first, ShownUnits.METRIC, ranges=False).steps
    brewing = brewing_of(recipe, steps, entries)
    last = _last_told(brewing)
    beers = beers_of(brewing, reckoned(brewing, ShownUnits.METRIC, advice=False), last)
    found: dict[str, float] = {}
    for beer in beers:
        for when, what in beer.dates[:1]:
            wall = _morning(max(when, _day_after(last)))
            if now.wall - wall <= LONGEST_DUE_DAYS * DAY_S:
                found[what.text] = min(wall, found.get(what.text, wall))
    return () if _is_planned_for(brewing.after) else tuple((at, what) for what, at in found.items())


def _is_planned_for(after: Afterwards) -> bool:
    """Whether the brewer has set a reminder himself, which is still to be seen to."""
    return any(not each.done for each in after.reminders)


def _last_told(brewing: Brewing) -> Instant:
    """Return when the log was last written that says anything of the beer."""
    told = [each.at for each in brewing.live if each.what not in _SAYS_NOTHING]
    return max(told, key=lambda each: each.wall)


def _day_after(at: Instant) -> datetime:
    return datetime.fromtimestamp(at.wall).astimezone() + timedelta(days=1)


def _morning(day: datetime) -> float:
    return datetime.combine(day.astimezone().date(), AT).timestamp()
