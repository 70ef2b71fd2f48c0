"""What was read of a pot: two readings give its evaporation, or how fast it cools in a bath."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.parts.buttons import button
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.refusal import FieldRefusedError, Refusal, read_from
from designer.workbench.vessel_calibration import cooling_text, evaporation_text

FIELD_SIGNS = "100,00 °C"
"""As much as is typed into a field."""


class CalibrationCard(QFrame):
    """Two lines of fields, each with a button that works out a figure of the chosen pot.

    `worked_out` is asked for with the field of a pot, `evaporation` or `cooling_constant`.
    """

    worked_out = Signal(str)

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._display = display
        self.fields: dict[str, QLineEdit] = {}
        self.refusal = Refusal(self)
        evaporation = (
            self._field("before", tr("before"), "6 L", tr("Water before the boil")),
            self._field("after", tr("after"), "5.1 L", tr("Water left after the boil")),
            self._field("boiled", tr("boiled for"), "60 min", tr("Time it boiled")),
        )
        cooling = (
            self._field("hot", tr("from"), "100 °C", tr("Temperature at the beginning")),
            self._field("cool", tr("to"), "40 °C", tr("Temperature at the end")),
            self._field("bath", tr("bath at"), "12 °C", tr("Temperature of the bath")),
            self._field("cooled", tr("took"), "25 min", tr("Time it took")),
        )
        told = (
            QLabel(tr("Measure evaporation with plain water, both read cold:")),
            QLabel(tr("Measure cooling in the bath you use:")),
        )
        _set_below_each_other(told)
        for column in zip(evaporation, cooling, strict=False):
            _set_below_each_other([name for name, _ in column])
        lines = QVBoxLayout(self)
        lines.setContentsMargins(12, 6, 12, 8)
        for what, named, of, tip in (
            (told[0], evaporation, "evaporation", tr("Evaporation of the chosen pot")),
            (told[1], cooling, "cooling_constant", tr("Cooling constant of the chosen pot")),
        ):
            work_out = button(tr("Work it out"), tip, partial(self.worked_out.emit, of))
            lines.addLayout(_line(what, named, work_out))

    def _field(self, key: str, label: str, usual: str, what: str) -> tuple[QLabel, QLineEdit]:
        edit = QLineEdit()
        edit.setPlaceholderText(self._display.decimal(usual))
        edit.setAccessibleName(what)
        edit.setFixedWidth(edit.fontMetrics().horizontalAdvance(FIELD_SIGNS) + 18)
        name = QLabel(label)
        name.setBuddy(edit)
        self.fields[key] = edit
        return name, edit

    def figure(self, of: str) -> str:
        """Return what was read as the text of a field of a pot; raises RefusedInputError."""
        return self._evaporation() if of == "evaporation" else self._cooling()

    def say(self, fault: RefusedInputError, of: str) -> None:
        """Say beside the field at fault why nothing can be worked out."""
        self.refusal.say(fault, self.fields["after" if of == "evaporation" else "cool"])

    def _evaporation(self) -> str:
        before, after = (self._read(key, Kind.VOLUME) for key in ("before", "after"))
        return evaporation_text(before, after, self._read("boiled", Kind.TIME))

    def _cooling(self) -> str:
        hot, cool, bath = (self._read(key, Kind.TEMPERATURE) for key in ("hot", "cool", "bath"))
        return cooling_text(hot, cool, bath, self._read("cooled", Kind.TIME))

    def _read(self, key: str, kind: Kind) -> float:
        field = self.fields[key]
        if not field.text().strip():  # what stands pale in it is an example, and nobody read it
            raise FieldRefusedError(field, tr("Type what you read."))
        with read_from(field):
            return self._display.read(kind, field.text()).value


def _line(
    what: QLabel, fields: Sequence[tuple[QLabel, QLineEdit]], work_out: QWidget
) -> FlowLayout:
    """Return fields beside each other, each with its name, in as many lines as the width wants."""
    line = FlowLayout(across=10, down=4)
    line.addWidget(what)
    for name, edit in fields:
        pair = QWidget()
        beside = QHBoxLayout(pair)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addWidget(name)
        beside.addWidget(edit)
        line.addWidget(pair)
    line.addWidget(work_out)
    return line


def _set_below_each_other(names: Sequence[QLabel]) -> None:
    """Have names as wide as the widest, so that what follows stands in a column."""
    widest = max(each.sizeHint().width() for each in names)
    for each in names:
        each.setMinimumWidth(widest)
