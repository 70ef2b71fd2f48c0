"""What is reckoned of the beer in the fermenter, beside the window: only the latest answer counts.

It follows what is logged and what is known of the day. Time goes by too: whoever shows the beer
asks for it again.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from designer.window.parts.background import Latest
from designer.workbench.brew.beer import beers_of

if TYPE_CHECKING:
    from designer.workbench.brew.beer import BeerNow
    from designer.workbench.brew.brewing import Brewing
    from designer.workbench.brew.instants import Instant
    from designer.workbench.brew.reckoning import Reckoned


class BeerAhead(QObject):
    """Reckons the beers of a brew; `changed` tells when they are known."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._latest = Latest(self)
        self._latest.answered.connect(self._take)
        self._brew = 0
        self.beers: tuple[BeerNow, ...] = ()

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._latest.busy

    def follow(self, brewing: Brewing, reckoned: Reckoned, now: Instant) -> None:
        """Reckon the beers as a brew stands now."""
        self._latest.ask(partial(_worked, self._brew, brewing, reckoned, now))

    def _take(self, answer: tuple[int, tuple[BeerNow, ...]]) -> None:
        brew, beers = answer
        if brew == self._brew and beers != self.beers:
            self.beers = beers
            self.changed.emit()

    def leave(self) -> None:
        """Another brew is shown, or none: nothing is known of its beer."""
        self._brew += 1
        if self.beers:
            self.beers = ()
            self.changed.emit()

    def close(self) -> None:
        """Wait for what is under way; nobody is told any more."""
        self._brew += 1
        self._latest.wait()


def _worked(
    brew: int, brewing: Brewing, reckoned: Reckoned, now: Instant
) -> tuple[int, tuple[BeerNow, ...]]:
    return brew, beers_of(brewing, reckoned, now)
