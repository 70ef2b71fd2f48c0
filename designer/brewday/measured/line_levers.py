"""Lines of the recipe as levers of advice: how much of one goes in, and extract that it has not."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from designer.brewday.measured.advice_levers import (
    AROMA_MIN,
    NOT_AT_HAND,
    OF_AMOUNTS,
    OF_AROMA,
    Change,
    step_kg,
    stepped_kg,
)
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import ChangeLine, Edit, with_amount
from designer.recipe.message import Message, say
from designer.recipe.named import Line, lines_of
from designer.recipe.plan import recipe_of_boil
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind, Quantity, Stage


@dataclass(frozen=True, slots=True)
class Weighed:
    """How much of a line goes in that is still ahead."""

    lines: str
    line: Line
    boil: int
    is_planned: bool
    low: int
    high: int
    is_last: bool = False

    @property
    def code(self) -> str:
        """Its lasting name."""
        return f"{self.lines}:{self.line.line_id}:{self.boil}"

    @property
    def _amount(self) -> Quantity:
        assert self.line.amount is not None
        return self.line.amount

    def _mass(self, steps: int) -> Quantity:
        return stepped_kg(self._amount, self._amount.value, steps, self.lines)

    def effort(self, steps: int) -> float:
        """Return what it costs: hops for their aroma more than those for bitterness."""
        part = abs(steps) * step_kg(self._amount, self.lines) / self._amount.value
        late = self.lines == "hops" and self.line.when.minutes < AROMA_MIN
        return (OF_AROMA if late else OF_AMOUNTS) * part

    def edit(self, steps: int) -> Edit:
        """Return the edit."""
        text = self.said(steps)
        changes = with_amount(self.line, self._mass(steps))
        return InBoil(ChangeLine(self.lines, self.line.line_id, changes, text), self.boil)

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values."""
        return tuple(
            {
                "lines": self.lines,
                "line_id": self.line.line_id,
                "field": field,
                "to": value.text,
                "boil": self.boil if self.is_planned else 0,
            }
            for field, value in with_amount(self.line, self._mass(steps))
        )

    def said(self, steps: int) -> Message:
        """Return what is to be done."""
        less = self._mass(steps).value < self._amount.value
        by = stepped_kg(self._amount, 0.0, abs(steps), self.lines)
        names = {"name": self.line.name}
        if less and self.is_last:
            return say("advice-back-last", "Keep back {0} of the last hops", (Kind.MASS, by))
        if less:
            return say("advice-back", "Keep back {0} of the {name}", (Kind.MASS, by), **names)
        return say("advice-more", "Put in {0} more {name}", (Kind.MASS, by), **names)

    def use(self, steps: int) -> Message:
        """Return what takes it."""
        return say("advice-use", "Use {0}", (Kind.MASS, self._mass(steps)))

    def keep(self, steps: int) -> Message:
        """Return what leaves it."""
        return say("advice-keep", "Keep {0}", (Kind.MASS, self._amount))


@dataclass(frozen=True, slots=True)
class PutIn:
    """A line more in one boil, under a line_id of its own, at the end of its list.

    A log names lines by their line_id, so it is given and not found anew.
    """

    lines: str
    line: Line
    boil: int
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with the line; one of the same line_id is replaced."""
        if not recipe.boils:
            added = (*self._others(lines_of(recipe, self.lines)), self.line)
            whole: dict[str, Any] = {self.lines: added}
            return replace(recipe, **whole)
        own = lines_of(recipe_of_boil(recipe, self.boil), self.lines)
        mine: dict[str, Any] = {self.lines: (*self._others(own), self.line)}
        at = self.boil - 1
        boils = (*recipe.boils[:at], replace(recipe.boils[at], **mine), *recipe.boils[at + 1 :])
        return replace(recipe, boils=boils)

    def _others(self, lines: tuple[Line, ...]) -> tuple[Line, ...]:
        return tuple(each for each in lines if each.line_id != self.line.line_id)


@dataclass(frozen=True, slots=True)
class Added:
    """Extract that the recipe has not: into the boil, or dissolved in boiled water afterwards."""

    line: Fermentable
    boil: int
    is_planned: bool
    like: Quantity | None
    high: int
    of_many: bool = False
    low: int = 0

    @property
    def code(self) -> str:
        """Its lasting name."""
        return f"add:{self.boil}"

    def _mass(self, steps: int) -> Quantity:
        return stepped_kg(self.like, 0.0, steps, "fermentables")

    def effort(self, steps: int) -> float:
        """Return what it costs: it has to be in the house."""
        return OF_AMOUNTS * abs(steps) / max(self.high, 1) + NOT_AT_HAND

    def edit(self, steps: int) -> Edit:
        """Return the edit."""
        line = replace(self.line, amount=self._mass(steps))
        return PutIn("fermentables", line, self.boil, self.said(steps))

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values."""
        texts = {
            name: value.text
            for name in ("colour", "extract", "fermentability")
            if (value := getattr(self.line, name)) is not None
        }
        add = {
            "name": self.line.name,
            "kind": self.line.kind,
            "amount": self._mass(steps).text,
            "when": self.line.when.text,
            **texts,
        }
        boil = self.boil if self.is_planned else 0
        return ({"lines": "fermentables", "line_id": self.line.line_id, "add": add, "boil": boil},)

    def said(self, steps: int) -> Message:
        """Return what is to be done."""
        mass, name = (Kind.MASS, self._mass(steps)), self.line.name
        told = say("advice-add", "Add {0} {name}", mass, name=name)
        if self.line.when.stage is Stage.FERMENTER:
            told = say(
                "advice-add-dissolved", "Add {0} {name}, dissolved in boiled water", mass, name=name
            )
        if not self.of_many:
            return told
        return say("advice-in-wort", "Wort of boil {which}: {told}", which=self.boil, told=told)

    def use(self, steps: int) -> Message:
        """Return what takes it."""
        return say("advice-add-it", "Add {0}", (Kind.MASS, self._mass(steps)))

    def keep(self, steps: int) -> Message:
        """Return what leaves it."""
        return say("advice-add-none", "Add none")
