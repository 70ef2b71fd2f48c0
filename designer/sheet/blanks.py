"""What a step of the brew day is at the stove, apart from how it is printed.

None of it is read out of words: it is told where the step is written.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.measured.readings import By, Measured
from designer.recipe.quantity import Kind


@dataclass(frozen=True, slots=True)
class Blank:
    """What is measured at a step: the words beside the blank, what the day makes of it.

    `forecast` is written as the sheet does, `value` in the base unit; `by` is the usual way to
    read it. `label` is short enough for a narrow column. `lines` and `line_id` name the line that
    is weighed, or whose packet is read; what the recipe does not tell has the forecast "".
    """

    what: Measured
    label: str
    kind: Kind
    forecast: str
    value: float
    by: By
    boil: int = 1
    fermenter: int = 1
    left_min: float | None = None
    lines: str = ""
    line_id: int = 0


@dataclass(frozen=True, slots=True)
class Countdown:
    """A timer that a step starts: "boil", "steep", "stand" or "kept hot", and how long it is."""

    name: str
    minutes: float
    boil: int = 1
