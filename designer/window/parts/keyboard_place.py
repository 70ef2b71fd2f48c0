"""Where the keyboard is, or was before a menu took it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QKeyCombination, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QLineEdit,
    QMenu,
    QMenuBar,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)
from shiboken6 import isValid

EDITORS = (QLineEdit, QPlainTextEdit, QTextEdit, QAbstractSpinBox)
OF_THE_WINDOW = frozenset({QKeyCombination(Qt.KeyboardModifier.ControlModifier, Qt.Key.Key_K)})
"""Keys that mean the window even in an editor, where some desktops delete to the end with them."""


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

    def _follow(self, before: QWidget | None, now: QWidget | None) -> None:
        if before is not None and isValid(before):
            before.removeEventFilter(self)
        if now is None or isinstance(now, QMenuBar | QMenu) or now.window() is not self._window:
            return
        if isinstance(now, EDITORS):
            now.installEventFilter(self)
        self._at = [now]
        around = now.parentWidget()
        while around is not None:
            if isinstance(around, QAbstractItemView):
                self._at.append(around)
                break
            around = around.parentWidget()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Leave the keys of the window to it; the filter is on the editor with the keyboard."""
        if event.type() != QEvent.Type.ShortcutOverride or not isinstance(event, QKeyEvent):
            return False
        is_kept: bool = event.keyCombination() in OF_THE_WINDOW
        if is_kept:
            event.ignore()
        return is_kept
