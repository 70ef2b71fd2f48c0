"""What is reckoned of the brew under way, beside the window: only the latest answer counts."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal

from designer.brewday.measured.advice import Proposal
from designer.units import ShownUnits
from designer.window.parts.background import Latest
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.reckoning import Reckon, Reckoned, reckoned, what_tells

AFTER_MS = 15
"""What was pressed is painted first; what follows from it is reckoned after that."""


class BrewAhead(QObject):
    """Reckons a brew anew where its log tells something new of the day."""

    changed = Signal(object)
    """What is known now: a `Reckoned`."""

    def __init__(self, parent: QObject | None = None, reckon: Reckon = reckoned) -> None:
        super().__init__(parent)
        self._reckon = reckon
        self._latest = Latest(self)
        self._latest.answered.connect(self._take)
        self._soon = QTimer(self, singleShot=True, interval=AFTER_MS)
        self._soon.timeout.connect(self._ask)
        self._wanted: tuple[Brewing, ShownUnits] | None = None
        self._told: object = None
        self.known: Reckoned | None = None
        self._brew = 0

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._soon.isActive() or self._latest.busy

    def open(self, brewing: Brewing, shown: ShownUnits) -> Reckoned:
        """Begin with another brew: return a glimpse of it; the whole follows when it is wanted."""
        self._brew += 1
        self._told = None
        self.known = self.glimpse(brewing, shown)
        return self.known

    def glimpse(self, brewing: Brewing, shown: ShownUnits) -> Reckoned:
        """Return what follows from any brew, without ranges."""
        return self._reckon(brewing, shown, ranges=False)

    def follow(self, brewing: Brewing, shown: ShownUnits) -> None:
        """Reckon the brew as it stands now, beside the window."""
        told = shown, what_tells(brewing)
        if told == self._told:
            return
        self._told, self._wanted = told, (brewing, shown)
        if not self._soon.isActive():
            self._soon.start()

    def _ask(self) -> None:
        if self._wanted is None:
            return
        known = self.known
        planned = known.planned if known is not None and known.whole else None
        self._latest.ask(partial(self._work, self._brew, *self._wanted, planned))

    def forget_proposal(self, proposal: Proposal) -> None:
        """A proposal was answered: it is shown no more, until one is found anew."""
        if self.known is not None:
            others = tuple(each for each in self.known.proposals if each is not proposal)
            self.known = replace(self.known, proposals=others)

    def _work(self, brew: int, *about: object) -> tuple[int, Reckoned]:
        return brew, self._reckon(*about)

    def _take(self, answer: tuple[int, Reckoned]) -> None:
        brew, found = answer
        if brew == self._brew:
            self.known = found
            self.changed.emit(found)

    def leave(self) -> None:
        """Nothing is to be reckoned any more; what is under way is told to nobody."""
        self._brew += 1
        self._soon.stop()
        self._wanted = self._told = None

    def close(self) -> None:
        """Wait for what is under way; nobody is told any more."""
        self.leave()
        self._latest.wait()
