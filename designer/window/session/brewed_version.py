"""The version of a recipe that is brewed: kept in the Recipe box before the day goes on.

A recipe file outside the box is kept there too, once: brewed again, it is another version of the
recipe that its first brew made.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.library.store.values import Conflict, Summary, Version

if TYPE_CHECKING:
    from designer.library.store import Store


def keep_file_version(
    store: Store, document: str, summary: Summary, file: str, recipe: int, base: int
) -> Version:
    """Keep what a recipe file outside the box says; return its version in the box.

    `recipe` and `base` are those of the box that it was kept as before, 0 for none. Raises
    DesignerError.
    """
    if not recipe:
        recipe = next((each.recipe for each in store.brews.all() if each.file == file), 0)
        base = store.recipes.newest(recipe).id if recipe and _is_there(store, recipe) else 0
    if not base:
        return store.recipes.add(document, summary)
    kept = store.recipes.save(recipe, document, summary, base=base)
    return kept.mine if isinstance(kept, Conflict) else kept


def _is_there(store: Store, recipe: int) -> bool:
    return bool(store.recipes.versions(recipe))
