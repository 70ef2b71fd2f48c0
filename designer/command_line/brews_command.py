"""`hobwort brews`: the brews of the Recipe box, the log of one, and that written to a file.

But for a log that is taken in, nothing is written to the box. What a window has put down beside it
and the box does not have yet is told too.
"""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path
from typing import Any

from designer.command_line.output import FINE, complain, print_json, print_lines
from designer.library.file_bytes import is_there, write_whole
from designer.library.recipe_file import read_document
from designer.library.store import Store, store_folder
from designer.library.store.brew_journal import journals
from designer.library.store.brews import Brew
from designer.library.store.folder import store_path
from designer.recipe.message import refused
from designer.translation import tr
from designer.units import ShownUnits
from designer.units.quoting import one_line
from designer.workbench.brew.brew_export import SUFFIXES, brew_text, exported
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import entries_of
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.what_counts import what_counts


def carry_out(chosen: Namespace) -> int:
    """Print all brews, show or write one that is named by its number, or take one in."""
    logs = _logs()
    if chosen.does == "list":
        _list(logs, as_json=chosen.json)
        return FINE
    if chosen.does == "take-in":
        # Rare, and it writes: not loaded for the others.
        from designer.command_line.brews_take_in import take_in

        return take_in(chosen.file, _named(logs, chosen.into)[0] if chosen.into else None)
    brew, entries = _named(logs, chosen.number)
    brewing = _brewing(brew, entries)
    if chosen.does == "show":
        print_lines(brew_text(brew, brewing).rstrip("\n"))
        return FINE
    path = Path(chosen.output)
    suffix = path.suffix.lower()
    if suffix not in SUFFIXES:
        raise refused(
            "brew-suffix",
            "{path}: a brew is written as {suffixes}; let the name end in one of these.",
            path=one_line(chosen.output),
            suffixes=", ".join(SUFFIXES),
        )
    if is_there(path):
        raise refused(
            "over-a-file",
            "{path} is there already and stays as it is; name a file that is not there yet.",
            path=one_line(chosen.output),
        )
    write_whole(path, exported(brew, brewing, suffix).encode("utf-8"))
    print_lines(tr("Written to {path}", path=one_line(chosen.output)))
    return FINE


Log = tuple[Brew, tuple[Entry, ...]]


def _logs() -> list[Log]:
    """Return all brews with their logs, the last begun first. Raises DesignerError."""
    folder = store_folder()
    if not store_path(folder).exists():
        complain([tr("There is no Recipe box in {folder} yet.", folder=str(folder))])
        return []
    with Store.open(folder, expected=True) as store:
        found = {
            each.uid: (each, entries_of(line.entry for line in store.brews.lines(each.id)))
            for each in store.brews.all()
        }
    for kept in journals(folder):
        brew, entries = found.get(kept.brew.uid, (kept.brew, ()))
        found[brew.uid] = brew, (*entries, *entries_of(kept.entries))
    return sorted(found.values(), key=lambda each: each[0].started, reverse=True)


def _list(logs: list[Log], *, as_json: bool) -> None:
    if as_json:
        print_json({"brews": [_head(number, *log) for number, log in enumerate(logs, 1)]})
        return
    lines = []
    for number, (brew, entries) in enumerate(logs, 1):
        state = _state(brew, entries)
        lines.append(f"{number} · {brew.started[:10]} · {one_line(brew.name)} · {state}")
    print_lines(*(lines or [tr("Nothing was brewed yet.")]))


def _head(number: int, brew: Brew, entries: tuple[Entry, ...]) -> dict[str, Any]:
    return {
        "number": number,
        "uid": brew.uid,
        "name": brew.name,
        "started": brew.started,
        "finished": brew.finished,
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


def _named(logs: list[Log], number: int) -> Log:
    if not 1 <= number <= len(logs):
        raise refused(
            "no-brew-of-number",
            "There is no brew {number}; hobwort brews lists them, the last begun first.",
            number=number,
        )
    return logs[number - 1]


def _brewing(brew: Brew, entries: tuple[Entry, ...]) -> Brewing:
    """Return where a brew stands, with its steps. Raises RefusedInputError."""
    recipe = read_document(brew.document, brew.name)
    first = brewing_of(recipe, (), entries)
    steps = reckoned(first, ShownUnits.METRIC, ranges=False).steps
    return brewing_of(recipe, steps, entries)
