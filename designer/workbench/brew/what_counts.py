"""Which entries of a log count: taken back and corrected ones resolved.

Undo writes an entry that takes another back, redo one that takes that back, and a correction stands
beside what it corrects: so a log only grows, and what counts is found anew from all of it. Taking
back what does not count any more is nothing. An entry that was written `with` another goes with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import in_order
from designer.workbench.brew.entry_values import number_in, text_in, values_in
from designer.workbench.brew.instants import Instant

WITH = "with"
"""Names the entry that another was written with, such as the step whose timer it starts."""
BY, UNDO, REDO = "by", "undo", "redo"
"""Tells of an entry that takes back whether undo or redo wrote it; else it is a deed by itself."""
_FIRM = (What.BEGAN, What.CLOCK)
"""What undo passes over: that the day began is never taken back."""


@dataclass(frozen=True, slots=True)
class Counting:
    """All entries of a log in order, and those that count, each as it was corrected last.

    `formers` holds what a corrected entry said before, the oldest first, by its id; `in_force` are
    the ids of all that count, those that take back or correct others too. `undo` is the id of the
    entry that undo takes back, `redo` of the one that redo does, "" where there is none.
    """

    entries: tuple[Entry, ...]
    live: tuple[Entry, ...]
    formers: dict[str, tuple[Entry, ...]]
    in_force: frozenset[str]
    undo: str
    redo: str


def what_counts(entries: Iterable[Entry]) -> Counting:
    """Return what counts of entries, given in any order and any number of times."""
    ordered = in_order(entries)
    taking = _TakingBack(ordered)
    live = taking.live()
    is_live = {each.id for each in live}
    corrections: dict[str, list[Entry]] = {}
    for each in live:
        if each.what is What.CORRECTS:
            corrections.setdefault(taking.corrected_by(each), []).append(each)
    formers = {}
    found = []
    for each in live:
        if each.what in (What.TAKES_BACK, What.CORRECTS):
            continue
        said = [each]
        for correction in corrections.get(each.id, ()):
            said.append(_corrected(said[-1], correction))
        found.append(said[-1])
        if len(said) > 1:
            formers[each.id] = tuple(said[:-1])
    undo = next((each for each in reversed(taking.done) if each in is_live), "")
    redo = next((each for each in reversed(taking.undone) if each in is_live), "")
    return Counting(ordered, tuple(found), formers, frozenset(is_live), undo, redo)


def _corrected(entry: Entry, correction: Entry) -> Entry:
    """Return an entry as a correction has it; "wall" among its values sets the time right."""
    values = dict(values_in(correction.values, "values"))
    wall = number_in(values, "wall")
    values.pop("wall", None)
    at = entry.at if wall is None else moved_to(entry.at, wall)
    return replace(entry, values={**entry.values, **values}, at=at)


def moved_to(at: Instant, wall: float) -> Instant:
    """Return an instant put to another time of the wall clock, its boot clock along with it."""
    return replace(at, wall=wall, up=at.up + (wall - at.wall) if at.boot else at.up)


class _TakingBack:
    """Walks a log once: who takes back whom, and what undo and redo would reach."""

    def __init__(self, ordered: tuple[Entry, ...]) -> None:
        self._ordered = ordered
        self._seen: dict[str, Entry] = {}
        self._takers: dict[str, set[str]] = {}
        self._roots: dict[str, str] = {}
        self.done: dict[str, None] = {}
        self.undone: dict[str, None] = {}
        for each in ordered:
            if each.what is What.TAKES_BACK:
                self._take_back(each)
            elif each.what is What.CORRECTS:
                named = text_in(each.values, "entry")
                self._roots[each.id] = self._roots.get(named, named)
            self._note_deed(each)
            self._seen[each.id] = each

    def _note_deed(self, entry: Entry) -> None:
        """Note what undo could take back; after another deed nothing can be redone any more."""
        if entry.what is What.TAKES_BACK and self._takers.get(entry.id):
            return
        if entry.what is What.TAKES_BACK and text_in(entry.values, BY) == UNDO:
            self.undone[entry.id] = None
        elif _can_be_undone(entry):
            self.done[entry.id] = None
            self.undone.clear()

    def corrected_by(self, correction: Entry) -> str:
        """Return the id of what a correction corrects in the end, if of another correction."""
        return self._roots[correction.id]

    def _counts(self, entry_id: str) -> bool:
        return entry_id in self._seen and not self._takers.get(entry_id)

    def _take_back(self, taker: Entry) -> None:
        named = text_in(taker.values, "entry")
        if not self._counts(named) or self._seen[named].what is What.BEGAN:
            self._takers[taker.id] = {""}  # it takes nothing back, and never will
            return
        self._turn(taker.id, named)

    def _turn(self, taker: str, named: str) -> None:
        """A taker counts from now on; along the chain each other one does not, or does again."""
        counts = True
        while True:
            takers = self._takers.setdefault(named, set())
            did_count = not takers
            (takers.add if counts else takers.discard)(taker)
            entry = self._seen[named]
            if did_count is not bool(takers) or entry.what is not What.TAKES_BACK:
                return
            taker, named, counts = named, text_in(entry.values, "entry"), not takers

    def live(self) -> tuple[Entry, ...]:
        """Return the entries that count at the end, in order."""
        goes_with: dict[str, bool] = {}
        for each in self._ordered:
            goes = goes_with.get(text_in(each.values, WITH), True)
            if each.what is What.CORRECTS:
                goes = goes and goes_with.get(self.corrected_by(each), False)
            goes_with[each.id] = goes and not self._takers.get(each.id)
        return tuple(each for each in self._ordered if goes_with[each.id])


def _can_be_undone(entry: Entry) -> bool:
    is_heard = entry.what is What.TIMER and text_in(entry.values, "does") == "confirm"
    is_redo = entry.what is What.TAKES_BACK and text_in(entry.values, BY) == REDO
    return not (entry.what in _FIRM or is_heard or is_redo or text_in(entry.values, WITH))
