"""The brews of the Recipe box with their logs, and what is written into one."""

from __future__ import annotations

import time
from collections.abc import Iterable
from typing import Any

from designer.command_line.no_box import no_box_yet
from designer.command_line.output import notice
from designer.library.recipe_file import read_document
from designer.library.store import Store, store_folder
from designer.library.store.brew_journal import journals
from designer.library.store.brews import Brew
from designer.library.store.folder import store_path
from designer.recipe.message import refused
from designer.units import ShownUnits
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import entries_of, plain
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reckoning import reckoned

Log = tuple[Brew, tuple[Entry, ...]]


def all_logs() -> list[Log]:
    """Return all brews with their logs, the last begun first. Raises DesignerError."""
    folder = store_folder()
    if not store_path(folder).exists():
        notice([no_box_yet(folder).text])
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


def named_log(logs: list[Log], number: int) -> Log:
    """Return the brew of a number and its log. Raises RefusedInputError where there is none."""
    if not 1 <= number <= len(logs):
        raise refused(
            "no-brew-of-number",
            "There is no brew {number}; hobwort brews lists them, the last begun first.",
            number=number,
        )
    return logs[number - 1]


def brewing_of_log(
    brew: Brew, entries: tuple[Entry, ...], shown: ShownUnits = ShownUnits.METRIC
) -> Brewing:
    """Return where a brew stands, with its steps told in these units. Raises RefusedInputError."""
    recipe = read_document(brew.document, brew.name)
    first = brewing_of(recipe, (), entries)
    steps = reckoned(first, shown, ranges=False).steps
    return brewing_of(recipe, steps, entries)


def now() -> Instant:
    """Return this instant, by the wall clock alone."""
    return Instant(time.time())


def write(
    brew: Brew,
    entries: Iterable[Entry],
    *told: tuple[What, dict[str, Any]],
    at: Instant | None = None,
) -> tuple[Entry, ...]:
    """Write into the log of a brew, after its entries, what was told now; return all of its log.

    `at` is when it was, where that was not now. A window that has this brew open sees it when it
    opens the brew again; what both write is there. Raises DesignerError where the box cannot be
    written.
    """
    log = list(entries)
    known = {each.id for each in log}
    for what, values in told:
        log.append(Entry(next_id(log), at or now(), what, values, by_guess=at is not None))
    with Store.open(store_folder(), expected=True) as store:
        store.brews.put(brew, [plain(each) for each in log if each.id not in known])
    return tuple(log)
