"""Type a temperature of the beer or its room, or take many from a table that a logger wrote."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.fermenting.form_rows import BeerForm, Moment
from designer.window.brew.fermenting.reading_form import MINUTE_S
from designer.window.brew.large_button import LargeButton
from designer.window.brew.number_pad import PadAtHand
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import FieldRefusedError, read_from

COLDEST_C, HOTTEST_C = -10.0, 50.0


class WarmthForm(BeerForm):
    """`taken` carries when and °C, and what was typed; `file_wanted` asks for a table."""

    taken = Signal(float, float, str)
    file_wanted = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__(tr("Type a temperature"), tr("Keep the temperature"))
        self._display = display
        self._pitched = self._now = 0.0
        self.value = QLineEdit()
        self.moment = Moment(self)
        self.file_button = LargeButton(
            tr("From a table…"), tr("Times and temperatures that a logger wrote, as CSV"),
            self._ask_file,
        )  # fmt: skip
        self.ways.addWidget(self.file_button)
        self.place(0, 0, tr("Beer or room is at"), self.value)
        self.place(1, 0, tr("Day"), self.moment.day)
        self.place(1, 1, tr("Time"), self.moment.clock)
        self.at_hand = PadAtHand([self.value], display.settings)

    def ask(self, pitched: float, now: float) -> None:
        """Ask for a temperature since the yeast went in."""
        self._pitched, self._now = pitched, now
        self.value.clear()
        self.value.setPlaceholderText(self._display.single(Kind.TEMPERATURE, 19.0))
        self.moment.show_wall(now)
        self.refusal.clear()
        self.value.setFocus(Qt.FocusReason.OtherFocusReason)

    def carry_out(self) -> None:
        """Keep the temperature, or say what is wrong with it."""
        try:
            with read_from(self.value):
                found = self._display.read(Kind.TEMPERATURE, self.value.text())
                if not COLDEST_C <= found.value <= HOTTEST_C:
                    raise RefusedInputError(
                        tr("no room is at {temperature}; is there a slip in it?",
                           temperature=found.text)
                    )  # fmt: skip
            wall = self.moment.wall
            if not self._pitched - 86_400.0 <= wall <= self._now + MINUTE_S:
                raise FieldRefusedError(
                    self.moment.day, tr("a day from the yeast on until now is wanted")
                )
        except RefusedInputError as fault:
            self.refusal.say(fault)
            return
        self.put_away()
        self.taken.emit(wall, found.value, found.text)

    def _ask_file(self) -> None:
        self.put_away()
        self.file_wanted.emit()
