"""Which version of the Recipe box a phone's log was brewed from."""

from __future__ import annotations

from designer.library.store import Store, Version
from designer.workbench.brew.pocket_text import PocketLog
from designer.workbench.recipe_summary import summary_of


def version_brewed(store: Store, log: PocketLog) -> Version:
    """Return the version that was brewed; where the box has none like it, it is kept first.

    Raises DesignerError.
    """
    found = store.recipes.holding(log.document)
    return found or store.recipes.add(log.document, summary_of(log.recipe))
