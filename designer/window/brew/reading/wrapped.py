"""Text in as many lines as it takes, in a type so much larger than the usual."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication, QLabel, QSizePolicy


def wrapped(text: str = "", name: str = "", *, times: float = 1.0, bold: bool = False) -> QLabel:
    """Return a label that wraps; `name` is that of its look."""
    label = QLabel(text)
    if name:
        label.setObjectName(name)
    if times != 1.0 or bold:
        font = QFont()
        font.setPointSizeF(times * QApplication.font().pointSizeF())
        font.setBold(bold)
        label.setFont(font)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
    return label
