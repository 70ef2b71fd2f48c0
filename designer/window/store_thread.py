"""The store on a thread of its own, so that no disk ever holds up the window.

Work is a function of the store; its result comes back to the window's thread. Work is done in the
order it was asked for; of work under the same key only the latest that has not begun is done.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, QThread, Signal, Slot

from designer.errors import DesignerError

if TYPE_CHECKING:
    from designer.library.store import Store


@dataclass(slots=True)
class _Job:
    work: Callable[[Any], Any]
    then: Callable[[Any], None] | None
    failed: Callable[[str], None] | None
    key: str
    number: int
    without_store: bool = False
    result: Any = None
    fault: str = ""
    bug: Exception | None = None
    skipped: bool = False


class _Worker(QObject):
    """Lives on the thread; opens the store with the first work."""

    finished = Signal(object)

    def __init__(self, folder: Path | None, latest: dict[str, int], lock: Lock) -> None:
        super().__init__()
        self._folder, self._latest, self._lock = folder, latest, lock
        self._store: Store | None = None

    @Slot(object)
    def carry_out(self, job: _Job) -> None:
        """Do one piece of work."""
        with self._lock:
            job.skipped = bool(job.key) and self._latest.get(job.key) != job.number
        if not job.skipped:
            try:
                if job.without_store:
                    self._let_go()
                    job.result = job.work(None)
                else:
                    job.result = job.work(self._opened())
            except DesignerError as fault:
                job.fault = str(fault)
            except Exception as bug:  # noqa: BLE001 - it is told of, and the thread goes on
                job.fault = f"The Recipe box failed ({type(bug).__name__}: {bug})."
                job.bug = bug  # its handler touches widgets: it is called on the window's thread
        self.finished.emit(job)

    def _opened(self) -> Store:
        if self._store is None:
            from designer.library.store import Store, store_folder

            self._store = Store.open(self._folder or store_folder())
        return self._store

    def _let_go(self) -> None:
        if self._store is not None:
            self._store.close()
            self._store = None

    @Slot()
    def close(self) -> None:
        """Close the store and end the thread."""
        self._let_go()
        QThread.currentThread().quit()


class StoreThread(QObject):
    """Asks the store for things from the window's thread."""

    _wanted = Signal(object)
    _closing = Signal()

    def __init__(self, folder: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._latest: dict[str, int] = {}
        self._lock = Lock()
        self._count = 0
        self._under_way = 0
        self._stopped = False
        self._thread = QThread(self)
        self._worker = _Worker(folder, self._latest, self._lock)
        self._worker.moveToThread(self._thread)
        queued = Qt.ConnectionType.QueuedConnection
        self._wanted.connect(self._worker.carry_out, queued)
        self._closing.connect(self._worker.close, queued)
        self._worker.finished.connect(self._deliver, queued)

    @property
    def busy(self) -> bool:
        """Whether any work has not been answered yet."""
        return self._under_way > 0

    def ask(
        self,
        work: Callable[[Any], Any],
        then: Callable[[Any], None] | None = None,
        failed: Callable[[str], None] | None = None,
        *,
        key: str = "",
        without_store: bool = False,
    ) -> None:
        """Let the store do `work`; `then` gets its result, `failed` words for the brewer.

        `without_store` closes the store first and hands None to the work: for a store that cannot
        be opened, or whose file is to be replaced.
        """
        if not self._thread.isRunning():
            self._thread.start()
        self._count += 1
        self._under_way += 1
        if key:
            with self._lock:
                self._latest[key] = self._count
        self._wanted.emit(_Job(work, then, failed, key, self._count, without_store))

    @Slot(object)
    def _deliver(self, job: _Job) -> None:
        self._under_way -= 1
        if job.skipped or self._stopped:  # who asked may be gone by then
            return
        if job.bug is not None:
            sys.excepthook(type(job.bug), job.bug, job.bug.__traceback__)
        if job.fault:
            if job.failed is not None:
                job.failed(job.fault)
        elif job.then is not None:
            job.then(job.result)

    def stop(self) -> None:
        """Finish all work that was asked for, then close the store; nobody is told any more."""
        self._stopped = True
        if self._thread.isRunning():
            self._closing.emit()
            self._thread.wait()
