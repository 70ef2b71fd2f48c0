"""What a kitchen can weigh and measure, and what of its vessels may be filled."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from designer.recipe.document import Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.quantity import Quantity

LONGEST_BOIL_MIN, SHORTEST_BOIL_MIN = 60.0, 30.0
BOILED_AWAY = 0.35
"""Share of the water at the start that a boil may take away in a small pot; judgement."""
SMALLEST_BATCH_L = 1.0


@dataclass(frozen=True, slots=True)
class Scale:
    """How amounts are weighed and written: steps in kilograms and litres.

    A step is that of the first `least` that an amount reaches, the largest first.
    """

    extract: tuple[tuple[float, float], ...]
    grain: tuple[tuple[float, float], ...]
    hops: tuple[tuple[float, float], ...]
    litres: float
    mass: Callable[[float], Quantity]
    hop_mass: Callable[[float], Quantity]
    volume: Callable[[float], Quantity]

    def weighed(self, kg: float, steps: tuple[tuple[float, float], ...]) -> float:
        """Return an amount as a kitchen weighs it: whole steps, one at the least."""
        step = step_for(kg, steps)
        return max(round(kg / step), 1) * step

    def measured_down(self, litres: float) -> float:
        """Return litres down to a whole step, one at the least."""
        return max(int(litres / self.litres + 1e-6), 1) * self.litres


def step_for(kg: float, steps: tuple[tuple[float, float], ...]) -> float:
    """Return the step in which an amount is weighed."""
    return next(step for least, step in steps if kg >= least)


def most_beer_l(kitchen: Recipe) -> float:
    """Return what the fermenter takes with room for krausen."""
    brim = number_or_none(kitchen.fermenter, "volume") or 0.0
    return brim * (1.0 - number(kitchen.fermenter, "headspace"))


def boil_minutes(kitchen: Recipe, water_l: float) -> float:
    """Return how long to boil so much water: less than an hour where a small pot would boil dry."""
    most_h = BOILED_AWAY * water_l / max(number(kitchen.process, "evaporation"), 1e-6)
    quarters = int(60.0 * most_h / 15.0) * 15.0
    return min(max(quarters, SHORTEST_BOIL_MIN), LONGEST_BOIL_MIN)
