"""The store on a thread of its own, so that no disk ever holds up the window.

Work is a function of the store; its result comes back to the window's thread. Work is done in the
order it was asked for; of work under the same key only the latest that has not begun is done.

The thread is one of Python's that ends with the process: a disk that never answers holds up neither
the window nor the end of the program.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from queue import SimpleQueue
from threading import Event, Lock, Thread
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Qt, Signal, Slot

from designer.errors import DesignerError
from designer.translation import tr
from designer.workbench.support_log import SLOW_S, Noted, note

if TYPE_CHECKING:
    from designer.library.store import Store

T = TypeVar("T")
Answer = Callable[[], object]
"""What is done on the window's thread when work is done."""
PATIENCE_S = 5.0
"""How long work waits while another program holds the store, before the brewer is told."""


@dataclass(slots=True)
class _Job:
    """A piece of work; done on the thread, it gives what answers it on the window's."""

    work: Callable[[_Worker], Answer]
    failed: Callable[[str], object] | None
    key: str
    number: int
    answer: Answer | None = None
    fault: str = ""
    bug: Exception | None = None
    skipped: bool = False


class _Worker(QObject):
    """Does the work on the thread; opens the store with the first of it."""

    finished = Signal(object)

    def __init__(self, folder: Path | None, latest: dict[str, int], lock: Lock) -> None:
        super().__init__()
        self._folder, self._latest, self._lock = folder, latest, lock
        self._was_open = False
        self._store: Store | None = None
        self.jobs: SimpleQueue[_Job | None] = SimpleQueue()
        self.ending = Event()

    def run(self) -> None:
        """Do one piece of work after another until there is None; then close the store."""
        while (job := self.jobs.get()) is not None:
            with suppress(RuntimeError):  # nobody is there any more to be told
                self.carry_out(job)
        self.let_go()

    def carry_out(self, job: _Job) -> None:
        """Do one piece of work."""
        with self._lock:
            job.skipped = bool(job.key) and self._latest.get(job.key) != job.number
        if not job.skipped:
            begun = time.monotonic()
            try:
                job.answer = job.work(self)
            except DesignerError as fault:
                note(Noted.BOX_FAILED, type(fault))
                job.fault = str(fault)
                self._let_go_if_it_may_help()
            except Exception as bug:  # noqa: BLE001 - it is told of, and the thread goes on
                note(Noted.BOX_FAILED, type(bug))
                job.fault = tr(
                    "The Recipe box failed ({kind}: {bug}).", kind=type(bug).__name__, bug=bug
                )
                job.bug = bug  # its handler touches widgets: it is called on the window's thread
            took = time.monotonic() - begun
            if took > SLOW_S:
                note(Noted.BOX_SLOW, seconds=took)
        self.finished.emit(job)

    def opened(self) -> Store:
        """Return the store, opened now if it is not yet. Raises DesignerError."""
        if self._store is None:
            from designer.library.store import Store, store_folder

            self._store = Store.open(
                self._folder or store_folder(),
                expected=self._was_open,
                patience_s=PATIENCE_S,
                waiting=lambda _waited: not self.ending.is_set(),
            )
            self._was_open = True
        return self._store

    def go_to(self, folder: Path) -> None:
        """Open the store of another folder with the next work."""
        self._folder, self._was_open = folder, False

    def _let_go_if_it_may_help(self) -> None:
        """Let the next work open the store anew if it lies there again, or can be written again."""
        store = self._store
        if store is not None and (not store.path.exists() or store.is_outdated):
            self.let_go()

    def let_go(self) -> None:
        """Close the store; the next work that needs it opens it anew."""
        if self._store is not None:
            self._store.close()
            self._store = None


class StoreThread(QObject):
    """Asks the store for things from the window's thread."""

    def __init__(self, folder: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._latest: dict[str, int] = {}
        self._lock = Lock()
        self._count = 0
        self._under_way = self._owed = 0
        self._stopped = False
        self._thread: Thread | None = None
        self._worker = _Worker(folder, self._latest, self._lock)
        self._worker.finished.connect(self._deliver, Qt.ConnectionType.QueuedConnection)

    @property
    def busy(self) -> bool:
        """Whether any work has not been answered yet."""
        return self._under_way > 0

    @property
    def owes(self) -> bool:
        """Whether work has not been answered that a later one under its key does not replace."""
        return self._owed > 0

    def ask(
        self,
        work: Callable[[Store], T],
        then: Callable[[T], object] | None = None,
        failed: Callable[[str], object] | None = None,
        *,
        key: str = "",
    ) -> None:
        """Let the store do `work`; `then` gets its result, `failed` words for the brewer.

        After the end nothing is done any more.
        """
        self._put(lambda worker: _answer(work(worker.opened()), then), failed, key)

    def ask_without(
        self,
        work: Callable[[], T],
        then: Callable[[T], object] | None = None,
        failed: Callable[[str], object] | None = None,
        *,
        key: str = "",
    ) -> None:
        """Close the store and do `work` without it, in its turn.

        For a store that cannot be opened, or whose file is to be replaced.
        """

        def on_thread(worker: _Worker) -> Answer:
            worker.let_go()
            return _answer(work(), then)

        self._put(on_thread, failed, key)

    def let_go(self, then: Callable[[], object] | None = None) -> None:
        """Close the store until it is asked for something; `then` follows."""
        self.ask_without(_nothing, None if then is None else lambda _: then(), key="let go")

    def _put(
        self, work: Callable[[_Worker], Answer], failed: Callable[[str], object] | None, key: str
    ) -> None:
        if self._stopped:
            return
        if self._thread is None:
            self._thread = Thread(target=self._worker.run, name="Recipe box", daemon=True)
            self._thread.start()
        self._count += 1
        self._under_way += 1
        if key:
            with self._lock:
                self._latest[key] = self._count
        else:
            self._owed += 1
        self._worker.jobs.put(_Job(work, failed, key, self._count))

    def go_to(self, folder: Path) -> None:
        """Keep in the store of another folder from the next work on."""
        self.ask_without(partial(self._worker.go_to, folder))

    @Slot(object)
    def _deliver(self, job: _Job) -> None:
        self._under_way -= 1
        if not job.key:
            self._owed -= 1
        if job.skipped or self._stopped:  # who asked may be gone by then
            return
        if job.bug is not None:
            sys.excepthook(type(job.bug), job.bug, job.bug.__traceback__)
        if job.fault:
            if job.failed is not None:
                job.failed(job.fault)
        elif job.answer is not None:
            job.answer()

    def stop(self, within_s: float | None = None) -> bool:
        """Finish all work that was asked for, then close the store; False if it is still at it.

        Nothing is answered from now on, and another program that holds the store is not waited for.
        """
        self._stopped = True
        if self._thread is None:
            return True
        self._worker.ending.set()
        self._worker.jobs.put(None)
        self._thread.join(within_s)
        return not self._thread.is_alive()


def _nothing() -> None:
    """What is done where the store is only to be closed."""


def _answer(result: T, then: Callable[[T], object] | None) -> Answer:
    return _nothing if then is None else partial(then, result)
