"""How long a boil lasts, as a lever of advice."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.measured.advice_levers import (
    OF_TIME,
    Change,
)
from designer.recipe.edits import ChangeLine, ChangePart, Edit, Together
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.named import Line
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind, Quantity, Stage, When


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
