"""A changed recipe tried: its day without a time line, gone on with from where the change tells.

A cure is tried by running the day after it. Most of what is looked at then does not hang on the
time line, and what is frozen of a top-up, or how far it is filled up, does nothing to the pot until
that is cooled: there the plain day has been kept, `Paused`, and such a cure goes on from it. Who
seeks a cure runs the day after it, and so does who looks whether it may be offered: the days that
were tried are kept with the one they were changed from.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, field, fields
from typing import NamedTuple

from designer.brewday.inputs import Inputs
from designer.brewday.results import Day, Hot
from designer.brewday.run import Run
from designer.brewday.schedule import Schedule
from designer.recipe.document import Recipe
from designer.recipe.edits import all_lists
from designer.wort.numeric import Numeric

FROM_COOLING_ON = frozenset(
    (
        "cool_to_c",
        "hottest_to_pour_c",
        "takes_hot_water",
        "left_in_pot_l",
        "top_up_to_l",
        "frozen_kg",
        "pitch_c",
        "attenuation",
        "yeast",
    )
)
"""Inputs that nothing looks at before the pot is cooled for the fermenter."""
_LINES = ("extracts", "hops")
_UNTIL_THEN = tuple(
    each.name for each in fields(Inputs) if each.name not in (*FROM_COOLING_ON, *_LINES)
)


class Tried(Run):
    """A run that is noted but for its time line: how full the pot was, and each stage of it."""

    @property
    def draws_curves(self) -> bool:
        """Nobody sees them, and a pot is fullest as hot as it becomes."""
        return False

    @property
    def tells_additions(self) -> bool:
        """Nobody asks for what went in when."""
        return False

    def note(
        self,
        stage: str,
        *,
        fermenter_l: float = 0.0,
        boiling: bool = False,
        coil: bool = False,
        temp_c: Numeric | None = None,
    ) -> None:
        """Keep how full the pot is; while it cools it was fuller before."""
        if stage != "cool":
            self._seen_how_full(stage, boiling=boiling, coil=coil)


class _DayTried(NamedTuple):
    """A recipe, the ids of its lines, which no comparison of recipes looks at, and its day."""

    recipe: Recipe
    line_ids: tuple[int, ...]
    day: Day


@dataclass(frozen=True, slots=True)
class Paused:
    """A plain day whose pot is to be cooled now; `gone_on` leaves it as it is."""

    run: Run
    hot: Hot
    _tried: list[_DayTried] = field(default_factory=list, init=False, repr=False, compare=False)

    @staticmethod
    def of(run: Run, hot: Hot) -> Paused:
        """Keep a run as it is, without its time line."""
        kept = Tried(run.inputs, run.plan, run.noting, run.clock)
        _bring_to(kept, run)
        return Paused(kept, hot)

    def gone_on(self, given: Inputs, plan: Schedule) -> Run:
        """Return a run that goes on from here with inputs that are alike until now."""
        run = Tried(given, plan, self.run.noting, self.run.clock)
        _bring_to(run, self.run)
        return run

    def day_tried(self, recipe: Recipe) -> Day | None:
        """Return the day of a changed recipe, None where it was not tried before."""
        known = (each.day for each in self._tried if each[:2] == (recipe, _ids(recipe)))
        return next(known, None)

    def keep_tried(self, recipe: Recipe, day: Day) -> None:
        """Keep the day of a changed recipe."""
        self._tried.append(_DayTried(recipe, _ids(recipe), day))


def _ids(recipe: Recipe) -> tuple[int, ...]:
    return tuple(line.line_id for lines in all_lists(recipe) for line in lines)


def _bring_to(run: Run, there: Run) -> None:
    """Bring a run that has just begun to where another is, its fermenter still being empty."""
    run.clock = copy(there.clock)
    run.clock.stretches = list(there.clock.stretches)
    run.pot = there.pot.without_book()
    run.steam_kg, run.bath_ice_kg, run.now_min = there.steam_kg, there.bath_ice_kg, there.now_min
    run.spans, run.hop_positions = list(there.spans), dict(there.hop_positions)
    run.fullest_l, run.fullest_at = there.fullest_l, there.fullest_at
    run.fullest_boiling_l, run.reached_boil = there.fullest_boiling_l, there.reached_boil


def alike_until_cooled(one: Inputs, other: Inputs) -> bool:
    """Return whether plain days with these inputs are the same until their pots are cooled."""
    return all(getattr(one, name) == getattr(other, name) for name in _UNTIL_THEN) and all(
        _same_lines(getattr(one, name), getattr(other, name)) for name in _LINES
    )


def _same_lines(some: tuple[object, ...], others: tuple[object, ...]) -> bool:
    return len(some) == len(others) and all(map(_same, some, others))


def _same(one: object, other: object) -> bool:
    """Return whether two plain lines give the same: mostly it is the one that was kept."""
    return one is other or all(
        getattr(one, each.name) == getattr(other, each.name)
        for each in fields(one)  # type: ignore[arg-type]
    )
