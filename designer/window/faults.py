"""What happens when the program itself is at fault: it is logged and told, and work is kept."""

from __future__ import annotations

import signal
import sys
import threading
import time
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from shiboken6 import isValid

from designer.translation import tr

if TYPE_CHECKING:
    from designer.window.main_window import MainWindow

AGAIN_S = 30.0
"""A fault is told again after so long: one in painting comes back sixty times a second."""


class FaultCatcher(QObject):
    """Takes the place of `sys.excepthook` while a window is open."""

    _elsewhere = Signal(object)

    def __init__(self, window: MainWindow, store: Callable[[], Path]) -> None:
        super().__init__()
        self._window, self._store = window, store
        self._told_at: float | None = None
        self._elsewhere.connect(self._take, Qt.ConnectionType.QueuedConnection)

    def __call__(
        self, kind: type[BaseException], fault: BaseException, trace: TracebackType | None
    ) -> None:
        """Log the fault, keep a copy of the recipe and tell the brewer; not more than needed."""
        sys.stderr.write("".join(traceback.format_exception(kind, fault, trace)))
        if threading.current_thread() is threading.main_thread():
            self._take(fault)
        elif isValid(self):
            self._elsewhere.emit(fault)  # widgets are touched on the window's thread alone

    def _take(self, fault: BaseException) -> None:
        now = time.monotonic()
        if self._told_at is not None and now - self._told_at < AGAIN_S:
            return
        self._told_at = now
        if isValid(self._window):
            self._tell(fault)

    def _tell(self, fault: BaseException) -> None:
        from designer.library.recipe_file import document_text
        from designer.window.system_words import system_words
        from designer.workbench.fault_folder import keep_fault
        from designer.workbench.problem_words import fault_words, home_words
        from designer.workbench.support_log import Noted, note

        note(Noted.FAULT, type(fault))
        window = self._window
        ways = [(tr("Report a problem…"), window.report_problem)]
        shown = f"{system_words()}\n\n{fault_words(fault)}"
        whole = "".join(traceback.format_exception(fault))
        try:
            recipe = document_text(window.opened.recipe)
            _, copy = keep_fault(self._store(), shown, whole, recipe)
        except OSError:
            said = tr("Something in the program went wrong. Save your recipe now.")
        else:
            said = tr(
                "Something in the program went wrong. You can go on; your recipe as it was is also "
                "kept in {place}.",
                place=home_words(copy),
            )
        window.messages.say(said, grave=True, actions=ways, topic="a fault")


def close_on_ctrl_c(window: MainWindow) -> None:
    """Let Ctrl+C in the terminal close the window, as its own button does, once it comes to that.

    Nothing is raised: a page that is just put together would be left half made.
    """

    def close(*_: object) -> None:
        QTimer.singleShot(0, window, window.close)

    signal.signal(signal.SIGINT, close)


def catch_faults(window: MainWindow) -> None:
    """From now on tell the brewer of faults in a window's slots instead of dying of them."""

    def folder() -> Path:
        from designer.library.store.folder import store_folder  # not before the first picture

        return store_folder()

    sys.excepthook = FaultCatcher(window, folder)
