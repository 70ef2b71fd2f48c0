"""Water and ice as levers of advice: the mark that is topped up to, and what of it is frozen."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.measured.advice_levers import (
    OF_LESS_BEER,
    OF_WATER,
    Change,
    step_l,
    stepped_kg,
    stepped_l,
    unit_of,
)
from designer.recipe.edits import ChangePart, Edit, Together
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.systems import is_in_us


@dataclass(frozen=True, slots=True)
class TopUp:
    """The mark that fermenters are filled to; several that are filled alike are changed alike.

    It `is_new` where the recipe has none, `is_after` where they are topped up already, and
    `of_many` where other fermenters are not changed.
    """

    fermenters: tuple[int, ...]
    boil: int
    is_planned: bool
    before: Quantity
    from_l: float
    low: int
    high: int
    is_new: bool = False
    is_after: bool = False
    of_many: bool = False

    @property
    def code(self) -> str:
        """Its lasting name."""
        return f"{'water' if self.is_after else 'top-up'}:{self.fermenters[0]}"

    def _mark(self, steps: int) -> Quantity:
        return stepped_l(self.before, self.from_l, steps)

    def effort(self, steps: int) -> float:
        """Return what it costs: water is at hand, but nobody likes to have less beer."""
        part = abs(steps) * step_l(self.before) / self.before.value
        return (OF_WATER if steps > 0 else OF_LESS_BEER) * part

    def edit(self, steps: int) -> Edit:
        """Return the edit."""
        mark, text = self._mark(steps), self.said(steps)
        change = ChangePart("process", "top_up_to", mark, text)
        return Together(tuple(InBoil(change, self.boil, each) for each in self.fermenters), text)

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values."""
        text = self._mark(steps).text
        more = {"more_l": self._more_l(steps)} if self.is_after else {}
        return tuple(
            {
                "part": "process",
                "field": "top_up_to",
                "to": text,
                "fermenter": each if self.is_planned else 0,
                **more,
            }
            for each in self.fermenters
        )

    def _more_l(self, steps: int) -> float:
        return round(self._mark(steps).value - self.from_l, 4)

    def _more(self, steps: int) -> tuple[Kind, Quantity]:
        return Kind.VOLUME, stepped_l(self.before, 0.0, steps)

    def said(self, steps: int) -> Message:
        """Return what is to be done."""
        mark = (Kind.VOLUME, self._mark(steps))
        before = (Kind.VOLUME, self.before)
        if self.is_after:
            told = say("advice-more-water", "Pour in {0} more water", self._more(steps))
        elif self.is_new:
            told = say("advice-fill-up", "Top up to {0}", mark)
        elif len(self.fermenters) > 1:
            told = say("advice-top-up-each", "Top up each to {0}, not {1}", mark, before)
        else:
            told = say("advice-top-up", "Top up to {0}, not {1}", mark, before)
        if not self.of_many:
            return told
        which = self.fermenters[0]
        return say("advice-in-fermenter", "Fermenter {which}: {told}", which=which, told=told)

    def use(self, steps: int) -> Message:
        """Return what takes it."""
        if self.is_after:
            return say("advice-add-it", "Add {0}", self._more(steps))
        return say("advice-use", "Use {0}", (Kind.VOLUME, self._mark(steps)))

    def keep(self, steps: int) -> Message:
        """Return what leaves it."""
        if self.is_new or self.is_after:
            return say("advice-no-water", "No water")
        return say("advice-keep", "Keep {0}", (Kind.VOLUME, self.before))


@dataclass(frozen=True, slots=True)
class Ice:
    """How much of the frozen water goes in: never more than was frozen."""

    fermenter: int
    boil: int
    is_planned: bool
    before: Quantity
    low: int
    high: int = 0

    @property
    def code(self) -> str:
        """Its lasting name."""
        return f"ice:{self.fermenter}"

    def _mass(self, steps: int) -> Quantity:
        if is_in_us(self.before.text):
            return stepped_kg(self.before, self.before.value, 2 * steps, "fermentables")
        kg = round(max(self.before.value + 0.1 * steps, 0.0), 3)
        return typed(Kind.MASS, kg, ".6g", "g" if unit_of(self.before) == "g" else "kg")

    def effort(self, steps: int) -> float:
        """Return what it costs: nothing."""
        return 0.0

    def edit(self, steps: int) -> Edit:
        """Return the edit."""
        change = ChangePart("process", "frozen_top_up", self._mass(steps), self.said(steps))
        return InBoil(change, self.boil, self.fermenter)

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values."""
        return (
            {
                "part": "process",
                "field": "frozen_top_up",
                "to": self._mass(steps).text,
                "fermenter": self.fermenter if self.is_planned else 0,
            },
        )

    def said(self, steps: int) -> Message:
        """Return what is to be done."""
        mass = self._mass(steps)
        if mass.value <= 0.0:
            return say("advice-no-ice", "Put in no ice")
        figures = (Kind.MASS, mass), (Kind.MASS, self.before)
        return say("advice-less-ice", "Put in {0} of ice, not {1}", *figures)

    def use(self, steps: int) -> Message:
        """Return what takes it."""
        if self._mass(steps).value <= 0.0:
            return say("advice-use-no-ice", "No ice")
        return say("advice-use", "Use {0}", (Kind.MASS, self._mass(steps)))

    def keep(self, steps: int) -> Message:
        """Return what leaves it."""
        return say("advice-keep", "Keep {0}", (Kind.MASS, self.before))
