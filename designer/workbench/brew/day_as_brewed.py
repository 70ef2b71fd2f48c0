"""The day on a time line as it is brewed: its curves moved to when things were and will be done.

A day's run knows the plan's minutes; the schedule knows when each step was done or is expected. In
between the clock goes evenly. Days of a plan stand behind one another.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from designer.brewday.results import Day
from designer.sheet.stove import StoveStep
from designer.workbench.brew.brewing import Status
from designer.workbench.brew.schedule import Schedule
from designer.workbench.day_runs import Run

_MINUTE_S = 60.0
_SAME_MIN = 1e-6


@dataclass(frozen=True, slots=True)
class Mark:
    """What goes in at a minute of the line: the letter of its bag, and whether it is in."""

    time_min: float
    letter: str
    run: int = 0
    done: bool = False


@dataclass(frozen=True, slots=True)
class DayAsBrewed:
    """`real` are the runs as they go, `planned` those of the plan, on one line of minutes.

    `starts` holds for each day when its part of the line begins by the wall clock, and where.
    """

    real: tuple[Run, ...]
    planned: tuple[Run, ...]
    starts: dict[int, tuple[float, float]]

    def at(self, wall: float, on_day: int = 0) -> float:
        """Return where an instant of the wall clock stands on the line."""
        began, at_min = self.starts.get(on_day, (wall, 0.0))
        return at_min + (wall - began) / _MINUTE_S

    def wall_at(self, line_min: float) -> float:
        """Return the instant of the wall clock at a place on the line; `starts` may not be empty.

        A place between two days is of the earlier.
        """
        days = sorted(self.starts.values(), key=lambda day: day[1])
        began, at_min = next(
            (day for day in reversed(days) if day[1] <= line_min + _SAME_MIN), days[0]
        )
        return began + (line_min - at_min) * _MINUTE_S


def day_as_brewed(
    runs: Iterable[Run], planned: Iterable[Run], schedule: Schedule, began: float
) -> DayAsBrewed:
    """Return the line of a day that `began` at an instant of the wall clock."""
    runs, planned = tuple(runs), tuple(planned)
    starts: dict[int, tuple[float, float]] = {}
    real: list[Run] = []
    shown: list[Run] = []
    free = 0.0
    for day in sorted({run.on_day for run in runs}):
        starts[day] = (_day_began(schedule, day, began), free)
        of_day = [_warped(run, schedule, *starts[day]) for run in runs if run.on_day == day]
        as_meant = [
            replace(run, at_min=free + run.clock_min) for run in planned if run.on_day == day
        ]
        real += of_day
        shown += as_meant
        free = max(run.end_min for run in (*of_day, *as_meant))
    return DayAsBrewed(tuple(real), tuple(shown), starts)


def _day_began(schedule: Schedule, day: int, began: float) -> float:
    if day == 0:
        return began
    first = next((each for each in schedule.steps if each.step.on_day == day), None)
    return began if first is None else first.at - _MINUTE_S * first.step.minutes


def _warped(run: Run, schedule: Schedule, began: float, at_min: float) -> Run:
    """Return a run with its minutes moved to those that the schedule gives them."""
    clock = _Going(schedule, run.boil or 1, began)
    begins = clock.minute(run.clock_min)

    def moved(minutes: float) -> float:
        return clock.minute(run.clock_min + minutes) - begins

    day = run.day
    return replace(run, at_min=at_min + begins, clock_min=begins, day=_moved(day, moved))


def _moved(day: Day, moved: Callable[[float], float]) -> Day:
    return replace(
        day,
        total_min=moved(float(day.total_min)),
        moments=tuple(each.moved_to(moved(each.time_min)) for each in day.moments),
        spans=tuple(
            replace(each, start_min=moved(each.start_min), end_min=moved(each.end_min))
            for each in day.spans
        ),
        additions=tuple(replace(each, time_min=moved(each.time_min)) for each in day.additions),
    )


class _Going:
    """Minutes of the plan of a boil as minutes since the day began."""

    def __init__(self, schedule: Schedule, boil: int, began: float) -> None:
        own = sorted({each.step.minutes for each in schedule.steps if each.step.boil == boil})
        self._plan = own or [0.0]
        walls = schedule.walls_of_plan(own, boil) or [began]
        self._real = [(each - began) / _MINUTE_S for each in walls]

    def minute(self, planned: float) -> float:
        """Return when a minute of the plan was or will be; beyond the steps the clock goes on."""
        plan, real = self._plan, self._real
        if planned <= plan[0]:
            return real[0] + planned - plan[0]
        if planned >= plan[-1]:
            return real[-1] + planned - plan[-1]
        after = bisect_right(plan, planned)
        share = (planned - plan[after - 1]) / (plan[after] - plan[after - 1])
        return real[after - 1] + share * (real[after] - real[after - 1])


def marks_of(schedule: Schedule, line: DayAsBrewed) -> tuple[Mark, ...]:
    """Return the letters of the bags, where they went in or will."""
    rows = {run.boil or 1: number for number, run in enumerate(line.real)}
    return tuple(
        Mark(
            line.at(each.at, each.step.on_day),
            each.step.mark,
            rows.get(each.step.boil, 0),
            each.state.status in (Status.DONE, Status.LEFT_OUT),
        )
        for each in schedule.steps
        if each.step.mark.isalpha()
    )


def planned_marks(steps: Iterable[StoveStep], runs: tuple[Run, ...]) -> tuple[Mark, ...]:
    """Return the letters of the bags of a day that has not begun."""
    rows = {run.boil or 1: (number, run) for number, run in enumerate(runs)}
    found = []
    for each in steps:
        number, run = rows.get(each.boil, (0, runs[0]))
        if each.mark.isalpha():
            found.append(Mark(run.at_min - run.clock_min + each.minutes, each.mark, number))
    return tuple(found)
