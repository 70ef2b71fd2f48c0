"""Long work for the store, done in pieces: between two of them drafts, saves and searches come in.

A piece ends when its time is up, so that whatever is asked meanwhile waits for one piece at most,
however many recipes there are and however slow the disk is.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Signal

from designer.window.session.store_thread import StoreThread

if TYPE_CHECKING:
    from designer.library.store import Store

T = TypeVar("T")


class PiecewiseJob(QObject):
    """Work on many items, a piece at a time.

    `piece(store, items)` does as many of the items as it has time for, from the first on, and
    returns how many and what came of them. `progressed` tells how many are done and of how many;
    `ended` carries the list of what came of each piece, after `stop` too; `failed` carries words.
    """

    progressed = Signal(int, int)
    ended = Signal(object)
    failed = Signal(str)

    def __init__(
        self,
        store: StoreThread,
        items: Sequence[T],
        piece: Callable[[Store, Sequence[T]], tuple[int, object]],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._store, self._count = store, len(items)
        self._piece: Callable[[Store, int], tuple[int, object]] = lambda store, done: piece(
            store, items[done:]
        )
        self._results: list[object] = []
        self._done = 0
        self._stopped = False

    @property
    def done(self) -> int:
        """How many items are done."""
        return self._done

    @property
    def stopped(self) -> bool:
        """Whether it was ended before its time."""
        return self._stopped and self._done < self._count

    def begin(self) -> None:
        """Ask for the first piece."""
        if not self._count:
            self.ended.emit([])
            return
        self.progressed.emit(0, self._count)
        self._ask()

    def stop(self) -> None:
        """Do no further piece; what is done stays done."""
        self._stopped = True

    def _ask(self) -> None:
        piece, done = self._piece, self._done
        self._store.ask(lambda store: piece(store, done), self._take, self._fail)

    def _take(self, result: tuple[int, object]) -> None:
        count, found = result
        self._done += max(count, 1)
        self._results.append(found)
        self.progressed.emit(self._done, self._count)
        if self._stopped or self._done >= self._count:
            self.ended.emit(self._results)
        else:
            self._ask()

    def _fail(self, fault: str) -> None:
        self._stopped = True
        self.failed.emit(fault)
        self.ended.emit(self._results)
