"""What can still be changed while a day is brewed, in steps of a kitchen's scale, jug and clock.

Each lever tells its edit, the same as plain values for a log, and both in words. A step of nought
is the day as it goes on without advice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Protocol

from designer.brewday.weighable import KG_PER_LB, KG_PER_OZ, L_PER_GAL, US_MASSES, US_VOLUMES
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import ChangeLine, ChangePart, Edit, Together, with_amount
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.named import Line, lines_of
from designer.recipe.plan import recipe_of_boil
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind, Quantity, Stage, When

Change = Mapping[str, Any]
"""One change as plain values: `lines`, `line_id`, `field` and `to`, or `part`, `field` and `to`, or
`lines`, `line_id` and `add`; with the `boil` or `fermenter` of a plan that it is for, else 0."""


class Lever(Protocol):
    """Something that may be changed by whole steps, from `low` to `high` of them."""

    @property
    def code(self) -> str:
        """Its lasting name."""

    @property
    def low(self) -> int:
        """The fewest steps."""

    @property
    def high(self) -> int:
        """The most steps."""

    def effort(self, steps: int) -> float:
        """Return what so many steps cost, beside misses that cost 1 at the edge of a band."""

    def edit(self, steps: int) -> Edit:
        """Return the edit."""

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values."""

    def said(self, steps: int) -> Message:
        """Return what is to be done, as a sentence without its stop."""

    def use(self, steps: int) -> Message:
        """Return what the button says that takes it."""

    def keep(self, steps: int) -> Message:
        """Return what the button says that leaves it."""


def step_l(before: Quantity) -> float:
    """Return a step of a jug, in litres, in the units of the volume before it."""
    return 0.05 * L_PER_GAL if _unit(before) in US_VOLUMES else 0.1


def stepped_l(before: Quantity, base_l: float, steps: int) -> Quantity:
    """Return a volume so many steps from another."""
    if _unit(before) in US_VOLUMES:
        figure = round(base_l / L_PER_GAL + 0.05 * steps, 2)
        return Quantity(figure * L_PER_GAL, f"{figure:g} gal")
    return typed(Kind.VOLUME, round(base_l + 0.1 * steps, 1), ".6g")


OF_WATER, OF_LESS_BEER, OF_AMOUNTS, OF_AROMA, OF_TIME, NOT_AT_HAND = 0.2, 1.0, 0.15, 0.4, 0.3, 0.06
"""What changing all of a thing costs, against misses that cost 1 at the edge of a band; judged."""
AROMA_MIN = 20.0
"""Hops boiled for less bring aroma too: common practice, no source."""
EXTRACT_STEP_KG, HOP_STEP_KG = 0.01, 0.001
_EXTRACT_STEP_OZ, _HOP_STEP_OZ = 0.5, 0.05


def step_kg(before: Quantity | None, lines: str) -> float:
    """Return a step of a scale, in kilograms, in the units of the mass before it."""
    if before is not None and _unit(before) in US_MASSES:
        return KG_PER_OZ * (_HOP_STEP_OZ if lines == "hops" else _EXTRACT_STEP_OZ)
    return HOP_STEP_KG if lines == "hops" else EXTRACT_STEP_KG


def stepped_kg(before: Quantity | None, base_kg: float, steps: int, lines: str) -> Quantity:
    """Return a mass so many steps from another, as it is weighed."""
    step = step_kg(before, lines)
    if before is not None and _unit(before) in US_MASSES:
        ounces = round((base_kg + steps * step) / KG_PER_OZ, 2)
        if _unit(before).startswith("lb") and ounces >= 16.0:
            pounds = round(ounces / 16.0, 3)
            return Quantity(pounds * KG_PER_LB, f"{pounds:g} lb")
        return Quantity(ounces * KG_PER_OZ, f"{ounces:g} oz")
    places = 4 if lines == "hops" else 3
    return typed(Kind.MASS, round(base_kg + steps * step, places), ".6g")


def _unit(quantity: Quantity) -> str:
    words = quantity.text.split()
    return words[-1] if words else ""


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


@dataclass(frozen=True, slots=True)
class BoilTime:
    """How long a boil lasts, by whole minutes: what went in boils so much longer, or less long."""

    boil: int
    is_planned: bool
    before: Quantity
    gone_in: tuple[tuple[str, Line], ...]
    low: int
    high: int

    @property
    def code(self) -> str:
        """Its lasting name."""
        return f"boil:{self.boil}"

    def _time(self, steps: int) -> Quantity:
        return typed(Kind.TIME, round(self.before.value + steps, 3), ".6g")

    def _when(self, line: Line, steps: int) -> When:
        minutes = round(line.when.minutes + steps, 3)
        return When(Stage.BOIL, f"boil {minutes:g} min", minutes)

    def effort(self, steps: int) -> float:
        """Return what it costs: time at the stove."""
        return OF_TIME * abs(steps) / 60.0

    def edit(self, steps: int) -> Edit:
        """Return the edit."""
        text = self.said(steps)
        edits: list[Edit] = [
            InBoil(ChangePart("process", "boil_time", self._time(steps), text), self.boil)
        ]
        for lines, line in self.gone_in:
            when = (("when", self._when(line, steps)),)
            edits.append(InBoil(ChangeLine(lines, line.line_id, when, text), self.boil))
        return Together(tuple(edits), text)

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values; `longer` tells readings in this boil apart."""
        boil = self.boil if self.is_planned else 0
        time: Change = {
            "part": "process",
            "field": "boil_time",
            "to": self._time(steps).text,
            "boil": boil,
            "longer": steps,
        }
        moved: tuple[Change, ...] = tuple(
            {
                "lines": lines,
                "line_id": line.line_id,
                "field": "when",
                "to": self._when(line, steps).text,
                "boil": boil,
            }
            for lines, line in self.gone_in
        )
        return (time, *moved)

    def said(self, steps: int) -> Message:
        """Return what is to be done."""
        by = (Kind.TIME, float(abs(steps)))
        if steps < 0:
            return say("advice-shorter", "Boil {0} less", by)
        return say("advice-longer", "Boil {0} longer", by)

    def use(self, steps: int) -> Message:
        """Return what takes it."""
        return say("advice-boil", "Boil {0}", (Kind.TIME, self._time(steps)))

    def keep(self, steps: int) -> Message:
        """Return what leaves it."""
        return say("advice-keep", "Keep {0}", (Kind.TIME, self.before))


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
        if _unit(self.before) in US_MASSES:
            return stepped_kg(self.before, self.before.value, 2 * steps, "fermentables")
        kg = round(max(self.before.value + 0.1 * steps, 0.0), 3)
        return typed(Kind.MASS, kg, ".6g", "g" if _unit(self.before) == "g" else "kg")

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
