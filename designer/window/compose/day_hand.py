"""The hand that moves additions along the day: to where the pointer is, or a place on by a key."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from designer.brewday.results import Day
from designer.brewday.time_line import Addition
from designer.recipe.edits import Edit, Together
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import When
from designer.window.parts.day_scale import DayScale
from designer.window.parts.display_format import DisplayFormat
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.day_moves import (
    DRY_HOP_DAYS,
    at_boil,
    at_dry_hop,
    cooled_min,
    line_when,
    moved_edits,
    next_place,
    place_at,
)
from designer.workbench.day_reading import boil_span
from designer.workbench.day_runs import Run

SNAP_PX = 9.0
"""So near the end of the boil an addition still goes in at flame-out."""


@dataclass(frozen=True, slots=True)
class Held:
    """Lines of one list that are moved together, and the boil that they are of."""

    run: Run
    additions: tuple[Addition, ...]

    @property
    def lines(self) -> str:
        """The list that they are of."""
        return self.additions[0].lines

    @property
    def is_hop(self) -> bool:
        """Whether they may go in behind the boil too."""
        return self.lines == "hops"


class DayHand:
    """Moves what is held; `make` takes the edits. A drag is one step, and so is a row of keys."""

    def __init__(
        self,
        opened: OpenRecipe,
        scale: DayScale,
        display: DisplayFormat,
        make: Callable[[Edit], object],
    ) -> None:
        self._opened, self._scale, self._display, self._make = opened, scale, display, make
        self._merge_key = ""
        self._day: Day | None = None

    @property
    def is_dragging(self) -> bool:
        """Whether something is held by the pointer."""
        return self._day is not None

    def take_up(self, run: Run) -> None:
        """Begin to drag; how warm a stand is follows the day as it is now."""
        self._merge_key, self._day = self._opened.start_typing(), run.day
        self._scale.hold(True)

    def let_go(self) -> None:
        """End dragging."""
        self._day = None
        self._scale.hold(False)

    def drag(self, held: Held, x: float) -> None:
        """Put what is held to the place below the pointer."""
        if self._day is not None:
            self._move(held, self._place_at(held, self._day, x), self._merge_key)

    def _place_at(self, held: Held, day: Day, x: float) -> When:
        """Return the place that is meant by `x`.

        Behind the end of cooling is dry hopping: from a week before packaging to the last day.
        """
        run, scale = held.run, self._scale
        start, end = boil_span(run.day)
        time = scale.time_beyond(x) - run.at_min
        if not held.is_hop or x - scale.x(run.at_min + end) <= SNAP_PX:
            return at_boil(end - time, end - start)
        cooled = scale.x(run.at_min + cooled_min(day))
        if x <= cooled:
            now = line_when(run.recipe, held.additions[0]) or at_boil(0.0, 0.0)
            return place_at(day, time, now, self._display.one_system)
        last = scale.right if scale.is_last(run) else scale.x(run.end_min)
        fewest, most = DRY_HOP_DAYS
        share = (x - cooled) / max(last - cooled, 1.0)
        return at_dry_hop(most - share * (most - fewest))

    def nudge(self, held: Held, later: bool, merge_key: str) -> None:
        """Put what is held to the next place, later or earlier."""
        now = line_when(held.run.recipe, held.additions[0])
        if now is not None:
            start, end = boil_span(held.run.day)
            shown = self._display.one_system
            when = next_place(now, later, end - start, shown, is_hop=held.is_hop)
            self._move(held, when, merge_key)

    def _move(self, held: Held, when: When, merge_key: str) -> None:
        edits = moved_edits(held.run.recipe, held.additions, when, merge_key)
        if edits:
            one = Together(tuple(edits), edits[0].text, merge_key) if len(edits) > 1 else edits[0]
            self._make(self._put(one, held))

    def _put(self, edit: Edit, held: Held) -> Edit:
        """Return an edit of a line as it is made: in the recipe where the boil has it from there.

        What is moved while its boil is worked on, or is of that boil alone, is moved in it.
        """
        boils, run = self._opened.recipe.boils, held.run
        if run.boil is None or not boils:
            return edit
        is_own = getattr(boils[run.boil - 1], held.lines) is not None
        return InBoil(edit, run.boil) if run.alone or is_own else edit
