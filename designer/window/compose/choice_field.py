"""A choice of a few words, bound to the recipe."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox, QStyleOptionComboBox

from designer.recipe.edits import ChangePart, Edit, changing
from designer.recipe.named import part_of, value_of
from designer.translation import tr
from designer.window.parts.icons import Choice
from designer.window.session.worked_on import EditedRecipe

FEWEST_LETTERS = 8
"""So many are seen of a choice in the narrowest column."""
BESIDE_THE_WORDS = 28
"""Pixels of a choice that its frame and arrow take."""


class ChoiceField(Choice):
    """A choice between words: `shown` tells which one the recipe has, `edit` makes it another."""

    def __init__(
        self,
        opened: EditedRecipe,
        label: str,
        choices: tuple[str, ...],
        shown: Callable[[], str],
        edit: Callable[[str], Edit],
    ) -> None:
        super().__init__()
        self._opened, self._shown, self._edit = opened, shown, edit
        self._closed = ""
        for each in choices:
            self.addItem(tr(each), each)
        self.setAccessibleName(tr(label))
        self.activated.connect(self._choose)
        opened.recipe_changed.connect(self.refresh)
        self.refresh()

    def may_be_narrow(self) -> None:
        """Take less room than the longest words; the list that opens shows them whole."""
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(FEWEST_LETTERS)
        words = self.view()
        words.setMinimumWidth(words.sizeHintForColumn(0) + BESIDE_THE_WORDS)

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        """Shorten the words to the room they have."""
        super().initStyleOption(option)
        room = self.width() - BESIDE_THE_WORDS
        words = self.fontMetrics().elidedText(self.currentText(), Qt.TextElideMode.ElideRight, room)
        option.currentText = words

    def refresh(self) -> None:
        """Show the recipe's choice."""
        with QSignalBlocker(self):
            self.setCurrentIndex(self.findData(self._shown()))
        self.setToolTip(self._closed or self.currentText())

    def keep_closed(self, why: str) -> None:
        """Take nothing as long as there is a reason, which the tip tells; "" to be open again."""
        self._closed = why
        self.setEnabled(not why)
        self.refresh()

    def _choose(self) -> None:
        self._opened.make(self._edit(str(self.currentData())))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page: a choice must not change by being scrolled over."""
        event.ignore()


def part_choice(
    opened: EditedRecipe, part: str, name: str, label: str, choices: tuple[str, ...]
) -> ChoiceField:
    """Return the choice of a field of a part of the recipe."""

    def shown() -> str:
        return str(value_of(part_of(opened.recipe, part), name))

    def edit(chosen: str) -> ChangePart:
        return ChangePart(part, name, chosen, changing(label))

    return ChoiceField(opened, label, choices, shown, edit)
