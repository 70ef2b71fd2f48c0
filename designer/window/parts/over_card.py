"""A card laid over the window: the keyboard stays in it until Escape or a button puts it away."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QWidget
from shiboken6 import isValid

from designer.window.parts.going_round import go_round

APART = 12
"""What is left of the window around a card."""


class OverCard(QFrame):
    """A card over the middle of a window; put away, it gives the keyboard back."""

    def __init__(self, window: QWidget, name: str) -> None:
        super().__init__(window)
        self.over = window
        self._before: QWidget | None = None
        self.setObjectName("card")
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAutoFillBackground(True)
        self.hide()
        window.installEventFilter(self)

    def wanted_size(self, room: QSize) -> QSize:
        """Return how large the card is to be in a window that has so much room."""
        self.setFixedWidth(min(self.sizeHint().width(), room.width()))
        return QSize(self.width(), min(self.sizeHint().height(), room.height()))

    def first(self) -> QWidget:
        """Return what has the keyboard first."""
        return self

    def lay_over(self) -> None:
        """Show the card, and give it the keyboard."""
        focus = QApplication.focusWidget()
        if focus is None or not self.isAncestorOf(focus):
            self._before = focus
        self.place()
        self.show()
        self.raise_()
        self.first().setFocus(Qt.FocusReason.PopupFocusReason)

    def place(self) -> None:
        """Lay the card in the middle of the window."""
        both = 2 * APART
        size = self.wanted_size(self.over.size() - QSize(both, both))
        self.setFixedSize(size)
        left = (self.over.width() - size.width()) // 2
        self.move(QPoint(left, max((self.over.height() - size.height()) // 2, APART)))

    def put_away(self) -> None:
        """Hide, and give the keyboard back to where it was."""
        before, self._before = self._before, None
        self.hide()
        if before is not None and isValid(before) and before.isVisible():
            before.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        else:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Go round within the card: nobody sees what is below it."""
        go_round(self, forward=forward)
        return True

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self.place()
        return False
