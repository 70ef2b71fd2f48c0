"""What is reckoned of the brew under way, beside the window: only the latest answer counts."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QObject, Signal

from designer.brewday.measured.advice import Proposal
from designer.units import ShownUnits
from designer.window.parts.background import Latest
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.reckoning import Reckon, Reckoned, reckoned


class BrewAhead(QObject):
    """Reckons a brew anew as its log grows, a glimpse at once where one asks for it."""

    changed = Signal(object)
    """What is known now: a `Reckoned`."""

    def __init__(self, parent: QObject | None = None, reckon: Reckon = reckoned) -> None:
        super().__init__(parent)
        self._reckon = reckon
        self._latest = Latest(self)
        self._latest.answered.connect(self._take)
        self.known: Reckoned | None = None
        self._brew = 0

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._latest.busy

    def open(self, brewing: Brewing, shown: ShownUnits) -> Reckoned:
        """Begin with another brew: return a glimpse of it; the whole follows."""
        self._brew += 1
        self.known = self._reckon(brewing, shown, ranges=False)
        return self.known

    def follow(self, brewing: Brewing, shown: ShownUnits) -> None:
        """Reckon the brew as it stands now, beside the window."""
        known = self.known
        planned = known.planned if known is not None and known.whole else None
        self._latest.ask(partial(self._work, self._brew, brewing, shown, planned))

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

    def close(self) -> None:
        """Wait for what is under way; nobody is told any more."""
        self._brew += 1
        self._latest.wait()
