"""Where the keyboard is, or was before a menu took it."""

from __future__ import annotations

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QAbstractItemView, QApplication, QMenu, QMenuBar, QWidget
from shiboken6 import isValid


class KeyboardPlace(QObject):
    """Follows the keyboard within a window; a menu bar that takes it acts on what had it before."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._at: list[QWidget] = []
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._follow)
        self._follow(None, QApplication.focusWidget())

    @property
    def widget(self) -> QWidget | None:
        """What has the keyboard, or the table around it where an editor has closed meanwhile."""
        return next((each for each in self._at if isValid(each) and each.isVisible()), None)

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        if now is None or isinstance(now, QMenuBar | QMenu) or now.window() is not self._window:
            return
        self._at = [now]
        around = now.parentWidget()
        while around is not None:
            if isinstance(around, QAbstractItemView):
                self._at.append(around)
                break
            around = around.parentWidget()
