"""`hobwort brews take-in`: the log of a phone goes into the Recipe box.

However often it is taken in, each of its entries is there once.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from designer.command_line.output import FINE, print_lines
from designer.library.recipe_file import decoded, text_of
from designer.library.store import Store, store_folder
from designer.library.store.brews import Brew
from designer.translation import tr, trn
from designer.units.quoting import one_line
from designer.workbench.brew.entries import Entry
from designer.workbench.brew.entries_text import entries_of, plain
from designer.workbench.brew.pocket_entries import pocket_brew, pocket_entries
from designer.workbench.brew.pocket_text import PocketLog, read_pocket
from designer.workbench.brew.pocket_version import version_brewed

STANDARD_INPUT = "-"


def take_in(file: str, into: Brew | None) -> int:
    """Take a log in, as a brew of its own or into one that has begun; say what was new.

    Raises DesignerError for a text that is no log, and where the box cannot be written.
    """
    log = read_pocket(_text(file))
    with Store.open(store_folder()) as store:
        brew = into or _of_version(store, log)
        entries = pocket_entries(log, joins=into is not None)
        known = _known(store, brew)
        store.brews.put(brew, [plain(each) for each in entries])
    new = sum(each.id not in known for each in entries)
    print_lines(
        trn(
            "{name}: {number} entry of the phone is new in its log, of {count}.",
            "{name}: {number} entries of the phone are new in its log, of {count}.",
            new,
            name=one_line(brew.name),
            count=len(entries),
        )
        if new
        else tr("{name}: all of this text was in the log already.", name=one_line(brew.name))
    )
    return FINE


def _text(file: str) -> str:
    if file != STANDARD_INPUT:
        return text_of(Path(file))
    return decoded(sys.stdin.buffer.read(), tr("standard input"))


def _of_version(store: Store, log: PocketLog) -> Brew:
    version = version_brewed(store, log)
    return replace(pocket_brew(log), recipe=version.recipe, version=version.id)


def _known(store: Store, brew: Brew) -> set[str]:
    """The ids of what is in the log already."""
    found = next((each for each in store.brews.all() if each.uid == brew.uid), None)
    entries: Iterable[Entry] = ()
    if found is not None:
        entries = entries_of(line.entry for line in store.brews.lines(found.id))
    return {each.id for each in entries}
