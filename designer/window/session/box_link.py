"""The Recipe box as one window has it open: where it lies, and whether it takes anything.

Each open window holds a lock beside the store, so that others know which drafts were left behind.
"""

from __future__ import annotations

from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.library.store.folder import BACKUP_FOLDER
from designer.library.store.health import DAMAGED, SOUND
from designer.library.store.windows import OpenWindow, new_window_name, sitting_name
from designer.translation import tr
from designer.window.session.store_thread import StoreThread

if TYPE_CHECKING:
    from designer.library.store.health import Health

AGAIN_MS = 3000
"""After a failure the store is tried again so often, and with each key and each save."""


class BoxLink(QObject):
    """Stands between one window and the store.

    `said` and `offered` carry words for the brewer, gravely or with what can be done about them.
    `broke` comes with each failure, `trouble` once with each new one, in words; `well_again` ends
    it. `tried_again` comes every few seconds meanwhile.
    """

    said = Signal(str, bool)
    offered = Signal(str, object)
    trouble = Signal(str)
    broke = Signal()
    tried_again = Signal()
    well_again = Signal()
    opened_anew = Signal()
    """The store was opened again, because the brewer asked for that."""
    box_replaced = Signal()
    moved = Signal(str, Path)

    def __init__(self, thread: StoreThread, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.store, self._folder = thread, folder
        self._window, self._numbers = new_window_name(), count(1)
        self._mark: OpenWindow | None = None
        self._is_damaged, self.broken = False, ""
        self._again = QTimer(self, interval=AGAIN_MS)
        self._again.timeout.connect(self._try_again)

    @property
    def folder(self) -> Path:
        """Where the store lies."""
        return self._folder

    @property
    def backup_folder(self) -> Path:
        """Where the backups lie."""
        return self._folder / BACKUP_FOLDER

    def next_sitting(self) -> str:
        """Return the name for another sitting in this window."""
        return sitting_name(self._window, next(self._numbers))

    def window_name(self) -> str:
        """The name of this window, marked as open; asked for on the store's thread."""
        if self._mark is None:
            self._mark = OpenWindow(self._folder, self._window)
        return self._window

    def let_mark_go(self) -> None:
        """This window is open no more in this folder."""
        if self._mark is not None:
            self._mark.close()
            self._mark = None

    # whether it takes anything

    @property
    def is_damaged(self) -> bool:
        """Whether the store's file was looked through and found damaged."""
        return self._is_damaged

    def note_health(self, health: Health) -> None:
        """The store's file was looked through: where it is damaged, parts of it may work on."""
        was_damaged, self._is_damaged = self._is_damaged, health.state == DAMAGED
        if health.state != SOUND:
            self.say_broken(health.words)
        elif was_damaged:
            self.say_well()

    def say_well(self) -> None:
        """The store did what it was asked for, which says nothing of the parts that are damaged."""
        if self.broken and not self._is_damaged:
            self.broken = ""
            self._again.stop()
            self.well_again.emit()

    def say_broken(self, fault: str, *, again: bool = False) -> None:
        """Say that the store could not take it, and look what could be done about that.

        What was said before is only said `again` if the brewer asked for something.
        """
        is_news, self.broken = again or fault != self.broken, fault
        self.broke.emit()
        self._again.start()
        if not is_news:
            return
        self.trouble.emit(tr("{fault} Until then save to a file: File, Save as.", fault=fault))

    def _try_again(self) -> None:
        if self.broken:
            self.tried_again.emit()
        else:
            self._again.stop()

    def try_again(self) -> None:
        """Open the store anew; then what was typed since is kept, or what was left is shown."""

        def done(why_not: str) -> None:
            if why_not:
                self.say_broken(why_not, again=True)
                return
            self._is_damaged = False  # it is looked through anew
            self.say_well()
            self.opened_anew.emit()

        self.store.let_go()
        self.store.ask(lambda store: store.read_only, done, self._say_still_broken, key="again")

    def _say_still_broken(self, fault: str) -> None:
        self.say_broken(fault, again=True)

    def note_other_store(self) -> None:
        """Another store lies there, which is well as far as anybody knows."""
        self._is_damaged = False
        self.say_well()

    def close(self, within_s: float) -> bool:
        """Let the store go; False if it does not answer."""
        self._again.stop()
        stopped = self.store.stop(within_s)
        if stopped:
            self.let_mark_go()
        return stopped
