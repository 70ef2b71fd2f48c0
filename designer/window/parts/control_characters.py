"""Taking direction and control marks out of what is pasted into a field, with a word beside it."""

from __future__ import annotations

from PySide6.QtWidgets import QLineEdit

from designer.translation import tr
from designer.units.control_characters import DROPPED, without_control_characters
from designer.window.parts.notes import Notes


def taken_out(edit: QLineEdit, text: str) -> str:
    """Return the text of an editor without such marks; if it had some, the editor shows it so."""
    clean = without_control_characters(text)
    if clean == text:
        return text
    place = len(without_control_characters(text[: edit.cursorPosition()]))
    edit.setText(clean)
    edit.setCursorPosition(place)
    Notes(edit).say(edit, tr(DROPPED), lingers=True)
    return clean
