"""Leaving a step out, with a reason: usual ones to tap, or one's own."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from designer.translation import message, tr
from designer.window.brew.card_panel import CardPanel

REASONS = {
    "addition": (
        message("None in the house"),
        message("Too late for it now"),
        message("On purpose: I want less of it"),
    ),
    "read": (message("No instrument at hand"), message("No time for it")),
}
OTHER_REASONS = (
    message("Not needed here"),
    message("Done another way"),
    message("Too late for it now"),
)
NONE_SAID = message("no reason given")


class LeavingOut(CardPanel):
    """Asks why a step is left out; `left_out` carries its key and the reason."""

    left_out = Signal(str, str)

    def __init__(self, card: QWidget) -> None:
        super().__init__(card, "", tr("Another reason"), tr("Leave it out"))
        self._key = ""
        self.answered.connect(self._leave)

    def ask_about(self, key: str, kind: str, title: str) -> None:
        """Ask why that step is left out."""
        self._key = key
        reasons = REASONS.get("addition" if kind == "extract" else kind, OTHER_REASONS)
        self.offer([tr(each) for each in reasons], self._take)
        self.ask(tr("Leave out {step}. Why?", step=title))

    def _take(self, reason: str) -> None:
        self.field.setText(reason)
        self.carry_out()

    def _leave(self, reason: str) -> None:
        self.left_out.emit(self._key, reason or tr(NONE_SAID))
