"""What is asked once, at the first start: units, pot and fermenter; all of it may be skipped."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from designer.errors import RefusedInputError
from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units import ShownUnits
from designer.window.begin.own_switch import Switch
from designer.window.begin.vessel_answers import LARGEST_L
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.flow import FlowLayout
from designer.window.parts.refusal import Refusal, read_from, within_reach

EXAMPLES = {
    ShownUnits.METRIC: {"pot": "9 L", "fermenter": "12 L"},
    ShownUnits.US: {"pot": "2.5 gal", "fermenter": "3 gal"},
}
"""What stands in the empty fields, to show how a size may be typed."""


class WelcomeLine(QFrame):
    """One friendly line. `answered` carries the pot and the fermenter, None for one not told."""

    answered = Signal(object, object)
    skipped = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display = display
        self.units = Switch(
            tr("Units"), [(str(ShownUnits.METRIC), tr("Metric")), (str(ShownUnits.US), tr("US"))]
        )
        us = display.settings.units is ShownUnits.US
        self.units.choose(str(ShownUnits.US if us else ShownUnits.METRIC))
        self.units.chosen.connect(self._choose_units)
        self.fields = {"pot": QLineEdit(), "fermenter": QLineEdit()}
        self.keep, self.skip = QPushButton(tr("Keep these")), QPushButton(tr("Skip"))
        self.skip.setObjectName("cure")
        self.refusal = Refusal(self.keep)
        inside = QWidget()
        layout = FlowLayout(inside, across=8)
        around = QHBoxLayout(self)
        around.setContentsMargins(12, 6, 12, 6)
        around.addWidget(inside)
        layout.addWidget(QLabel(tr("You measure in")))
        layout.addWidget(self.units)
        layout.addWidget(self._asked("pot", tr("your pot holds"), tr("Size of your pot")))
        layout.addWidget(
            self._asked("fermenter", tr("your fermenter"), tr("Size of your fermenter"))
        )
        layout.addWidget(self.keep)
        layout.addWidget(self.skip)
        self.keep.clicked.connect(self.take)
        self.skip.clicked.connect(self.skipped)
        self._show_examples()

    def _asked(self, key: str, words: str, name: str) -> QWidget:
        field, label = self.fields[key], QLabel(words)
        field.setAccessibleName(name)
        field.setFixedWidth(66)
        label.setBuddy(field)
        ask_when_left(field, self._display, Kind.VOLUME)
        both = QWidget()
        row = QHBoxLayout(both)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(label)
        row.addWidget(field)
        return both

    def _choose_units(self, key: str) -> None:
        self._display.settings.units = ShownUnits(key)
        self._show_examples()

    def _show_examples(self) -> None:
        for key, text in EXAMPLES[ShownUnits(self.units.key())].items():
            self.fields[key].setPlaceholderText(self._display.decimal(text))

    def _read(self, key: str) -> str:
        """Return a size as it is typed, "" for none; raises RefusedInputError naming the field."""
        field = self.fields[key]
        if not field.text().strip():
            return ""
        with read_from(field):
            found = self._display.read(Kind.VOLUME, field.text())
            return within_reach(found, LARGEST_L, field.text()).text

    def take(self) -> None:
        """Take the answers, or say why one cannot be taken."""
        try:
            pot, fermenter = self._read("pot"), self._read("fermenter")
        except RefusedInputError as fault:
            self.refusal.say(fault)
            return
        self.refusal.clear()
        self.answered.emit(
            PotRecord(tr("Pot"), pot) if pot else None,
            FermenterRecord(tr("Fermenter"), fermenter) if fermenter else None,
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes from field to field, and takes the answers after the last one."""
        focus = self.focusWidget()
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif focus is self.fields["pot"]:
            self.fields["fermenter"].setFocus()
        elif focus is self.fields["fermenter"]:
            self.take()
        else:
            super().keyPressEvent(event)
