"""The screen stays lit during a brew, where the desktop allows it; where not, that is said.

On Linux the desktop is asked over D-Bus, on a connection of our own: when that is closed, and be it
by the end of the process, the screen may sleep again. Windows is asked by a call, macOS by its
program `caffeinate`; neither has been tried.
"""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QProcess, Signal

from designer.translation import message, tr

if TYPE_CHECKING:
    from PySide6.QtDBus import QDBusConnection, QDBusPendingCallWatcher

AWAKE = message("The screen stays on while you brew.")
MAY_SLEEP = message(
    "The screen may go dark: this desktop does not let a program keep it on. Set it longer there."
)
_CONNECTION = "hobwort-screen"
_SERVICES = (
    ("org.freedesktop.ScreenSaver", "/org/freedesktop/ScreenSaver"),
    ("org.freedesktop.ScreenSaver", "/ScreenSaver"),
    ("org.freedesktop.PowerManagement.Inhibit", "/org/freedesktop/PowerManagement/Inhibit"),
)
_TIMEOUT_MS = 3000
_ES_CONTINUOUS, _ES_DISPLAY_REQUIRED = 0x80000000, 0x00000002


class ScreenAwake(QObject):
    """Keeps the screen on while wanted; `answered` tells whether the desktop does so."""

    answered = Signal(bool)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.wanted = False
        self.awake: bool | None = None
        """Whether the desktop keeps it on; None while that is not known."""
        self._bus: QDBusConnection | None = None
        self._left: list[tuple[str, str]] = []
        self._watcher: QDBusPendingCallWatcher | None = None
        self._process: QProcess | None = None

    def in_words(self) -> str:
        """Return what becomes of the screen; "" while that is not known."""
        if not self.wanted or self.awake is None:
            return ""
        return tr(AWAKE if self.awake else MAY_SLEEP)

    def keep(self, wanted: bool) -> None:
        """Keep the screen on from now on, or no more."""
        if wanted == self.wanted:
            return
        self.wanted, self.awake = wanted, None
        if sys.platform == "win32":
            _ask_windows(wanted)
            self._answer(True)
        elif sys.platform == "darwin":
            self._ask_mac()
        else:
            self._ask_desktop()

    def _answer(self, awake: bool) -> None:
        self.awake = awake
        if self.wanted:
            self.answered.emit(awake)

    def _ask_mac(self) -> None:
        if self._process is not None:
            self._process.kill()
            self._process = None
        if self.wanted:
            self._process = QProcess(self)
            self._process.errorOccurred.connect(lambda _: self._answer(False))
            self._process.start("caffeinate", ["-d", "-w", str(os.getpid())])
            self._answer(True)

    def _ask_desktop(self) -> None:
        # Loaded with the first brew and not with the window.
        try:
            from PySide6.QtDBus import QDBusConnection
        except ImportError:
            self._answer(False)
            return
        self._watcher = None
        if self._bus is not None:
            QDBusConnection.disconnectFromBus(_CONNECTION)
            self._bus = None
        if not self.wanted:
            return
        bus = QDBusConnection.connectToBus(QDBusConnection.BusType.SessionBus, _CONNECTION)
        self._bus, self._left = bus, list(_SERVICES)
        if bus.isConnected():
            self._ask_next()
        else:
            self._answer(False)

    def _ask_next(self) -> None:
        from PySide6.QtDBus import QDBusMessage, QDBusPendingCallWatcher

        if not self._left or self._bus is None:
            self._answer(False)
            return
        service, path = self._left.pop(0)
        call = QDBusMessage.createMethodCall(service, path, service, "Inhibit")
        call.setArguments(["Hobwort", tr("Brew day")])
        self._watcher = QDBusPendingCallWatcher(self._bus.asyncCall(call, _TIMEOUT_MS), self)
        self._watcher.finished.connect(self._take)

    def _take(self, watcher: QDBusPendingCallWatcher) -> None:
        if watcher is not self._watcher:
            return
        if watcher.isError():
            self._ask_next()
        else:
            self._answer(True)


def _ask_windows(wanted: bool) -> None:
    if sys.platform == "win32":
        import ctypes

        state = _ES_CONTINUOUS | (_ES_DISPLAY_REQUIRED if wanted else 0)
        ctypes.windll.kernel32.SetThreadExecutionState(state)
