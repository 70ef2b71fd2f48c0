"""Slower reckoning off the window's thread: only the answer to the latest question is given."""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import suppress

from PySide6.QtCore import QObject, QRunnable, Qt, QThreadPool, Signal, Slot
from shiboken6 import isValid


class _Task(QRunnable):
    def __init__(
        self, work: Callable[[], object], number: int, told: Callable[[object], None]
    ) -> None:
        super().__init__()
        self._work, self._number, self._told = work, number, told

    def run(self) -> None:
        """Do the work and tell its result."""
        try:
            result, bug = self._work(), None
        except Exception as fault:  # noqa: BLE001 - handed to the window's thread
            result, bug = None, fault
        with suppress(RuntimeError):  # nobody is there any more to be told
            self._told((self._number, result, bug))


class Latest(QObject):
    """Asks one thing at a time; a newer question makes older answers stale."""

    answered = Signal(object)
    _done = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._number = 0
        self._waiting: Callable[[], object] | None = None
        self._running = False
        self._done.connect(self._take, Qt.ConnectionType.QueuedConnection)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._running

    def ask(self, work: Callable[[], object]) -> None:
        """Let `work` be done; `answered` carries its result unless something newer was asked."""
        if not isValid(self._pool):
            return  # the window is closed, and nobody awaits an answer
        self._number += 1
        if self._running:
            self._waiting = work
            return
        self._start(work)

    def _start(self, work: Callable[[], object]) -> None:
        self._running = True
        self._pool.start(_Task(work, self._number, self._done.emit))

    @Slot(object)
    def _take(self, done: tuple[int, object, Exception | None]) -> None:
        number, result, bug = done
        self._running = False
        if self._waiting is not None:
            work, self._waiting = self._waiting, None
            self._start(work)
        elif bug is not None:
            sys.excepthook(type(bug), bug, bug.__traceback__)
        elif number == self._number:
            self.answered.emit(result)

    def wait(self, within_s: float | None = None) -> bool:
        """Wait until nothing is running; for the end of the program. False if it did not end."""
        self._waiting = None
        return self._pool.waitForDone(-1 if within_s is None else round(1000 * within_s))
