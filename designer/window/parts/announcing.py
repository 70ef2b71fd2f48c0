"""What a screen reader says without being asked for it.

A change is told once it has stood for a moment, so that typing is not talked over, and only what
has changed since it was last told. What is grave is told at once. While nobody listens nothing is
put into words at all.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

REST_MS = 1000
"""A change has to stand so long before it is told."""


def announce(widget: QWidget, text: str, *, grave: bool = False) -> None:
    """Let a screen reader say a text; what is grave breaks into what is being said."""
    if not text or not QAccessible.isActive():
        return
    event = QAccessibleAnnouncementEvent(widget, text)
    if grave:
        event.setPoliteness(QAccessible.AnnouncementPoliteness.Assertive)
    QAccessible.updateAccessibility(event)


class Rested(QObject):
    """Announces what has become of a widget once it rests; `words` says it, "" for nothing new."""

    def __init__(self, widget: QWidget, words: Callable[[], str]) -> None:
        super().__init__(widget)
        self._widget, self._words = widget, words
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._tell)

    def changed(self) -> None:
        """Hear that something has changed: it is told when nothing more does."""
        if QAccessible.isActive():
            self._rest.start()

    def _tell(self) -> None:
        if self._widget.isVisible():
            announce(self._widget, self._words())
