"""The version of a recipe that is brewed: kept in the Recipe box before the day goes on.

A recipe file outside the box is kept there too, once: brewed again, it is another version of the
recipe that its first brew made.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from designer.library.store.brews import Brew
from designer.library.store.values import Conflict, Summary, Version
from designer.workbench.recipe_summary import summary_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_recipe import OpenRecipe

Put = Callable[[str, int, int], None]
"""Puts a brew to the recipe and the version of the box that was brewed."""


def put_to_open(brew: Brew, opened: OpenRecipe, autosave: Autosave | None, put: Put) -> Brew:
    """Return a brew as one of the open recipe; its version is kept, and the brew put to it then."""
    recipe_id = autosave.recipe_id if autosave is not None else 0
    file = str(opened.path) if opened.path is not None else ""
    brew = replace(brew, recipe=recipe_id, file=file)
    if autosave is not None and opened.path is None:
        sitting = autosave.sitting  # another recipe may be open by the time it is kept
        autosave.keep_version(
            lambda _: put(brew.uid, sitting.recipe, sitting.base),
            lambda _: None,  # the box has said why; the brew has the document itself
        )
    elif autosave is not None:
        _keep_file(brew, summary_of(opened.recipe, opened.newest_outlook()), autosave, put)
    return brew


def _keep_file(brew: Brew, summary: Summary, autosave: Autosave, put: Put) -> None:
    recipe, base = autosave.recipe_id, autosave.base

    def work(store: Store) -> Version:
        return keep_file_version(store, brew.document, summary, brew.file, recipe, base)

    def done(kept: Version) -> None:
        put(brew.uid, kept.recipe, kept.id)

    autosave.store.ask(work, done, autosave.say_broken)


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
