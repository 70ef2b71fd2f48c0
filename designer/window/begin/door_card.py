"""Buttons on Begin that say more than a word: the doors, and what can be looked at."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QSizePolicy

_BESIDE = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Down: 1,
}


class CardButton(QPushButton):
    """A button with a title, a line about it, and maybe its keys."""

    def __init__(self, title: str, about: str, keys: str = "") -> None:
        super().__init__()
        self.setObjectName("cardButton")
        self.setAccessibleName(title)
        self.setAccessibleDescription(f"{about}. {keys}" if keys else about)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        named, told, pressed = QLabel(title), QLabel(about), QLabel(keys)
        self._told = told
        font = named.font()
        font.setPointSizeF(1.15 * font.pointSizeF())
        font.setBold(True)
        named.setFont(font)
        named.setWordWrap(True)
        told.setWordWrap(True)
        for soft in (told, pressed):
            soft.setObjectName("soft")
        layout = QGridLayout(self)
        layout.setContentsMargins(16, 10, 14, 10)
        layout.setVerticalSpacing(2)
        layout.addWidget(named, 0, 0)
        layout.addWidget(pressed, 0, 1, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(told, 1, 0, 1, 2)
        layout.setColumnStretch(0, 1)
        layout.setRowStretch(2, 1)  # titles stand on one line, however long what is below them
        for label in (named, told, pressed):
            label.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def show_about(self, shown: bool) -> None:
        """Show the line about it or not; what is read aloud has it in any case."""
        self._told.setVisible(shown)

    def sizeHint(self) -> QSize:
        layout = self.layout()
        return layout.sizeHint() if layout is not None else super().sizeHint()

    def minimumSizeHint(self) -> QSize:
        layout = self.layout()
        return layout.minimumSize() if layout is not None else super().minimumSizeHint()


class DoorCard(CardButton):
    """One of several doors, of which one is open; the arrows ask for the one beside it."""

    beside_wanted = Signal(int)

    def __init__(self, title: str, about: str, keys: str) -> None:
        super().__init__(title, about, keys)
        self.setObjectName("door")
        self.setCheckable(True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _BESIDE.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
        else:
            self.beside_wanted.emit(step)
