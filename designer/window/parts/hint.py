"""What can be done with a widget, as a tip behind which the meanings of its terms may stand."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

_HINT = "hint"


def set_hint(widget: QWidget, text: str) -> None:
    """Let a widget have a tip; the window shows it, with what the widget's terms mean."""
    widget.setProperty(_HINT, text)


def hint_of(widget: QWidget) -> str:
    """Return that tip; nothing where there is none."""
    return str(widget.property(_HINT) or "")
