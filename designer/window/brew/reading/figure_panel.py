"""Asks for the figure that a test shows: the level in the fermenter, the hydrometer in water."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from designer.brewday.explaining.asked import Answer, TestCode
from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.brew.card_panel import CardPanel
from designer.window.brew.number_pad import PadAtHand
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import FieldRefusedError, Refusal

KG_PER_LITRE = 1.045
"""Of wort, within a hundredth; what was read of it tells nothing while it is in doubt."""
MOST_L = 1000.0
LOW_SG, HIGH_SG = 0.98, 1.02
"""What a hydrometer that floats can show in water (judgement)."""
QUESTIONS = {
    TestCode.WEIGH: message("Where does the level stand, or what does the wort weigh?"),
    TestCode.WATER_CHECK: message("What does it show in plain water?"),
}


class FigurePanel(CardPanel):
    """Lies over the card of the test; `given` carries the test and what was typed."""

    given = Signal(object, str)

    def __init__(self, over: QWidget, display: DisplayFormat) -> None:
        super().__init__(over, "", tr("Figure"), tr("Take it"))
        self._display = display
        self._code = TestCode.WEIGH
        self._refusal = Refusal(self)
        self.at_hand = PadAtHand([self.field], display.settings)
        self.answered.connect(lambda text: self.given.emit(self._code, text))

    def ask_for(self, code: TestCode, text: str = "") -> None:
        """Ask what a test shows."""
        self._code = code
        is_water = code is TestCode.WATER_CHECK
        example = (
            self._display.decimal("1.000") if is_water else self._display.short(Kind.VOLUME, 10.0)
        )
        self.field.setPlaceholderText(example)
        self.field.setAccessibleName(tr(QUESTIONS[code]))
        self.ask(tr(QUESTIONS[code]), text)

    def refuse(self, code: TestCode, text: str, why: str) -> None:
        """Ask again, and say beside the field why it is not taken."""
        self.ask_for(code, text)
        self._refusal.say(FieldRefusedError(self.field, why))

    def read(self, code: TestCode, text: str) -> tuple[Answer, str, str]:
        """Return what a figure answers, in words too, and "mark" for a level.

        Raises RefusedInputError.
        """
        if code is TestCode.WATER_CHECK:
            shown = self._display.read(Kind.GRAVITY, text).value
            if not LOW_SG <= shown <= HIGH_SG:
                raise RefusedInputError(
                    tr(
                        "In plain water a hydrometer shows {low} to {high}",
                        low=self._display.short(Kind.GRAVITY, LOW_SG),
                        high=self._display.short(Kind.GRAVITY, HIGH_SG),
                    )
                )
            return Answer(code, value=shown), self._display.short(Kind.GRAVITY, shown), ""
        return self._level(code, text)

    def _level(self, code: TestCode, text: str) -> tuple[Answer, str, str]:
        try:
            found, by = self._display.read(Kind.VOLUME, text), "mark"
            litres = found.value
        except RefusedInputError as fault:
            try:
                found, by = self._display.read(Kind.MASS, text), ""
            except RefusedInputError:
                raise fault from None
            litres = found.value / KG_PER_LITRE
        if not 0.0 < litres <= MOST_L:
            raise RefusedInputError(tr("That is no volume of a fermenter"))
        return Answer(code, value=litres), found.text, by
