"""A word in the desktop's tray while nobody looks at the window; where there is none, none."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QSystemTrayIcon, QWidget

from designer.window.parts.own_icon import own_icon

NOTICE_MS = 10_000


def _nothing() -> None:
    """What follows a click where nothing has to."""


def to_the_front(window: QWidget) -> None:
    """Bring a window to the front, as far as the desktop lets a program do so."""
    if window.isMinimized():
        window.showNormal()
    window.raise_()
    window.activateWindow()


class Tray(QObject):
    """The sign of the program in the tray, there from the first word on."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._icon: QSystemTrayIcon | None = None
        self._follow: Callable[[], object] = _nothing

    def say(self, title: str, text: str, follow: Callable[[], object] = _nothing) -> bool:
        """Say something; a click on it brings the window to the front and then does `follow`.

        False where there is no tray that says anything.
        """
        if not (QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages()):
            return False
        if self._icon is None:
            self._icon = QSystemTrayIcon(own_icon(), self)
            self._icon.messageClicked.connect(self.open)
        self._follow = follow
        self._icon.show()
        icon = QSystemTrayIcon.MessageIcon.Information
        self._icon.showMessage(title, text, icon, NOTICE_MS)
        return True

    def open(self) -> None:
        """Bring the window to the front, and what the word was about with it."""
        to_the_front(self._window)
        self._follow()

    def put_away(self) -> None:
        """There is nothing more to say."""
        if self._icon is not None:
            self._icon.hide()
