"""Files are read and written on a thread of their own: no slow disk ever holds up the window.

Work is done in the order it was asked for; its result comes back to the window's thread. The thread
is none of Qt's: one that waits for a disk for ever does not keep the program from ending.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from queue import SimpleQueue
from threading import Thread
from typing import TypeVar

from PySide6.QtCore import QEventLoop, QObject, Qt, QTimer, Signal, Slot

from designer.errors import DesignerError
from designer.translation import tr

SLOW_MS = 1000
"""After so long a word is said of what is waited for."""
Found = TypeVar("Found")


@dataclass(slots=True, eq=False)
class _Job:
    """A piece of work; done on the thread, it gives what answers it on the window's."""

    work: Callable[[], Callable[[], object]]
    failed: Callable[[DesignerError], object]
    what: str
    is_writing: bool
    answer: Callable[[], object] | None = None
    fault: Exception | None = None
    given_up: bool = False


class DiskThread(QObject):
    """Does work with files for the window's thread.

    What the brewer asked for has a name, such as "Writing brew.hobwort": `slow` tells it if that
    takes longer than a second. Writing is `pending` until it is answered, then `settled` is told.
    """

    slow = Signal(str)
    settled = Signal()
    _done = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._jobs: SimpleQueue[_Job | None] = SimpleQueue()
        self._named: list[_Job] = []
        self._thread: Thread | None = None
        self._patience = QTimer(self, singleShot=True, interval=SLOW_MS)
        self._patience.timeout.connect(self._tell_slow)
        self._done.connect(self._deliver, Qt.ConnectionType.QueuedConnection)

    @property
    def pending(self) -> bool:
        """Whether something is being written, or is to be."""
        return any(job.is_writing for job in self._named)

    def ask(
        self,
        work: Callable[[], Found],
        then: Callable[[Found], object],
        failed: Callable[[DesignerError], object],
        what: str = "",
        *,
        is_writing: bool = False,
    ) -> None:
        """Do `work` on the thread; `then` gets its result here, `failed` what the world refused."""
        job = _Job(lambda: partial(then, work()), failed, what, is_writing)
        if what:
            self._named.append(job)
            if not self._patience.isActive():
                self._patience.start()
        if self._thread is None:
            self._thread = Thread(target=self._work_on, name="files", daemon=True)
            self._thread.start()
        self._jobs.put(job)

    def _work_on(self) -> None:
        while (job := self._jobs.get()) is not None:
            if not job.given_up:
                try:
                    job.answer = job.work()
                except Exception as fault:  # noqa: BLE001 - handed to the window's thread
                    job.fault = fault
            with suppress(RuntimeError):  # nobody is there any more to be told
                self._done.emit(job)

    @Slot(object)
    def _deliver(self, job: _Job) -> None:
        if not job.given_up:
            self._answer(job)
        if job in self._named:
            self._drop([job])

    def _drop(self, jobs: list[_Job]) -> None:
        was_pending = self.pending
        self._named = [each for each in self._named if each not in jobs]
        if self._named:
            self._patience.start()
        else:
            self._patience.stop()
        if was_pending and not self.pending:
            self.settled.emit()

    def _answer(self, job: _Job) -> None:
        if isinstance(job.fault, DesignerError):
            job.failed(job.fault)
        elif job.fault is not None:
            sys.excepthook(type(job.fault), job.fault, job.fault.__traceback__)
            words = tr("{doing}: the program is at fault.", doing=job.what or tr("A file"))
            job.failed(DesignerError(words))
        elif job.answer is not None:
            job.answer()

    def _tell_slow(self) -> None:
        if self._named:
            self.slow.emit(self._named[0].what)

    def give_up(self) -> None:
        """Wait no longer for what the brewer asked for: nothing more is told of it.

        What has not begun is not done; what has begun may still come to its end.
        """
        for job in self._named:
            job.given_up = True
        self._drop(list(self._named))

    def finished(self, within_ms: int = 10_000) -> bool:
        """Let the window go on painting until nothing is pending; False if that takes too long."""
        if self.pending:
            loop = QEventLoop()
            self.settled.connect(loop.quit)
            QTimer.singleShot(within_ms, loop.quit)
            loop.exec(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)
        return not self.pending

    def stop(self) -> None:
        """Do what was asked for and then no more; the end of the program does not wait for it."""
        self._jobs.put(None)
