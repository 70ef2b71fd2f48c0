"""Drafts made of the open recipe: its text, with that of the steps around it."""

from __future__ import annotations

from collections.abc import Callable

from designer.errors import DesignerError
from designer.library.recipe_file import document_text, read_document
from designer.library.store import Draft
from designer.recipe.document import Recipe
from designer.translation import tr
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.sitting import Sitting

HISTORY_KEPT = 60


class DraftMaking:
    """For the recipe of one window; what takes long is done on the store's thread."""

    def __init__(self, opened: OpenRecipe) -> None:
        self._opened = opened
        self._texts: dict[int, tuple[Recipe, str]] = {}

    def draft_of(self, sitting: Sitting) -> Callable[[], Draft]:
        """Return what makes the draft of the recipe as it is now, on the store's thread."""
        history, position = self._opened.history()
        first = min(max(position - HISTORY_KEPT // 2, 0), max(len(history) - HISTORY_KEPT, 0))
        kept = history[first : first + HISTORY_KEPT]
        phrases = self._opened.phrases()[first : first + HISTORY_KEPT]
        recipe = self._opened.recipe

        def make() -> Draft:
            texts = tuple(self.text(each) for each in kept)
            return Draft(
                sitting.name,
                self.text(recipe),
                sitting.recipe,
                sitting.base,
                texts,
                position - first,
                phrases=phrases,
            )

        return make

    def text(self, recipe: Recipe) -> str:
        """The text of a recipe's document; those of the history are made once."""
        found = self._texts.get(id(recipe))
        if found is None or found[0] is not recipe:
            if len(self._texts) > 4 * HISTORY_KEPT:
                self._texts.clear()
            found = self._texts[id(recipe)] = (recipe, document_text(recipe))
        return found[1]


def unreadable(document: str) -> str:
    """Return why a document could not be opened again, in words; "" if it can."""
    try:
        read_document(document, tr("the recipe"))
    except DesignerError as fault:
        return tr("This recipe could not be opened again as it stands: {fault}", fault=fault)
    return ""
