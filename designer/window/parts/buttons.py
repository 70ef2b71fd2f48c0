"""Buttons that say what they do, to the eye and to a screen reader."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton

from designer.translation import tr
from designer.window.parts.targets import WordButton


def button(text: str, tip: str, act: Callable[[], None]) -> QPushButton:
    """Return a button that says in its tip, and to a screen reader, what it does."""
    made = WordButton(text)
    made.setToolTip(tip)
    made.setAccessibleName(tr("{button}: {tip}", button=text.rstrip("…"), tip=tip))
    made.clicked.connect(lambda _checked=False: act())
    return made
