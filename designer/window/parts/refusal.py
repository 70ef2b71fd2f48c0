"""Why what a form asks for is not done: said beside the field at fault, moving nothing.

The field is marked and keeps its text; both signs go as soon as it is typed in again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLineEdit, QWidget

from designer.errors import RefusedInputError
from designer.window.parts.plain_text import tip

if TYPE_CHECKING:
    from designer.window.parts.beside_field import BesideField


class FieldRefusedError(RefusedInputError):
    """A text of a field of a form that cannot be taken."""

    def __init__(self, field: QWidget, fault: str) -> None:
        super().__init__(fault)
        self.field = field


class Refusal:
    """The one refusal of a form; `form` is what it is said beside where no field is at fault."""

    def __init__(self, form: QWidget) -> None:
        self._form = form
        self._place: QWidget | None = None
        self._text = self._tip = ""

    def say(self, fault: RefusedInputError | str, place: QWidget | None = None) -> None:
        """Say why beside the field at fault, which the fault may name, or beside `place`."""
        from designer.window.parts.beside_field import say_beside

        self.clear()
        found = fault.field if isinstance(fault, FieldRefusedError) else place or self._form
        self._text, self._place = str(fault), found
        words = self._text.removeprefix(f"{found.accessibleName()}: ")
        note = say_beside(found, words, refused=True, owner=self)
        if isinstance(found, QLineEdit):
            self._tip = found.toolTip()
            found.setToolTip(tip(f"Not taken: {words}"))
            _mark(found, refused=True)
            found.textEdited.connect(self.clear)
            found.editingFinished.connect(self._linger)
        if not found.hasFocus():
            note.linger()

    def _linger(self) -> None:
        """The field is left: the mark stays, the note goes once it could be read."""
        note = self._note(self._place) if self._place is not None else None
        if note is not None and note.owner is self:
            note.linger()

    def clear(self, _typed: str = "") -> None:
        """It is no longer so."""
        place, self._place = self._place, None
        if place is None:
            return
        if isinstance(place, QLineEdit):
            place.textEdited.disconnect(self.clear)
            place.editingFinished.disconnect(self._linger)
            place.setToolTip(self._tip)
            _mark(place, refused=False)
        note = self._note(place)
        if note is not None:
            note.withdraw(self)

    def text(self) -> str:
        """Return what was said last."""
        return self._text

    def isVisible(self) -> bool:
        """Whether it is seen."""
        note = self._note(self._place) if self._place is not None else None
        return note is not None and note.owner is self and note.isVisible()

    @staticmethod
    def _note(place: QWidget) -> BesideField | None:
        from designer.window.parts.beside_field import note_of

        return note_of(place)


def _mark(field: QLineEdit, *, refused: bool) -> None:
    field.setProperty("refused", refused)
    field.style().unpolish(field)
    field.style().polish(field)
