"""A choice bound to a field of the recipe."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker
from PySide6.QtGui import QWheelEvent

from designer.recipe.edits import ChangePart, changing
from designer.recipe.named import part_of, value_of
from designer.translation import tr
from designer.window.parts.icons import Choice
from designer.window.session.open_recipe import OpenRecipe


class ChoiceField(Choice):
    """A choice of a few words, bound to a field of a part of the recipe."""

    def __init__(
        self, opened: OpenRecipe, part: str, name: str, label: str, choices: tuple[str, ...]
    ) -> None:
        super().__init__()
        self._opened, self._part, self._name, self._label = opened, part, name, label
        for each in choices:
            self.addItem(tr(each), each)
        self.setAccessibleName(tr(label))
        self.activated.connect(self._choose)
        opened.recipe_changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the recipe's choice."""
        with QSignalBlocker(self):
            now = value_of(part_of(self._opened.recipe, self._part), self._name)
            self.setCurrentIndex(self.findData(str(now)))

    def _choose(self) -> None:
        text = changing(self._label)
        self._opened.make(ChangePart(self._part, self._name, str(self.currentData()), text))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page: a choice must not change by being scrolled over."""
        event.ignore()
