"""At the stove: the step now, its timers, the steps, what was measured, and the day.

Columns narrow with the window; where three have no room side by side the steps go below the card,
then the timers too, and the page scrolls.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QScrollArea, QVBoxLayout, QWidget

from designer.window.brew.page_parts import BrewPart
from designer.window.brew.step_card import StepCard
from designer.window.brew.steps_list import StepsList
from designer.window.parts.page_frame import scrolled
from designer.window.parts.sized_text import grown

LOW_PX = 600
BESIDE_PX = 900
"""Below this width the steps go below the card."""
CLOCKS_PX = 700
"""Below this one the timers do too."""
GAP = 12
CLOCKS_SHARE = 0.26
"""Of the width, where the timers alone are beside the card."""
CARD_SHARE, BELOW_SHARE = 57, 43
"""Of the height that there is."""


class AtTheStove(BrewPart):
    """The parts and their places; what they show is put into them by the page.

    `low_changed` tells that there is as little height as a small tablet has, or more again.
    """

    low_changed = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.is_low = False
        self.card = StepCard()
        self.steps = StepsList()
        self.beside = QWidget()
        """Ring and timers, one below the other."""
        self.clocks = QVBoxLayout(self.beside)
        self.clocks.setContentsMargins(0, 0, 0, 0)
        self.clocks.setSpacing(GAP)
        self.below = QWidget()
        """Strip and day."""
        self.rows = QVBoxLayout(self.below)
        self.rows.setContentsMargins(0, 0, 0, 0)
        self.rows.setSpacing(5)
        self._content = QWidget()
        self._grid = QGridLayout(self._content)
        self._grid.setSpacing(GAP)
        self._beside: tuple[bool, bool] | None = None
        """Whether timers, and whether steps are beside the card."""
        self.area: QScrollArea = scrolled(self._content)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.area)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()
        is_low = self.height() < grown(self, LOW_PX)
        if is_low is not self.is_low:
            self.is_low = is_low
            self.low_changed.emit(is_low)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._place()  # in larger type less has room

    def _place(self) -> None:
        """Place the parts beside or below each other, as there is room."""
        beside = (
            self.width() >= grown(self, CLOCKS_PX),
            self.width() >= grown(self, BESIDE_PX),
        )
        edge = 20 if self.width() > grown(self, 1100) else 12
        self._grid.setContentsMargins(edge, 0, edge, 4)
        self._grid.setVerticalSpacing(GAP if self.height() > grown(self, LOW_PX) else 8)
        wide = self.width() - 2 * edge
        clocks = round(min(grown(self, 244), 0.2 * wide))
        steps = round(min(grown(self, 308), 0.245 * wide))
        if not beside[1]:
            clocks = round(CLOCKS_SHARE * wide)
        for each, width, is_beside in zip(
            (self.beside, self.steps), (clocks, steps), beside, strict=True
        ):
            each.setMaximumWidth(width if is_beside else 16_777_215)
            each.setMinimumWidth(width if is_beside else 0)
        if beside == self._beside:
            return
        self._beside = beside
        for part in (self.card, self.beside, self.steps, self.below):
            self._grid.removeWidget(part)
        timers_are, steps_are = beside
        if steps_are:
            self._grid.addWidget(self.card, 0, 0)
            self._grid.addWidget(self.beside, 0, 1)
            self._grid.addWidget(self.steps, 0, 2)
            self._grid.addWidget(self.below, 1, 0, 1, 3)
        elif timers_are:
            self._grid.addWidget(self.card, 0, 0)
            self._grid.addWidget(self.beside, 0, 1)
            self._grid.addWidget(self.below, 1, 0, 1, 2)
            self._grid.addWidget(self.steps, 2, 0, 1, 2)
        else:
            self._grid.addWidget(self.card, 0, 0, 1, 2)
            self._grid.addWidget(self.below, 1, 0, 1, 2)
            self._grid.addWidget(self.beside, 2, 0)
            self._grid.addWidget(self.steps, 2, 1)
        self._grid.setColumnStretch(0, 1)
        self._grid.setColumnStretch(1, 0 if timers_are else 1)
        self._grid.setRowStretch(0, CARD_SHARE)
        self._grid.setRowStretch(1, BELOW_SHARE)

    def sizeHint(self) -> QSize:
        return QSize(1240, 690)

    def take_focus(self) -> None:
        """Give the keyboard to the step."""
        self.card.setFocus(Qt.FocusReason.OtherFocusReason)
