"""`hobwort brews`: the brews of the Recipe box, the log of one, and that written to a file.

But for a log that is taken in, nothing is written to the box. What a window has put down beside it
and the box does not have yet is told too.
"""

from __future__ import annotations

from argparse import Namespace
from datetime import date, datetime
from importlib import import_module
from typing import Any

from designer.command_line.as_chosen import figures_of
from designer.command_line.brews_logs import Log, all_logs, brewing_of_log, named_log
from designer.command_line.new_file import kind_of_output, write_out
from designer.command_line.output import FINE, print_json, print_lines
from designer.library.store.brews import Brew
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.brew.brew_export import SUFFIXES, brew_text, exported
from designer.workbench.brew.brew_told import BrewTold, told_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.what_counts import what_counts

_OF_THEIR_OWN = {
    "package": "brews_package",
    "labels": "brews_labels",
    "calendar": "brews_calendar",
    "read": "brews_read",
    "warmth": "brews_warmth",
    "beer": "brews_read",
}
"""What is carried out by a module of its own, given the brew and its log."""


def carry_out(chosen: Namespace) -> int:
    """Print all brews, show or write one that is named by its number, or take one in."""
    logs = all_logs()
    if chosen.does == "list":
        _list(logs, as_json=chosen.json)
        return FINE
    if chosen.does == "take-in":
        # Rare, and it writes: not loaded for the others.
        from designer.command_line.brews_take_in import take_in

        return take_in(chosen.file, named_log(logs, chosen.into)[0] if chosen.into else None)
    brew, entries = named_log(logs, chosen.number)
    if chosen.does in _OF_THEIR_OWN:
        # Each is loaded when it is asked for.
        module = import_module(f"designer.command_line.{_OF_THEIR_OWN[chosen.does]}")
        return int(module.carry_out(chosen, brew, entries))
    figures = figures_of(chosen)
    brewing = brewing_of_log(brew, entries, figures.units)
    if chosen.does == "show":
        print_lines(brew_text(brew, brewing, figures.said).rstrip("\n"))
        return FINE
    suffix = kind_of_output(chosen.output, SUFFIXES, chosen.format, force=chosen.force)
    content = exported(brew, brewing, suffix, figures.said).encode("utf-8")
    said = tr("Written to {path}", path=one_line(chosen.output))
    write_out(chosen.output, content, said)
    return FINE


def _list(logs: list[Log], *, as_json: bool) -> None:
    if as_json:
        print_json({"brews": [_head(number, *log) for number, log in enumerate(logs, 1)]})
        return
    lines = []
    for number, (brew, entries) in enumerate(logs, 1):
        told = told_of(brew, entries)
        state = " · ".join([_state(brew, entries), *_days(told)])
        lines.append(f"{number} · {brew.started[:10]} · {one_line(brew.name)} · {state}")
    print_lines(*(lines or [tr("Nothing was brewed yet.")]))


def _days(told: BrewTold) -> list[str]:
    """Return the days of the beer in words, those that are known."""
    since = told.fermenting_since(date.today())
    if since is not None:
        return [tr("in the fermenter since {day}", day=since.isoformat())]
    days = []
    if told.packaged is not None:
        days.append(tr("packaged {day}", day=_day_of(told.packaged)))
    if told.ready:
        days.append(tr("ready {day}", day=told.ready))
    return days


def _day_of(at: Instant) -> str:
    return datetime.fromtimestamp(at.wall).date().isoformat()


def _head(number: int, brew: Brew, entries: tuple[Entry, ...]) -> dict[str, Any]:
    told = told_of(brew, entries)
    since = told.fermenting_since(date.today())
    return {
        "number": number,
        "uid": brew.uid,
        "name": brew.name,
        "started": brew.started,
        "finished": brew.finished,
        "in_fermenter_since": since.isoformat() if since is not None else "",
        "packaged": _day_of(told.packaged) if told.packaged is not None else "",
        "ready": told.ready,
        "abv_percent": told.abv_percent,
        "mark": brew.mark,
        "file": brew.file,
        "entries": len(entries),
    }


def _state(brew: Brew, entries: tuple[Entry, ...]) -> str:
    if brew.mark:
        return tr("tasted, {mark} of 5", mark=brew.mark)
    told = {each.what for each in what_counts(entries).live}
    if brew.finished or What.FINISHED in told:
        return tr("finished")
    return tr("under way") if What.BEGAN in told else tr("written down afterwards")
