"""What a brew was begun with, kept in the store as a version: of a file, of a window that ended."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.library.recipe_file import read_document
from designer.library.store.brews import Brew
from designer.library.store.values import Conflict, Summary, Version
from designer.workbench.recipe_summary import summary_of

if TYPE_CHECKING:
    from designer.library.store import Store


def keep_file_version(
    store: Store, document: str, summary: Summary, file: str, recipe: int, base: int
) -> Version:
    """Keep what a recipe file outside the box says; return its version in the box.

    `recipe` and `base` are those of the box that it was kept as before, 0 for none. Raises
    DesignerError.
    """
    if not recipe and file:
        recipe = next((each.recipe for each in store.brews.all() if each.file == file), 0)
        base = store.recipes.newest(recipe).id if recipe and _is_there(store, recipe) else 0
    if not base:
        return store.recipes.add(document, summary)
    kept = store.recipes.save(recipe, document, summary, base=base)
    return kept.mine if isinstance(kept, Conflict) else kept


def keep_left_version(store: Store, brew: Brew) -> Version:
    """Keep what a brew was begun with, where its window ended before the box had taken it.

    Raises DesignerError.
    """
    summary = summary_of(read_document(brew.document, brew.name))
    is_known = bool(brew.recipe) and _is_there(store, brew.recipe)
    recipe = brew.recipe if is_known else 0
    base = store.recipes.newest(recipe).id if is_known else 0
    return keep_file_version(store, brew.document, summary, brew.file, recipe, base)


def _is_there(store: Store, recipe: int) -> bool:
    return bool(store.recipes.versions(recipe))
