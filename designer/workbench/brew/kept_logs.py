"""All brews with their logs: those of the store, and what a window has put down beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.library.store.brew_journal import journals
from designer.workbench.brew.entries_text import entries_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.brews import Brew
    from designer.workbench.brew.entries import Entry

Log = tuple["Brew", tuple["Entry", ...]]


def kept_logs(store: Store) -> list[Log]:
    """Return all brews with their logs, the last begun first. Raises DesignerError."""
    found: dict[str, Log] = {
        each.uid: (each, entries_of(line.entry for line in store.brews.lines(each.id)))
        for each in store.brews.all()
    }
    for kept in journals(store.folder):
        brew, entries = found.get(kept.brew.uid, (kept.brew, ()))
        found[brew.uid] = brew, (*entries, *entries_of(kept.entries))
    return sorted(found.values(), key=lambda each: each[0].started, reverse=True)
