"""Waiting until a widget has been painted; a clock alone would not know of a busy machine."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget

UNSEEN_MS = 30
LONGEST_MS = 1000
"""How long is waited for a widget that lies on no page that is seen; for any other."""


class _OncePainted(QObject):
    def __init__(self, widget: QWidget, act: Callable[[], None]) -> None:
        super().__init__(widget)
        self._widget, self._act = widget, act
        self._later = QTimer(self, singleShot=True)
        self._later.timeout.connect(self._go_on)
        # The page, not the widget: one that was just put there is shown a turn later.
        page = widget.parentWidget() or widget
        self._later.start(LONGEST_MS if page.isVisible() else UNSEEN_MS)
        widget.installEventFilter(self)
        widget.update()  # one that was painted before this would not be painted again by itself

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint:
            self._widget.removeEventFilter(self)
            self._later.start(0)  # it is being painted now
        return False

    def _go_on(self) -> None:
        self._widget.removeEventFilter(self)
        self._act()
        self.deleteLater()


def once_painted(widget: QWidget, act: Callable[[], None]) -> None:
    """Do something once a widget has been painted, or is not seen for so long."""
    _OncePainted(widget, act)
