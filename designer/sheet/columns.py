"""Lists of steps that are much alike, as one list with a box for each time.

What is the same but for its time stands once; what only one of them does stands in its place, with
its own box alone.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher

from designer.sheet.blocks import Step, Strong, Turn, Words


@dataclass(frozen=True, slots=True)
class Track:
    """The steps of one boil or one fermenter, by its number."""

    number: int
    steps: tuple[Step, ...]


def side_by_side(
    tracks: Sequence[Track], called: Callable[[str], str], *, by_clock: bool = False
) -> tuple[Step, ...]:
    """Return the steps of all tracks in one list.

    A step that not all take begins with whose it is, as it is `called` by its numbers. With
    `by_clock` they are done at the same time: a step is shared only where its time is too, and the
    list is in order of time. Of one track the steps stay as they are.
    """
    if len(tracks) < 2:
        return tracks[0].steps if tracks else ()
    rows = [_Row(tracks[0], each) for each in tracks[0].steps]
    for track in tracks[1:]:
        rows = _joined(rows, track, by_clock=by_clock)
    made = [each.step(len(tracks), called) for each in rows]
    return tuple(sorted(made, key=lambda each: each.minutes) if by_clock else made)


class _Row:
    """A step, with the tracks that take it."""

    def __init__(self, track: Track, step: Step) -> None:
        self.first = step
        self.numbers = [track.number]
        self.turns = _turns_of(track, step)

    def take(self, track: Track, step: Step) -> None:
        self.numbers.append(track.number)
        self.turns += _turns_of(track, step)

    def step(self, tracks: int, called: Callable[[str], str]) -> Step:
        """The step with its boxes, and with the name of its track where it is not for all."""
        readings = self.first.readings
        if len(self.turns) > 1:
            numbers = tuple(turn.number for turn in self.turns)
            readings = tuple(replace(each, turns=numbers) for each in readings)
        do: Words = self.first.do
        if len(self.numbers) < tracks and not self.first.turns:
            label = called(", ".join(map(str, self.numbers)))
            do = (Strong(f"{label} "), *do)
        return replace(self.first, do=do, readings=readings, turns=self.turns)


def _turns_of(track: Track, step: Step) -> tuple[Turn, ...]:
    return step.turns or (Turn(track.number, step.when, step.minutes, step.doings),)


def _joined(rows: list[_Row], track: Track, *, by_clock: bool) -> list[_Row]:
    before = [_key(each.first, by_clock=by_clock) for each in rows]
    after = [_key(each, by_clock=by_clock) for each in track.steps]
    made: list[_Row] = []
    found = SequenceMatcher(None, before, after, autojunk=False).get_opcodes()
    for kind, start, end, first, last in found:
        made += rows[start:end]
        if kind == "equal":
            for row, step in zip(rows[start:end], track.steps[first:last], strict=True):
                row.take(track, step)
        else:
            made += [_Row(track, each) for each in track.steps[first:last]]
    return made


def _key(step: Step, *, by_clock: bool) -> Step:
    """What of a step is the same each time."""
    readings = tuple(replace(each, turns=()) for each in step.readings)
    bare = replace(step, minutes=0.0, readings=readings, turns=())
    return bare if by_clock else replace(bare, when="")
