"""What must be there: the recipe as last typed, and everything that was said to be kept.

A program may lose what was typed in the last moment before it is killed, and no more: the state
that the header called kept, or that was `WITHIN_S` old with a store that could be written, must be
on the disk. So the model holds a trail of states: the last one known to be kept, and all since.
"""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from pathlib import Path

from tests.benchmarks.robot.disk import Facts, Held, differences, key_of

WITHIN_S = 1.5
"""Drafts are written 0.35 to 0.9 s after a key; the rest is for a machine with other work to do."""


@dataclass(frozen=True)
class State:
    """The recipe at one time. At `typing` places something was typed that was not left yet."""

    facts: Facts
    since: float
    typing: tuple[str, ...] = ()
    clean: bool = False
    """Whether nothing of it is unsaved: a recipe just opened, say, that is lost to nobody."""

    @property
    def key(self) -> str:
        """What tells it from other states."""
        return key_of(self.facts)

    def is_held_by(self, facts: Facts) -> bool:
        """Whether a recipe on disk is this state, half typed text aside."""
        found = differences(self.facts, facts)
        return all(place.startswith(self.typing) if self.typing else False for place in found)


@dataclass
class Model:
    """The model of one sitting with the program, over all its restarts."""

    trail: list[State] = field(default_factory=list)
    undo: list[Facts] | None = None
    redo: list[Facts] | None = None
    versions: dict[str, str] = field(default_factory=dict)
    """Keys of versions said to be kept, and when that was said: they stay for ever."""
    somewhere: dict[str, tuple[State, str]] = field(default_factory=dict)
    """States that were left: they are to be found, as a version or a draft."""
    files: dict[Path, str] = field(default_factory=dict)
    """What each recipe file holds, as the program or another hand wrote it last."""
    theirs: dict[str, str] = field(default_factory=dict)
    """What other hands wrote to the open file; nobody may write over it unasked."""
    path: str = ""
    unsaved: bool = False
    writable_since: float = 0.0
    """When the store could be written again; infinite while it cannot."""
    edits_confirmed: int = 0

    @property
    def now(self) -> State:
        """The recipe as it must be now."""
        return self.trail[-1]

    def start(self, facts: Facts) -> None:
        """Take a recipe for what is open, with no history known."""
        self.trail = [State(facts, time.monotonic(), clean=not self.unsaved)]
        self.undo = self.redo = None

    def opened(self, facts: Facts, path: str = "") -> None:
        """Another recipe is open, with an empty history."""
        self.start(facts)
        self.undo, self.redo, self.path = [], [], path

    def typing(self, *places: str) -> None:
        """From now on something is typed at some places."""
        self.trail.append(State(self.now.facts, time.monotonic(), places))

    def edited(self, facts: Facts, *, steps_known: bool = True) -> None:
        """The recipe was changed, as one step of its history."""
        before = next(each for each in reversed(self.trail) if not each.typing).facts
        self.trail.append(State(facts, time.monotonic(), clean=not self.unsaved))
        if key_of(before) == key_of(facts):
            return
        if self.undo is not None and steps_known:
            self.undo = [*self.undo, before]
        else:
            self.undo = None
        self.redo = []

    def confirm(self) -> None:
        """The recipe as it is now was said to be kept."""
        if len(self.trail) > 1 and not self.now.typing:
            self.edits_confirmed += len({each.key for each in self.trail}) - 1
            self.trail = [self.now]

    def may_be_left(self, at: float, machine_late: float = 0.0) -> list[State]:
        """Return the states one of which must be on disk if the program ended at a time.

        On a machine that is behind by so many seconds everything takes some times as long.
        """
        oldest = at - WITHIN_S - 6.0 * machine_late
        if self.writable_since > oldest:
            return list(self.trail)
        kept = 0
        for number, each in enumerate(self.trail):
            if each.since <= oldest and not each.typing:
                kept = number
        return self.trail[kept:]

    def leave(self, states: list[State], why: str) -> None:
        """What was open is left: one of these states is to be found from now on."""
        state = states[-1]
        self.somewhere[state.key] = (state, why)

    def missing(self, held: Held) -> list[str]:
        """Return in words what was said to be kept and is not there; each thing is told once."""
        gone = [key for key in self.versions if key not in held.versions]
        found = [self.versions.pop(key) for key in gone]
        for key, (state, why) in list(self.somewhere.items()):
            is_open = any(each.key == key for each in self.trail)
            if not held.has(key) and not is_open:
                found.append(f"{why} ({state.facts.get('name')})")
                del self.somewhere[key]
        return found


def found_on_disk(states: list[State], held: Held, files: list[Facts]) -> State | None:
    """Return which of some states is on disk, the newest first; None if none is."""
    everything = [*held.drafts.values(), *held.versions.values(), *files]
    for state in reversed(states):
        if not state.typing and (
            held.has(state.key) or any(key_of(each) == state.key for each in files)
        ):
            return state
        if state.typing:
            for facts in everything:
                if state.is_held_by(facts):
                    return State(facts, state.since)
    return None
