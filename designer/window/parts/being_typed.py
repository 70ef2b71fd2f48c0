"""What fields and cells do alike with a text that is being typed in them."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit

from designer.translation import message, tr
from designer.window.parts.display_format import stepped

EMPTIES_FIELD = message("{why}. Escape empties the field.")
EMPTIES_CELL = message("{why}. Escape empties the cell.")
COARSE_STEPS = 10.0
"""So many steps are one with Shift."""
_TOLD = "toldNotTaken"
"""The property that holds what a screen reader was told of a refusal."""
_STEPS = {Qt.Key.Key_Up: 1.0, Qt.Key.Key_Down: -1.0}


def mark(edit: QLineEdit, *, refused: bool, why: str = "") -> bool:
    """Show that what stands in an editor cannot be taken, or that it can; False if it is so.

    A screen reader is told `why`, in front of what it is told of the field otherwise: Qt has no
    state for an entry that is not valid.
    """
    _tell(edit, why if refused else "")
    if bool(edit.property("refused")) == refused:
        return False
    edit.setProperty("refused", refused)
    edit.style().unpolish(edit)
    edit.style().polish(edit)
    return True


def _tell(edit: QLineEdit, why: str) -> None:
    said, before = edit.property(_TOLD), edit.accessibleDescription()
    if said:
        before = before.removeprefix(said).lstrip()
    elif not why:
        return
    told = tr("Not taken: {why}", why=f"{why.rstrip('. ')}.") if why else ""
    edit.setProperty(_TOLD, told)
    edit.setAccessibleDescription(f"{told} {before}".strip())


def show_anew(edit: QLineEdit, text: str) -> None:
    """Show another text; what is chosen to be typed over stays so."""
    is_chosen = edit.hasSelectedText() and edit.selectedText() == edit.text()
    edit.setText(text)
    if is_chosen:
        edit.selectAll()


def steps_of(edit: QLineEdit, event: QKeyEvent) -> float:
    """Return how many steps a key moves the number in an editor; 0 for a key that moves none."""
    steps = _STEPS.get(Qt.Key(event.key()), 0.0) if edit.completer() is None else 0.0
    return steps * (COARSE_STEPS if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0)


def step(edit: QLineEdit, steps: float) -> bool:
    """Step the number in an editor as if it had been typed; False if there is none."""
    text = stepped(edit.text() or edit.placeholderText(), steps)
    if text is None:
        return False
    edit.setText(text)
    edit.textEdited.emit(text)
    return True


def with_way_back(why: str, stood: str, empties: str) -> str:
    """Return why a text is not taken, and what Escape brings back in its place.

    Where nothing stood, `empties` says both: `EMPTIES_FIELD` or `EMPTIES_CELL`.
    """
    why = why.rstrip(". ")
    if stood:
        return tr("{why}. Escape brings {stood} back.", why=why, stood=stood)
    return tr(empties, why=why)
