"""Why what a form asks for is not done: said beside the field at fault, moving nothing.

The field is marked and keeps its text; both signs go as soon as it is typed in again.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtWidgets import QLineEdit, QWidget

from designer.errors import RefusedInputError
from designer.recipe.quantity import Quantity
from designer.translation import tr
from designer.window.parts.being_typed import mark
from designer.window.parts.notes import Notes
from designer.window.parts.plain_text import tip


class FieldRefusedError(RefusedInputError):
    """A text of a field of a form that cannot be taken; `why` is told beside the field itself."""

    def __init__(self, field: QWidget, why: str) -> None:
        super().__init__(tr("{place}: {fault}", place=field.accessibleName(), fault=why))
        self.field, self.why = field, why


@contextmanager
def read_from(field: QWidget) -> Iterator[None]:
    """Let what is refused in the block be refused of the field, by its name."""
    try:
        yield
    except RefusedInputError as fault:
        raise FieldRefusedError(field, str(fault)) from None


def within_reach(found: Quantity, most: float, typed: str) -> Quantity:
    """Return what was typed; raises RefusedInputError below 0 or above `most`."""
    if not 0.0 <= found.value <= most:
        raise RefusedInputError(tr("“{typed}” is out of reach", typed=typed))
    return found


class Refusal:
    """The one refusal of a form; `form` is what it is said beside where no field is at fault."""

    def __init__(self, form: QWidget) -> None:
        self._form, self._notes = form, Notes(self)
        self._place: QWidget | None = None
        self._text = self._tip = ""

    def say(self, fault: RefusedInputError | str, place: QWidget | None = None) -> None:
        """Say why beside the field at fault, which the fault may name, or beside `place`."""
        self.clear()
        found, words = place or self._form, str(fault)
        if isinstance(fault, FieldRefusedError):
            found, words = fault.field, fault.why
        self._text, self._place = str(fault), found
        self._notes.say(found, words, refused=True, lingers=not found.hasFocus())
        if isinstance(found, QLineEdit):
            self._tip = found.toolTip()
            found.setToolTip(tip(tr("Not taken: {why}", why=words)))
            mark(found, refused=True, why=words)
            found.textEdited.connect(self.clear)
            found.editingFinished.connect(self._linger)

    def _linger(self) -> None:
        """The field is left: the mark stays, the note goes once it could be read."""
        self._notes.linger(self._place)

    def clear(self, _typed: str = "") -> None:
        """It is no longer so."""
        place, self._place = self._place, None
        if place is None:
            return
        if isinstance(place, QLineEdit):
            place.textEdited.disconnect(self.clear)
            place.editingFinished.disconnect(self._linger)
            place.setToolTip(self._tip)
            mark(place, refused=False)
        self._notes.withdraw(place)

    def text(self) -> str:
        """Return what was said last."""
        return self._text

    def isVisible(self) -> bool:
        """Whether it is seen."""
        note = self._notes.of(self._place)
        return note is not None and note.isVisible()
