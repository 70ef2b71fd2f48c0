"""A figure of packaging that is typed: live while typing, marked where it cannot be taken."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QWheelEvent
from PySide6.QtWidgets import QLineEdit

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.number_pad import PadAtHand
from designer.window.parts.being_typed import show_anew, step, steps_of
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import FieldRefusedError, Refusal

Limits = tuple[float, float]


class FigureField(QLineEdit):
    """`take` gets a value with each key that makes one; `settle` is called when the field is left,
    `forget` where Escape takes back what was typed.

    What cannot be taken stays, marked, until it is mended or Escape brings the figure back.
    """

    def __init__(
        self,
        display: DisplayFormat,
        kind: Kind,
        name: str,
        limits: Limits,
        take: Callable[[float], object],
        settle: Callable[[], object],
        forget: Callable[[], object],
        words: Callable[[str], float | None] = lambda _: None,
    ) -> None:
        super().__init__()
        self._display, self._kind, self._limits = display, kind, limits
        self._take, self._settle, self._forget, self._words = take, settle, forget, words
        self._stands, self._is_typed = "", False
        self._refusal = Refusal(self)
        self.setAccessibleName(name)
        self.setMinimumHeight(36)
        self.textEdited.connect(self._try)
        self.returnPressed.connect(self._finish)
        self.at_hand = PadAtHand([self], display.settings)

    def show_value(self, value: float) -> None:
        """Show a value, unless another is being typed."""
        self._stands = self._display.short(self._kind, value)
        if not self._is_typed and self.text() != self._stands:
            show_anew(self, self._stands)
            if not self.hasFocus():
                self.setCursorPosition(0)

    def _read(self) -> float:
        text = self.text().strip()
        found = self._words(text)
        if found is None:
            found = self._display.read(self._kind, text, self._stands).value
        low, high = self._limits
        if not low <= found <= high:
            raise RefusedInputError(
                tr("from {low} to {high} would do", low=self._display.short(self._kind, low),
                   high=self._display.short(self._kind, high))
            )  # fmt: skip
        return found

    def _try(self, _: str) -> None:
        self._is_typed = True
        try:
            value = self._read()
        except RefusedInputError:
            return  # said when it is left: more may be typed
        self._take(value)

    def _finish(self) -> None:
        if not self._is_typed:
            return
        try:
            value = self._read()
        except RefusedInputError as fault:
            self._refusal.say(FieldRefusedError(self, str(fault)))
            return
        self._refusal.clear()
        self._is_typed = False
        self._take(value)
        self._settle()
        show_anew(self, self._stands)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() not in (
            Qt.FocusReason.PopupFocusReason,
            Qt.FocusReason.ActiveWindowFocusReason,
        ):
            self._finish()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down step the figure; Escape brings back what stood there."""
        if event.key() == Qt.Key.Key_Escape and self._is_typed:
            self._refusal.clear()
            self._is_typed = False
            self._forget()
            show_anew(self, self._stands)
        elif steps := steps_of(self, event):
            step(self, steps)
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Leave Undo and Redo to the log: a field's own would know nothing of other steps."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            both = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)
            if any(event.matches(each) for each in both):
                self._refusal.clear()
                self._is_typed = False
                event.ignore()
                return True
        return bool(super().event(event))

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()
