"""What pages share: what the window asks of each, margin, heading, a column that scrolls."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QWidget

from designer.window.parts.scrolling import own_viewport

MARGIN = 18


class Page(QWidget):
    """One of the window's pages."""

    def take_focus(self) -> None:
        """Take the keyboard: the page has just been shown."""

    def begin_search(self) -> bool:
        """Go to the page's own search; False where it has none."""
        return False

    def close_down(self) -> None:
        """Let go of what goes on beside the page, for the end of the program."""


def heading(text: str) -> QLabel:
    """Return the heading of a panel."""
    label = QLabel(text.upper())
    label.setObjectName("sectionHeading")
    return label


def scrolled(content: QWidget, parent: QWidget | None = None) -> QScrollArea:
    """Return a column that scrolls when it is taller than the window.

    With a style sheet each widget is polished anew at each new parent of what it lies in: what is
    put together later is made soonest in its place, within a `parent`.
    """
    area = QScrollArea(parent)
    own_viewport(area)
    area.setWidget(content)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    content.setAutoFillBackground(False)
    return area
