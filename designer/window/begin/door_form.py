"""What lies behind a door: a form of named fields, a button that begins, a place for refusals."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.window.begin.door import Door
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.offers import attach_suggestions
from designer.window.parts.refusal import read_from, within_reach

LARGEST_POT_L = 10_000.0


class DoorForm(Door):
    """A form that begins a recipe."""

    def __init__(self, display: DisplayFormat, about: str, press: str) -> None:
        self.button = QPushButton(press)
        super().__init__(display, self.button)
        self.setObjectName("card")
        self.fields: dict[str, QLineEdit] = {}
        self._grid = QGridLayout()
        told = QLabel(about)
        told.setWordWrap(True)
        told.setObjectName("soft")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(20, 16, 20, 18)
        layout.setSpacing(10)
        layout.addWidget(told)
        layout.addLayout(self._grid)
        layout.addWidget(self.button)
        layout.addStretch(1)

    def add_field(self, key: str, label: str, text: str, suggests: str = "") -> QLineEdit:
        """Add a field with its label."""
        field = QLineEdit(text)
        field.setAccessibleName(label)
        if suggests:
            attach_suggestions(field, suggests)
        name = QLabel(label)
        name.setBuddy(field)
        row = self._grid.rowCount()
        self._grid.addWidget(name, row, 0)
        self._grid.addWidget(field, row, 1)
        self.fields[key] = field
        return field

    def add_vessels(self) -> None:
        """Add the fields of pot and fermenter."""
        for key, label, litres in (("pot", tr("Pot"), 9.0), ("fermenter", tr("Fermenter"), 12.0)):
            self.add_field(key, label, self._display.value(Kind.VOLUME, litres))
            ask_when_left(self.fields[key], self._display, Kind.VOLUME)

    def order_tabs(self) -> None:
        """Let Tab go through the fields and then to the button, which was made before them."""
        for before, after in pairwise([*self.fields.values(), self.button]):
            QWidget.setTabOrder(before, after)

    def take_focus(self) -> None:
        """Give the keyboard to the first field."""
        field = next(iter(self.fields.values()), None)
        if field is None:
            self.button.setFocus()
        else:
            field.setFocus()
            field.selectAll()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes from field to field to the button; with Ctrl it begins from any of them."""
        focus = self.focusWidget()
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.button.click()
        elif isinstance(focus, QLineEdit):
            self.focusNextChild()
        else:
            super().keyPressEvent(event)

    def read(self, key: str, kind: Kind) -> Quantity:
        """Return what a field says; raises RefusedInputError that names the field."""
        field = self.fields[key]
        with read_from(field):
            found = self._display.read(kind, field.text())
            return within_reach(found, LARGEST_POT_L, field.text())
