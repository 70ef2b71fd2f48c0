"""How the beer is to be packaged: what the log says, what follows of the beer, what is being typed.

What the brewer has not chosen follows: litres and warmth of the beer, counts of the bottles. A
choice is one entry of the log, written when it has stood for a moment: a figure that is typed or a
count that is stepped up is one step, not one for each key.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from designer.brewday.packaging.filling import counted_to_fit
from designer.brewday.packaging.packaged import BottleSize, Packaged, Packing
from designer.brewday.packaging.packed import packaged
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.packing_chosen import COUNTS, as_chosen

SETTLED_MS = 700
"""So long a choice stands before it is written."""


class PackingChoices(QObject):
    """The choices of the brew that is shown; `changed` tells of others, also while typing."""

    changed = Signal()

    def __init__(self, brew: OpenBrew, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._brew = brew
        self._follows: Packing | None = None
        self._read_again: date | None = None
        self._draft: Packing | None = None
        self._key = self._said = self._uid = ""
        self._later = QTimer(self, singleShot=True, interval=SETTLED_MS)
        self._later.timeout.connect(self.settle)
        self.packing: Packing | None = None
        self.result: Packaged | None = None
        brew.settling.connect(self.settle)

    def follow(self, follows: Packing | None, again: date | None = None) -> None:
        """Take what follows of the beer as it is known; `again` is when it is read next."""
        uid = self._brew.brew.uid if self._brew.brew is not None else ""
        if uid != self._uid:
            self._uid, self._draft = uid, None
            self._later.stop()
        self._follows, self._read_again = follows, again
        self._refold()

    def _refold(self) -> None:
        brewing, follows = self._brew.brewing, self._follows
        if follows is None or brewing is None:
            self.packing = self.result = None
        else:
            chosen = self._draft or brewing.after.packing_in(follows.fermenter)
            self.packing = as_chosen(chosen, follows)
            self.result = packaged(self.packing, self.today, self._read_again)
        self.changed.emit()

    @property
    def today(self) -> date:
        """The day it is, by the clock of the brew."""
        return datetime.fromtimestamp(self._brew.now().wall).date()

    def choose(self, key: str, said: str, change: Callable[[Packing], Packing]) -> None:
        """Choose otherwise; `key` says what is chosen: the same again is the same step.

        `said` is what the log says of it.
        """
        if self.packing is None:
            return
        if key != self._key:
            self.settle()
        made = change(self.packing)
        if made == self.packing:
            return
        self._draft, self._key, self._said = made, key, said
        self._later.start()
        self._refold()

    def settle(self) -> None:
        """Write what was chosen, if it is not written yet."""
        draft, said = self._draft, self._said
        self._later.stop()
        self._draft, self._key = None, ""
        if draft is not None and self._brew.brewing is not None:
            before = self._brew.brewing.after.packing_in(draft.fermenter)
            if draft != before:
                self._brew.choose_packing(draft, said)

    def forget(self) -> None:
        """Leave what is being chosen."""
        self._later.stop()
        self._draft, self._key = None, ""
        self._refold()


def with_figure(name: str, value: float) -> Callable[[Packing], Packing]:
    """Return the change that has one of the figures be what the brewer says."""

    def change(packing: Packing) -> Packing:
        figure: dict[str, Any] = {name: value}
        return _counted(replace(packing, **figure, chosen=packing.chosen | {name}))

    return change


def with_sizes(sizes: tuple[BottleSize, ...]) -> Callable[[Packing], Packing]:
    """Return the change to other sizes, counted to fit the beer."""
    return lambda packing: _counted(
        replace(packing, bottles=sizes, chosen=packing.chosen - {COUNTS})
    )


def with_count(number: int, count: int) -> Callable[[Packing], Packing]:
    """Return the change of how many of one of the sizes there are."""

    def change(packing: Packing) -> Packing:
        sizes = list(packing.bottles)
        sizes[number] = replace(sizes[number], count=max(count, 0))
        return replace(packing, bottles=tuple(sizes), chosen=packing.chosen | {COUNTS})

    return change


def _counted(packing: Packing) -> Packing:
    if COUNTS in packing.chosen:
        return packing
    return replace(packing, bottles=counted_to_fit(packing.bottles, packing.beer_l))
