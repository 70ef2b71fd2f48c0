"""Begin: three doors. Design one of my own, type in a kit, look at one that is done."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.translation import tr
from designer.window.begin.door import Door
from designer.window.begin.kit_door import KitDoor
from designer.window.begin.look_door import LookDoor
from designer.window.begin.own_door import OwnDoor
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import Page, scrolled


class BeginPage(Page):
    """The doors in a row, what is behind the chosen one below; `begun` carries the recipe."""

    begun = Signal(object)
    example_wanted = Signal()
    file_wanted = Signal()

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.own, self.kit, self.example = OwnDoor(display), KitDoor(display), LookDoor(display)
        self.doors = QButtonGroup(self)
        self._behind = QStackedWidget()
        row = QHBoxLayout()
        row.setSpacing(12)
        for number, (form, title) in enumerate(self._forms()):
            row.addWidget(self._door(number, title), 1)
            self._behind.addWidget(scrolled(form))
            form.begun.connect(self.begun)
        self.example.example_wanted.connect(self.example_wanted)
        self.example.file_wanted.connect(self.file_wanted)
        self.doors.idClicked.connect(self.open_door)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(36, 20, 36, 20)
        layout.setSpacing(12)
        layout.addWidget(self._title())
        layout.addLayout(row)
        layout.addWidget(self._behind, 1)
        self.doors.button(0).setChecked(True)
        for form, _ in self._forms():
            form.order_tabs()  # once they lie in one window

    def _forms(self) -> tuple[tuple[Door, str], ...]:
        return (
            (self.own, tr("Design one of my own")),
            (self.kit, tr("Type in a kit")),
            (self.example, tr("Look at one that is done")),
        )

    def _door(self, number: int, title: str) -> QPushButton:
        button = QPushButton(title)
        button.setCheckable(True)
        keys = f"Alt+{number + 1}"
        button.setToolTip(keys)
        self.doors.addButton(button, number)
        QShortcut(QKeySequence(keys), self, lambda: self.open_door(number))
        return button

    def _title(self) -> QLabel:
        title = QLabel(tr("What will you brew?"))
        font = title.font()
        font.setPointSizeF(1.8 * font.pointSizeF())
        font.setBold(True)
        title.setFont(font)
        return title

    def open_door(self, number: int) -> None:
        """Show what is behind a door, and give it the keyboard."""
        self.doors.button(number).setChecked(True)
        self._behind.setCurrentIndex(number)
        self._forms()[number][0].take_focus()

    def close_down(self) -> None:
        for form, _ in self._forms():
            form.close_down()

    def take_focus(self) -> None:
        self._forms()[self._behind.currentIndex()][0].take_focus()
