"""Planned against real: when each step is expected now, how far behind one is, when all is done.

A step keeps its planned gap from the one it follows, so whoever is late with one is late with what
comes after, and whoever is early is early. What goes into a boil follows the clock of that boil
instead: it is held while the boil is paused, and an addition that is late moves nothing. A steep or
a stand lasts as long as its timer says. What is due and not done waits: it is expected now.

All of it is read off the steps, what was done when, and the timers, at one instant.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from designer.recipe.message import Message, say
from designer.sheet.stove import StoveStep
from designer.workbench.brew.brewing import Brewing, Status, StepState
from designer.workbench.brew.follows import follows_of
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.passing import passed
from designer.workbench.brew.timers import TimerState

_MINUTE_S = 60.0
_ON_TIME_MIN = 1


@dataclass(frozen=True, slots=True)
class Timed:
    """A step with its times, in seconds of the wall clock as it goes now.

    `planned` is by the plan from when the day began; `due` when its turn comes, `at` when it was
    done or is expected: never before now.
    """

    state: StepState
    planned: float
    due: float
    at: float

    @property
    def step(self) -> StoveStep:
        """The step itself."""
        return self.state.step


@dataclass(frozen=True, slots=True)
class Schedule:
    """When everything was and will be: `steps` as they stand in the plan.

    `behind_s` is how far behind the plan of the day one is now, below 0 ahead. `ends` is when the
    day that is brewed now is over by the wall clock.
    """

    steps: tuple[Timed, ...]
    behind_s: float
    ends: float

    def of(self, key: str) -> Timed | None:
        """Return the times of a step; None where there is none of that key."""
        return next((each for each in self.steps if each.step.key == key), None)

    @property
    def behind(self) -> Message:
        """How far behind, in words."""
        minutes = round(abs(self.behind_s) / _MINUTE_S)
        if minutes < _ON_TIME_MIN:
            return say("on-time", "on time")
        if self.behind_s > 0.0:
            return say("behind", "{number} min behind", number=minutes)
        return say("ahead", "{number} min ahead", number=minutes)

    def walls_of_plan(self, minutes: Iterable[float], boil: int) -> list[float]:
        """Return when each of these minutes of the plan of a boil was or will be.

        It goes from step to step as these were done and are expected.
        """
        line = [(planned, at) for at, planned in self._line(boil)]
        return [_between(line, each) for each in minutes]

    def _line(self, boil: int) -> list[tuple[float, float]]:
        """When and at which minute the steps of a boil are, both rising; none that is left out."""
        own = [each for each in self.steps if each.step.boil == boil and _counts(each.state)]
        rising: list[tuple[float, float]] = []
        for each in own:
            at, minutes = each.at, each.step.minutes
            if rising and minutes <= rising[-1][1]:
                at = max(at, rising[-1][0])
                rising[-1] = (at, rising[-1][1])
            else:
                rising.append((max(at, rising[-1][0]) if rising else at, minutes))
        return rising


def schedule_of(brewing: Brewing, timers: Iterable[TimerState], now: Instant) -> Schedule:
    """Return when each step of a brew was done or is expected, as of now.

    Before the day begins it is expected to begin now.
    """
    began = now.wall if brewing.began is None else _wall(brewing.began, now)
    told = _Told(brewing.states, tuple(timers), began, now)
    steps = tuple(told.timed(each) for each in brewing.states)
    here = next((each for each in steps if each.state.status is Status.NOW), None)
    last = here or max(steps, key=lambda each: each.at, default=None)
    if last is None:
        return Schedule((), 0.0, began)
    today = [each.at for each in steps if each.step.on_day == last.step.on_day]
    return Schedule(steps, last.at - last.planned, max(today))


class _Told:
    """Works out the times of steps, each from those it follows."""

    def __init__(
        self,
        states: Sequence[StepState],
        timers: tuple[TimerState, ...],
        began: float,
        now: Instant,
    ) -> None:
        self._states = {each.step.key: each for each in states}
        self._steps = tuple(each.step for each in states)
        self._follows = follows_of(self._steps)
        self._timers = {(each.kind, each.boil): each for each in timers}
        self._began = began
        self._now = now
        self._made: dict[str, Timed] = {}

    def timed(self, state: StepState) -> Timed:
        """Return the times of a step; those it follows stand before it."""
        step = state.step
        planned = self._day_began(step) + _MINUTE_S * step.minutes
        due = self._due(step, planned)
        if state.status in (Status.DONE, Status.LEFT_OUT) and state.at is not None:
            at = _wall(state.at, self._now)
        else:
            at = max(due, self._now.wall)
        made = Timed(state, planned, due, at)
        self._made[step.key] = made
        return made

    def _day_began(self, step: StoveStep) -> float:
        """From when the minutes of its day count: a later day by when its first step is done.

        Until then it is expected to begin as planned, or if that is past, now.
        """
        if step.on_day == 0:
            return self._began
        states = [each for each in self._states.values() if each.step.on_day == step.on_day]
        for state in states:
            if state.status is Status.DONE and state.at is not None:
                return _wall(state.at, self._now) - _MINUTE_S * state.step.minutes
        return max(self._began, self._now.wall - _MINUTE_S * states[0].step.minutes)

    def _due(self, step: StoveStep, planned: float) -> float:
        boil = self._timers.get(("boil", step.boil))
        if step.left_min is not None and boil is not None:
            if step.kind == "boils":
                return boil.began_wall(self._now)
            left_min = min(step.left_min, boil.length_s / _MINUTE_S)
            return boil.ends_wall(self._now) - _MINUTE_S * left_min
        follows = self._follows[step.key]
        due = [self._after(each, step) for each in follows.steps]
        due += [self._at(each) for each in follows.waits_for]
        return max(due, default=planned)

    def _after(self, before: StoveStep, step: StoveStep) -> float:
        """The planned gap after a step, and as long as the timer runs that it started."""
        gap = _MINUTE_S * max(step.minutes - before.minutes, 0.0)
        starts = before.starts
        at = self._at(before)
        if starts is None or _MINUTE_S * starts.minutes > gap + 1e-6:
            return at + gap
        timer = self._timers.get((starts.name, starts.boil))
        if timer is None or self._states[before.key].status is not Status.DONE:
            return at + gap
        return timer.ends_wall(self._now) + gap - _MINUTE_S * starts.minutes

    def _at(self, step: StoveStep) -> float:
        """When a step was or is; what is left out takes the time that it was planned to take."""
        made = self._made[step.key]
        return made.due if made.state.status is Status.LEFT_OUT else made.at


def _counts(state: StepState) -> bool:
    return state.status is not Status.LEFT_OUT


def _wall(instant: Instant, now: Instant) -> float:
    """When an instant was by the wall clock as it goes now, however it was set since."""
    return now.wall - passed(instant, now).seconds


def _between(points: list[tuple[float, float]], x: float) -> float:
    """Go along points that rise, from minutes to seconds; beyond the ends as the clock goes."""
    if not points:
        return 0.0
    first, last = points[0], points[-1]
    if x <= first[0]:
        return first[1] + _MINUTE_S * (x - first[0])
    if x >= last[0]:
        return last[1] + _MINUTE_S * (x - last[0])
    at = bisect_right([each for each, _ in points], x)
    (left, low), (right, high) = points[at - 1], points[at]
    return low + (high - low) * (x - left) / (right - left)
