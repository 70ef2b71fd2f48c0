"""Quantities given as options of a command, read with all their faults noted."""

from __future__ import annotations

from designer.errors import DesignerError
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.units import read, show
from designer.units.quoting import quoted


class Options:
    """Reads the quantities of options; what cannot be taken is noted in `problems`."""

    def __init__(self) -> None:
        self.problems: list[str] = []

    def value(
        self, option: str, kind: Kind, typed: str | None, least: float, most: float
    ) -> float | None:
        """Return a value within its bounds; None where none is given or it cannot be taken."""
        found = self.quantity(option, kind, typed, least, most)
        return None if found is None else found.value

    def quantity(
        self, option: str, kind: Kind, typed: str | None, least: float, most: float
    ) -> Quantity | None:
        """Return what was typed, as `value` does, with its text."""
        if not typed:
            return None
        try:
            found = read(kind, typed)
        except DesignerError as fault:
            self.refuse(option, fault)
            return None
        if least <= found.value <= most:
            return found
        self.problems.append(
            tr(
                "{option}: {typed} is outside {low} to {high}.",
                option=option,
                typed=quoted(typed),
                low=show(kind, least),
                high=show(kind, most),
            )
        )
        return None

    def refuse(self, option: str, fault: DesignerError) -> None:
        """Note why a text cannot be taken, as a sentence of its own."""
        self.problems.append(tr("{option}: {fault}.", option=option, fault=fault))
