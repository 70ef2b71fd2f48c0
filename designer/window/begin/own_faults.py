"""What of the answers cannot be taken.

It may become something yet while it is typed: then its field is only marked. Why it is not taken is
said when the field is left, or when a recipe is to be begun all the same.
"""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtWidgets import QLineEdit, QWidget

from designer.errors import RefusedInputError
from designer.window.parts.being_typed import mark
from designer.window.parts.refusal import FieldRefusedError, Refusal


class AnswerFaults:
    """The one fault there is now; `places` are where answers are given, by their keys."""

    def __init__(self, refusal: Refusal, places: Mapping[str, QWidget]) -> None:
        self._refusal, self._places = refusal, places
        self._fault: RefusedInputError | None = None
        self._place: QWidget | None = None

    def note(self, fault: RefusedInputError, key: str = "") -> None:
        """Mark the answer at fault, which the fault or its key tells; say it if it was left."""
        place = fault.field if isinstance(fault, FieldRefusedError) else self._places.get(key)
        if place is not self._place:
            self.forget()
        self._fault, self._place = fault, place
        if isinstance(place, QLineEdit):
            mark(place, refused=True, why=str(fault))
        if place is None or not place.hasFocus():
            self.say()

    def readable(self) -> None:
        """All answers can be read again; whether they can be met is not known yet."""
        if isinstance(self._fault, FieldRefusedError):
            self.forget()

    def forget(self) -> None:
        """There is no fault any more."""
        place, self._fault, self._place = self._place, None, None
        self._refusal.clear()
        if isinstance(place, QLineEdit):
            mark(place, refused=False)

    def say(self) -> None:
        """Say why it is not taken."""
        if self._fault is not None:
            self._refusal.say(self._fault, self._place)

    def say_left(self, field: object) -> None:
        """A field was left: say why it is not taken, if it is the one."""
        if field is self._place:
            self.say()
