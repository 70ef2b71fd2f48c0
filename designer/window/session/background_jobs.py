"""Work with the whole store beside its own thread: a copy of a large one holds up nothing.

It has a connection of its own; write-ahead logging lets it read while another writes.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING, NoReturn, TypeVar

from PySide6.QtCore import QObject, Signal

from designer.errors import DesignerError
from designer.window.parts.background import Latest

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.backups import Told

T = TypeVar("T")


class BackgroundJobs(QObject):
    """One piece of work after the other; `progressed` tells what is done, how much, of how much.

    (0, 0) tells that it has ended.
    """

    progressed = Signal(str, int, int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._latest = Latest(self)
        self._latest.answered.connect(self._answer)
        self._waiting: list[Callable[[], Callable[[], None]]] = []
        self._ended = Event()
        self._closed = False

    @property
    def busy(self) -> bool:
        """Whether something is under way, or waits for its turn."""
        return self._latest.busy or bool(self._waiting)

    def ask(
        self,
        doing: str,
        folder: Path,
        work: Callable[[Store, Told], T],
        then: Callable[[T], object],
        failed: Callable[[str], object],
    ) -> None:
        """Let `work` be done with the store in a folder, and with whom to tell how far it is.

        `then` gets its result, `failed` words for the brewer; `doing` names it, if it is shown.
        """

        def worked(told: Told) -> T:
            from designer.library.store import Store

            # The store's own thread has had it open: where it is gone now it is not made anew.
            with Store.open(folder, expected=True, waiting=self._goes_on) as store:
                return work(store, told)

        self.ask_without(doing, worked, then, failed)

    def ask_without(
        self,
        doing: str,
        work: Callable[[Told], T],
        then: Callable[[T], object],
        failed: Callable[[str], object],
    ) -> None:
        """Let `work` be done that opens no store: for one that cannot be opened."""

        def told(done: int, of: int) -> bool:
            if doing:
                self.progressed.emit(doing, done, of)
            return not self._ended.is_set()

        def ended(answer: Callable[[], object]) -> Callable[[], None]:
            def on_the_windows_thread() -> None:
                if doing:
                    self.progressed.emit(doing, 0, 0)
                answer()

            return on_the_windows_thread

        def done_beside() -> Callable[[], None]:
            self._ended.clear()
            try:
                return ended(partial(then, work(told)))
            except DesignerError as fault:
                return ended(partial(failed, str(fault)))
            except Exception as bug:  # noqa: BLE001 - raised where faults are caught, and told
                return partial(_raise, bug)

        if self.busy:
            self._waiting.append(done_beside)
        else:
            self._latest.ask(done_beside)

    def _goes_on(self, _waited: float) -> bool:
        return not self._ended.is_set()

    def _answer(self, tell: Callable[[], None]) -> None:
        if self._closed:
            return
        if self._waiting:
            self._latest.ask(self._waiting.pop(0))
        tell()

    def stop(self) -> None:
        """End what is under way; it says so."""
        self._ended.set()

    def close(self, within_s: float | None = None) -> bool:
        """End what is under way and wait for that; nobody is told any more. False if it goes on."""
        self._closed = True
        self._waiting.clear()
        self._ended.set()
        return self._latest.wait(within_s)


def _raise(bug: Exception) -> NoReturn:
    raise bug
