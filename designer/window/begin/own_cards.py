"""Three recipes to choose from, side by side, and a study beer below where it is asked for.

Beside each other, their buttons stand in `foot`, which whoever shows the cards puts below what
scrolls: however many lines there are, what begins a recipe is in sight.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGraphicsOpacityEffect, QGridLayout, QHBoxLayout, QWidget

from designer.window.begin.own_card import DraftCard
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.scrolling import bring_into_view

if TYPE_CHECKING:
    from designer.workbench.first_answers import Draft

NARROWEST_EM = 30
"""With less room than so many letters for each, the cards stand below each other."""
DIMMED = 0.45


class DraftCards(QWidget):
    """`start_wanted` carries the number of the card that is to begin."""

    start_wanted = Signal(int)
    rearranged = Signal()

    def __init__(self, display: DisplayFormat, count: int) -> None:
        super().__init__()
        self.cards = tuple(DraftCard(display) for _ in range(count))
        self.chosen = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(12)
        self.foot = QWidget(self)
        self.foot.setVisible(False)
        self._buttons = QHBoxLayout(self.foot)
        self._buttons.setContentsMargins(0, 8, 0, 0)
        self._buttons.setSpacing(12)
        self._in_a_row = 0
        self._arrange(count)
        self._effect = QGraphicsOpacityEffect(self, opacity=DIMMED)
        self._effect.setEnabled(False)
        self.setGraphicsEffect(self._effect)
        for number, card in enumerate(self.cards):
            card.chosen.connect(lambda number=number: self.choose(number))
            card.start_wanted.connect(lambda number=number: self.start_wanted.emit(number))
            card.button.stepped.connect(lambda steps, number=number: self._go(number + steps))
            card.show_chosen(number == 0 and count > 1)
            card.setVisible(False)

    def minimumSizeHint(self) -> QSize:
        """Hold no more room than a card takes: they are arranged with the room there is."""
        return QSize(
            min(each.minimumSizeHint().width() for each in self.cards),
            super().minimumSizeHint().height(),
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        least = NARROWEST_EM * self.fontMetrics().averageCharWidth()
        fits = self.width() >= len(self.cards) * least
        self._arrange(len(self.cards) if fits else 1)

    def _arrange(self, in_a_row: int) -> None:
        if in_a_row == self._in_a_row:
            return
        self._in_a_row = in_a_row
        for number, card in enumerate(self.cards):
            self._grid.addWidget(card, number // in_a_row, number % in_a_row)
        for column in range(len(self.cards)):
            self._grid.setColumnStretch(column, 1 if column < in_a_row else 0)
        self._place_buttons()
        self.rearranged.emit()

    def _place_buttons(self) -> None:
        """Have the buttons of cards beside each other below what scrolls, always to be seen."""
        is_row = len(self.cards) > 1 and self._in_a_row > 1
        for card in self.cards:
            if is_row:
                self._buttons.addWidget(card.button, 1)
            else:
                card.take_button()
        self.foot.setVisible(is_row and self.cards[0].draft is not None)

    def show_drafts(self, drafts: Sequence[Draft]) -> None:
        """Show other recipes; the chosen card stays the chosen one."""
        for card, draft in zip(self.cards, drafts, strict=True):
            card.show_draft(draft)
            card.setVisible(True)
        self._place_buttons()

    def dim(self, dimmed: bool) -> None:
        """Show that these are no answer to what is typed now."""
        self._effect.setEnabled(dimmed)

    @property
    def is_dimmed(self) -> bool:
        """Whether they are shown as no answer."""
        return self._effect.isEnabled()

    def choose(self, number: int) -> None:
        """Make a card the one that Ctrl+Return begins."""
        self.chosen = number
        for each, card in enumerate(self.cards):
            card.show_chosen(each == number and len(self.cards) > 1)

    def has_keyboard(self) -> bool:
        """Whether one of its buttons has the keyboard."""
        return any(card.button.hasFocus() for card in self.cards)

    def _go(self, number: int) -> None:
        if 0 <= number < len(self.cards):
            card = self.cards[number]
            card.button.setFocus(Qt.FocusReason.OtherFocusReason)
            bring_into_view(card.button)
