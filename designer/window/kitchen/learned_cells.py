"""What the tables of *What your kitchen taught* are made of."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QGridLayout, QLabel


def label(text: str, look: str = "", *, wraps: bool = False) -> QLabel:
    """Return plain text; `look` is "soft", "strong" or nothing."""
    made = QLabel(text)
    made.setObjectName(look)
    made.setTextFormat(made.textFormat().PlainText)
    made.setWordWrap(wraps)
    return made


def rule() -> QFrame:
    """Return a thin line across."""
    made = QFrame()
    made.setObjectName("rule")
    made.setFixedHeight(1)
    return made


def empty(grid: QGridLayout) -> None:
    """Take out all that stands in a grid."""
    while (item := grid.takeAt(0)) is not None:
        widget = item.widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
