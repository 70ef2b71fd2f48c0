"""The boils of a day on one time line: which pot when, those at once in lanes of their own."""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.brewday.results import BoilDay, Day, PlanDays
from designer.recipe.document import Recipe
from designer.translation import tr, trn


@dataclass(frozen=True, slots=True)
class Run:
    """One boil on the time line.

    It stands `at_min` after the beginning of the line, and `clock_min` after the start of its own
    day, `on_day` days after the first. `boil` is its number in the plan, None where there is none;
    `alone` tells that it is the one that is worked on. `lane` counts from 0, the uppermost.
    """

    name: str
    recipe: Recipe
    day: Day
    at_min: float = 0.0
    clock_min: float = 0.0
    on_day: int = 0
    boil: int | None = None
    alone: bool = False
    lane: int = 0

    @property
    def end_min(self) -> float:
        """Where it ends on the line."""
        return self.at_min + float(self.day.total_min)


def runs_of(recipe: Recipe, day: Day, plan: PlanDays | None, boil: int | None) -> tuple[Run, ...]:
    """Return what the time line shows: the whole day, or one boil of its plan."""
    if plan is None:
        return (Run("", recipe, day),)
    if boil is not None and boil <= len(plan.boils):
        one = plan.boils[boil - 1]
        name = _name(one, plan)
        return (Run(name, one.recipe, one.day, 0.0, one.starts_min, one.on_day, boil, alone=True),)
    return _in_lanes(_one_day_behind_another(plan))


def _name(one: BoilDay, plan: PlanDays) -> str:
    if len(plan.boils) == 1:
        return ""
    name = tr("Boil {number}", number=one.number)
    if one.on_day == 0:
        return name
    return trn("{boil}, a day later", "{boil}, {number} days later", one.on_day, boil=name)


def _one_day_behind_another(plan: PlanDays) -> list[Run]:
    ends: dict[int, float] = {}
    for each in plan.boils:
        end = each.starts_min + float(each.day.total_min)
        ends[each.on_day] = max(ends.get(each.on_day, 0.0), end)
    return [
        Run(
            _name(each, plan),
            each.recipe,
            each.day,
            sum(end for day, end in ends.items() if day < each.on_day) + each.starts_min,
            each.starts_min,
            each.on_day,
            each.number,
        )
        for each in plan.boils
    ]


def _in_lanes(runs: list[Run]) -> tuple[Run, ...]:
    """Put each run into the first lane in which the one before it has ended."""
    ends: list[float] = []
    placed = []
    for run in runs:
        lane = next((n for n, end in enumerate(ends) if end <= run.at_min + 1e-6), len(ends))
        if lane == len(ends):
            ends.append(0.0)
        ends[lane] = run.end_min
        placed.append(replace(run, lane=lane))
    return tuple(placed)


def yeast_times(runs: tuple[Run, ...], plan: PlanDays | None) -> tuple[tuple[float, int], ...]:
    """Return when yeast can be pitched: minutes after the start of a day, and which day it is."""
    if plan is None or (runs and runs[0].alone):
        return tuple((each.clock_min + float(each.day.total_min), each.on_day) for each in runs)
    return tuple(dict.fromkeys((each.pitched_min, each.on_day) for each in plan.fermenters))
