"""A timer of one's own: how many minutes, and what for."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.card_panel import CardPanel
from designer.window.brew.number_pad import PadAtHand
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import FieldRefusedError, Refusal
from designer.window.parts.targets import TARGET_PX

USUAL_MIN = (2, 5, 10, 15, 20, 30, 60)
LONGEST_MIN = 24 * 60.0


class NewTimer(CardPanel):
    """Asks for minutes and a name; `wanted` carries both."""

    wanted = Signal(float, str)

    def __init__(self, card: QWidget, display: DisplayFormat) -> None:
        super().__init__(card, tr("New timer"), tr("Minutes"), tr("Start"))
        self._display = display
        self.name = QLineEdit()
        self.name.setMinimumHeight(TARGET_PX)
        self.name.setPlaceholderText(tr("What for (may be left empty)"))
        self.name.setAccessibleName(tr("What the timer is for"))
        self.name.returnPressed.connect(self.carry_out)
        self.rows.insertWidget(self.rows.indexOf(self.field) + 1, self.name)
        self.offer([tr("{minutes} min", minutes=each) for each in USUAL_MIN], self._take)
        self.refusal = Refusal(self.field)
        self.at_hand = PadAtHand([self.field], display.settings)

    def ask_for_one(self) -> None:
        """Ask for another timer."""
        self.name.clear()
        self.refusal.clear()
        self.ask()

    def _take(self, minutes: str) -> None:
        self.field.setText(minutes)
        self.carry_out()

    def carry_out(self) -> None:
        """Start the timer, or say what is amiss with its minutes."""
        try:
            minutes = self._minutes()
        except RefusedInputError as fault:
            self.refusal.say(fault)
            self.field.setFocus()
            return
        name = self.name.text().strip()
        self.put_away()
        self.wanted.emit(minutes, name)

    def _minutes(self) -> float:
        try:
            minutes = self._display.read(Kind.TIME, self.field.text()).value
        except RefusedInputError as fault:
            raise FieldRefusedError(self.field, str(fault)) from None
        if not 0.0 < minutes <= LONGEST_MIN:
            why = tr("A timer runs from a few seconds up to a day: 5 min, 90 s, 2 h")
            raise FieldRefusedError(self.field, why)
        return minutes
