"""What would follow from a reading that is still being typed: it is shown, and nothing is kept."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal

from designer.window.parts.background import Latest
from designer.workbench.brew.reckoning import Reckoned

REST_MS = 250
"""So long nothing is typed before it is looked at: half a figure says nothing."""
Look = Callable[[], Callable[[], Reckoned] | None]
"""Looks at what is typed; returns what is to be reckoned of it, None for no reading."""


class BrewTrial(QObject):
    """Reckons beside the window what a reading would make of the day; `changed` tells."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.known: Reckoned | None = None
        self._look: Look | None = None
        self._latest = Latest(self)
        self._latest.answered.connect(self._take)
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._begin)

    @property
    def busy(self) -> bool:
        """Whether something is typed, or reckoned, of which more will be known."""
        return self._rest.isActive() or (self._look is not None and self._latest.busy)

    def try_out(self, look: Look) -> None:
        """Look at what is typed once the fingers rest."""
        self._look = look
        self._rest.start()

    def _begin(self) -> None:
        work = self._look() if self._look is not None else None
        if work is None:
            self.drop()
        else:
            self._latest.ask(work)

    def _take(self, found: Reckoned) -> None:
        if self._look is not None:
            self.known = found
            self.changed.emit()

    def drop(self) -> None:
        """Show the day again as it is logged."""
        self.forget()
        if self.known is not None:
            self.known = None
            self.changed.emit()

    def forget(self) -> None:
        """Look at nothing any more; what is shown stays until more is known of the day."""
        self._look = None
        self._rest.stop()

    def follow(self) -> None:
        """The day is reckoned as it is logged: that is shown now."""
        if self._look is None:
            self.known = None

    def close(self) -> None:
        """Wait for what is under way."""
        self.drop()
        self._latest.wait()
