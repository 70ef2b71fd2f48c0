"""Where a brew stands: folded from its log and nothing else, so the same after every restart.

Steps come in their order. One that is put off comes again after the next; one that is gone back to
is the step now, and what was done since stays done. Where a step is done twice the later time
counts: whoever goes back to a step and does it says that it was not done before.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from designer.brewday.measured.readings import Measured, Reading
from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep
from designer.workbench.brew.afterwards import NOTHING_AFTER, Afterwards, afterwards_of
from designer.workbench.brew.blank_places import place_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import count_in, number_in, text_in, values_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import reading_of
from designer.workbench.brew.taught_at_start import with_taught_at_start
from designer.workbench.brew.timers import TimerState, timers_counted
from designer.workbench.brew.what_counts import Counting, what_counts


class Status(StrEnum):
    """How a step stands."""

    AHEAD = "ahead"
    NOW = "now"
    DONE = "done"
    LATER = "later"
    LEFT_OUT = "left out"


@dataclass(frozen=True, slots=True)
class StepState:
    """A step as it stands, and when that was said and why; `entry` is the id of what says it.

    `at` and `entry` of the step now are those of when it was done before, if it was.
    """

    step: StoveStep
    status: Status
    at: Instant | None = None
    reason: str = ""
    entry: str = ""


@dataclass(frozen=True, slots=True)
class KeptReading:
    """A reading that counts, as it was typed and when; `was` is what was typed before corrections.

    `entry` is the id of its entry.
    """

    entry: str
    reading: Reading
    typed: str
    at: Instant
    was: tuple[str, ...] = ()
    step: str = ""
    by_guess: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """What was noted, and at which step."""

    entry: str
    text: str
    at: Instant
    step: str = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """A proposal that was accepted or left: its code, what it changes, and what it said.

    `values` are all the plain values of it.
    """

    entry: str
    proposal: str
    changes: Any
    said: str
    at: Instant
    values: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Tasting:
    """How the beer was, with a mark from 1 to 5, 0 for none."""

    entry: str
    mark: int
    text: str
    at: Instant


@dataclass(frozen=True, slots=True)
class Brewing:
    """The state of a brew. `recipe` and `steps` are those it was folded with, the recipe with what
    the kitchen had taught when the brew began.

    `entries` are all of its log, `live` those that count, corrected; `formers` holds what those
    said before, by their ids. `undo` and `redo` are the ids of what these would take back, "" for
    nothing; `in_force` those of all that count, the entries that take back or correct among them.
    """

    recipe: Recipe
    steps: tuple[StoveStep, ...]
    entries: tuple[Entry, ...]
    live: tuple[Entry, ...]
    states: tuple[StepState, ...]
    began: Instant | None = None
    start_min: float | None = None
    shown: str = ""
    now: StoveStep | None = None
    readings: tuple[KeptReading, ...] = ()
    timers: tuple[TimerState, ...] = ()
    accepted: tuple[Answer, ...] = ()
    kept: tuple[Answer, ...] = ()
    notes: tuple[Note, ...] = ()
    finished: Instant | None = None
    tastings: tuple[Tasting, ...] = ()
    after: Afterwards = NOTHING_AFTER
    undo: str = ""
    redo: str = ""
    formers: Mapping[str, tuple[Entry, ...]] = field(default_factory=dict)
    in_force: frozenset[str] = frozenset()

    def state_of(self, key: str) -> StepState | None:
        """Return how the step of that key stands; None where there is none."""
        return next((each for each in self.states if each.step.key == key), None)

    @property
    def done_keys(self) -> frozenset[str]:
        """The keys of the steps that are done."""
        return frozenset(each.step.key for each in self.states if each.status is Status.DONE)

    @property
    def is_over(self) -> bool:
        """Whether no step is left to do."""
        return self.now is None

    def entry(self, entry_id: str) -> Entry | None:
        """Return the entry of that id as it counts; None where none counts."""
        return next((each for each in self.live if each.id == entry_id), None)

    def reading_at(
        self, what: Measured, boil: int = 1, fermenter: int = 1, line: tuple[str, int] = ("", 0)
    ) -> KeptReading | None:
        """Return the latest reading of that; None where there is none."""
        wanted = (what, boil, fermenter, *line)
        return next((e for e in reversed(self.readings) if place_of(e.reading) == wanted), None)


def brewing_of(recipe: Recipe, steps: Sequence[StoveStep], entries: Iterable[Entry]) -> Brewing:
    """Return where a brew stands by the entries of its log, in whatever order they come."""
    counting = what_counts(entries)
    walk = _Walk(tuple(steps))
    found = Brewing(recipe, tuple(steps), counting.entries, counting.live, ())
    for each in counting.live:
        walk.take(each)
        found = _with_day(found, each)
    return replace(
        found,
        states=walk.states(),
        now=walk.now,
        readings=tuple(_readings(counting)),
        timers=timers_counted(counting),
        accepted=tuple(_answers(counting.live, What.ACCEPTED)),
        kept=tuple(_answers(counting.live, What.KEPT)),
        notes=tuple(
            Note(each.id, text_in(each.values, "text"), each.at, text_in(each.values, "step"))
            for each in counting.live
            if each.what is What.NOTE
        ),
        tastings=tuple(
            Tasting(each.id, _mark(each), text_in(each.values, "text"), each.at)
            for each in counting.live
            if each.what is What.TASTED
        ),
        after=afterwards_of(counting.live),
        undo=counting.undo,
        redo=counting.redo,
        formers=counting.formers,
        in_force=counting.in_force,
    )


def _with_day(found: Brewing, entry: Entry) -> Brewing:
    """Note when the day began, and when it was over."""
    if entry.what is What.BEGAN and found.began is None:
        values = entry.values
        return replace(
            found,
            recipe=with_taught_at_start(found.recipe, values),
            began=entry.at,
            start_min=number_in(values, "start_min"),
            shown=text_in(values, "shown"),
        )
    return replace(found, finished=entry.at) if entry.what is What.FINISHED else found


def _mark(entry: Entry) -> int:
    return min(max(count_in(entry.values, "mark", 0), 0), 5)


def _readings(counting: Counting) -> Iterator[KeptReading]:
    for each in counting.live:
        if each.what is not What.READING:
            continue
        reading = reading_of(values_in(each.values, "reading"))
        if reading is not None:
            formers = counting.formers.get(each.id, ())
            yield KeptReading(
                each.id,
                reading,
                text_in(each.values, "typed"),
                each.at,
                tuple(text_in(former.values, "typed") for former in formers),
                text_in(each.values, "step"),
                each.by_guess,
            )


def _answers(live: Iterable[Entry], what: What) -> Iterator[Answer]:
    for each in live:
        if each.what is what:
            values = each.values
            said, code = text_in(values, "said"), text_in(values, "proposal")
            yield Answer(each.id, code, values.get("changes"), said, each.at, values)


class _Walk:
    """Goes through the steps as a log tells it."""

    def __init__(self, steps: tuple[StoveStep, ...]) -> None:
        self._steps = steps
        self._said: dict[str, Entry] = {}
        self._pending = list(dict.fromkeys(each.key for each in steps))
        self._put_off: set[str] = set()
        self._back = ""

    def take(self, entry: Entry) -> None:
        """Let an entry count."""
        key = text_in(entry.values, "step")
        if entry.what in (What.DONE, What.LEFT_OUT):
            self._said[key] = entry
            self._put_off.discard(key)
            if key in self._pending:
                self._pending.remove(key)
            self._back = ""
        elif entry.what is What.LATER:
            self._back = ""
            if key in self._pending:
                self._put_off.add(key)
                at = self._pending.index(key)
                self._pending[at : at + 2] = reversed(self._pending[at : at + 2])
        elif entry.what is What.BACK:
            self._back = key

    @property
    def now(self) -> StoveStep | None:
        """The step to do now; None when all are done."""
        key = self._back or (self._pending[0] if self._pending else "")
        found = {each.key: each for each in self._steps}
        return found.get(key) or found.get(self._pending[0] if self._pending else "")

    def states(self) -> tuple[StepState, ...]:
        """Return how each step stands."""
        now = self.now
        return tuple(self._state(each, is_now=each is now) for each in self._steps)

    def _state(self, step: StoveStep, *, is_now: bool) -> StepState:
        said = self._said.get(step.key)
        if said is None:
            later = Status.LATER if step.key in self._put_off else Status.AHEAD
            return StepState(step, Status.NOW if is_now else later)
        did = Status.DONE if said.what is What.DONE else Status.LEFT_OUT
        reason = text_in(said.values, "reason")
        return StepState(step, Status.NOW if is_now else did, said.at, reason, said.id)
