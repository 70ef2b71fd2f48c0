"""`hobwort brews calendar`: what is to be done with the beer of a brew, as a calendar file."""

from __future__ import annotations

from argparse import Namespace
from datetime import UTC, datetime

from designer.command_line.brews_beer import brewed_beer
from designer.command_line.new_file import kind_of_output, write_out
from designer.command_line.output import FINE
from designer.library.store.brews import Brew
from designer.translation import tr, trn
from designer.units.quoting import one_line
from designer.workbench.brew.calendar_file import calendar_text, events_of
from designer.workbench.brew.entries import Entry
from designer.workbench.brew.packing_of_beer import beer_dates


def carry_out(chosen: Namespace, brew: Brew, entries: tuple[Entry, ...]) -> int:
    """Write the file, and print what is in it."""
    kind_of_output(chosen.output, (".ics",), force=chosen.force)
    found = brewed_beer(brew, entries, chosen.fermenter)
    events = events_of(
        brew.uid, brew.name, beer_dates(found.beer, found.packed), found.beer.fermenter
    )
    content = calendar_text(events, datetime.now(UTC))
    count = trn("{number} day", "{number} days", len(events))
    write_out(
        chosen.output,
        content.encode("utf-8"),
        tr("{path}: {days} for your calendar.", path=one_line(chosen.output), days=count),
        *(f"  {each.day.isoformat()} · {one_line(each.title)}" for each in events),
    )
    return FINE
