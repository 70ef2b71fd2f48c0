"""Taking direction and control marks out of what is pasted into a field, with a word beside it."""

from __future__ import annotations

from PySide6.QtWidgets import QLineEdit

from designer.units.marks import DROPPED, without_marks


def taken_out(edit: QLineEdit, text: str) -> str:
    """Return the text of an editor without such marks; if it had some, the editor shows it so."""
    clean = without_marks(text)
    if clean == text:
        return text
    from designer.window.parts.beside_field import say_beside

    place = len(without_marks(text[: edit.cursorPosition()]))
    edit.setText(clean)
    edit.setCursorPosition(place)
    say_beside(edit, DROPPED, owner=edit).linger()
    return clean
