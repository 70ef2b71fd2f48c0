"""The version of a recipe that is brewed: kept in the Recipe box before the day goes on.

A recipe file outside the box is kept there too, once: brewed again, it is another version of the
recipe that its first brew made.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt

from designer.library.store.brews import Brew
from designer.library.store.values import Version
from designer.recipe.document import Recipe
from designer.window.session.version_of_brew import keep_file_version
from designer.workbench.recipe_summary import summary_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_recipe import OpenRecipe
    from designer.window.session.sitting import Sitting

Put = Callable[[str, int, int], None]
"""Puts a brew to the recipe and the version of the box that was brewed."""


def put_to_open(brew: Brew, opened: OpenRecipe, autosave: Autosave | None, put: Put) -> Brew:
    """Return a brew as one of the open recipe; its version is kept, and the brew put to it then.

    A box that does not take it is tried again as soon as it takes anything.
    """
    file = str(opened.path) if opened.path is not None else ""
    if autosave is None:
        return replace(brew, file=file)
    brew = replace(brew, recipe=autosave.recipe_id, file=file)
    sitting = autosave.sitting  # another recipe may be open by the time it is kept
    keeping = _KeepsVersion(brew, opened.recipe, sitting, autosave, put)
    if opened.path is None:
        autosave.keep_version(
            lambda _: keeping.put(sitting.recipe, sitting.base), keeping.wait_for_the_box
        )
    else:
        keeping.ask()
    return brew


class _KeepsVersion(QObject):
    """Keeps the version of one brew, if need be in several tries; goes once that is done."""

    def __init__(
        self, brew: Brew, recipe: Recipe, sitting: Sitting, autosave: Autosave, put: Put
    ) -> None:
        super().__init__(autosave)
        self._brew, self._recipe, self._sitting = brew, recipe, sitting
        self._base = sitting.base
        self._autosave, self._put = autosave, put

    def ask(self) -> None:
        """Let the store keep it."""
        self._autosave.store.ask(self._keep, self._done, self._failed)

    def _keep(self, store: Store) -> Version:
        brew, sitting = self._brew, self._sitting
        summary = summary_of(self._recipe)
        kept = keep_file_version(
            store, brew.document, summary, brew.file, sitting.recipe, sitting.base
        )
        if not brew.file and sitting.base == self._base:  # what is open was made from it now
            sitting.recipe, sitting.base, sitting.seen = kept.recipe, kept.id, kept.id
        return kept

    def _done(self, kept: Version) -> None:
        self.put(kept.recipe, kept.id)

    def put(self, recipe: int, version: int) -> None:
        """It is kept: the brew is put to it."""
        self._put(self._brew.uid, recipe, version)
        self.deleteLater()

    def _failed(self, fault: str) -> None:
        self._autosave.say_broken(fault)
        self.wait_for_the_box()

    def wait_for_the_box(self, _fault: str = "") -> None:
        """The box has said why it could not; ask again once it is well."""
        self._autosave.well_again.connect(self.ask, Qt.ConnectionType.SingleShotConnection)
