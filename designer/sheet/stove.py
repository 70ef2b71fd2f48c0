"""The brew day step by step, as it is done at the stove: the sheet's own steps, one at a time.

There is no second list: each step is one of the sheet's, a step with boxes for several boils or
fermenters once for each of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.measured.readings import By, Measured
from designer.recipe.quantity import Kind
from designer.sheet.blocks import Aside, Portion, Words


@dataclass(frozen=True, slots=True)
class Blank:
    """What is measured at a step: the words beside the blank, what the day makes of it.

    `forecast` is written as the sheet does, `value` in the base unit; `by` is the usual way to
    read it. `label` is short enough for a narrow column.
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


@dataclass(frozen=True, slots=True)
class Countdown:
    """A timer that a step starts: "boil", "steep", "stand" or "kept hot", and how long it is."""

    name: str
    minutes: float
    boil: int = 1


@dataclass(frozen=True, slots=True)
class StoveStep:
    """One thing to do now.

    `key` is its lasting name: the same step of the same recipe has the same key whatever else
    changes, so a log can name it. `kind` is "fill", "heat", "steep", "lift", "extract", "boils",
    "addition", "sanitise", "coil", "flame-out", "kept hot", "stand", "cool", "move", "top-up",
    "mix", "read", "pitch", "close", "rinse" or "other". `mark` is the letter of the bag that goes
    in, or the number of the step. `amount` and `name` are what is read from two metres ("400 g",
    "Light dry malt extract"), `amount` is "" where nothing is weighed; `do` is the sheet's
    sentence. `minutes` counts from the start of the day, as planned. `left_min` is what is left of
    the boil at that moment. `boil` and `fermenter` count from 1, 0 for none.
    """

    key: str
    kind: str
    mark: str
    amount: str
    name: str
    do: Words
    minutes: float
    when: str
    left: str
    left_min: float | None
    boil: int
    fermenter: int
    on_day: int
    asides: tuple[Aside, ...] = ()
    portions: tuple[Portion, ...] = ()
    blanks: tuple[Blank, ...] = ()
    starts: Countdown | None = None
