"""What a kitchen can weigh and measure, and what of its vessels may be filled."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from designer.brewday.foam import foam_line_l
from designer.recipe.document import Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.quantity import Quantity
from designer.wort.extract import extract_for

LONGEST_BOIL_MIN, SHORTEST_BOIL_MIN = 60.0, 30.0
BOILED_AWAY = 0.35
"""Share of the water at the start that a boil may take away in a small pot; judgement."""
SMALLEST_BATCH_L, USUALLY_LEFT_L, LEAST_WORT, LEAST_WORT_L = 1.0, 0.3, 0.3, 0.7
POT_CARRIES_KG_L = 0.45
"""Extract for a litre that a pot holds below its foam line, less what boils away: with the volume
of the extract itself, about as much as keeps the end of the boil below 1.150."""


Steps = tuple[tuple[float, float], ...]
"""From which amount on it is weighed in which step, kilograms, the largest first."""


@dataclass(frozen=True, slots=True)
class Scale:
    """How amounts are weighed and written; `litres` is the step of volumes."""

    extract: Steps
    grain: Steps
    hops: Steps
    litres: float
    mass: Callable[[float], Quantity]
    hop_mass: Callable[[float], Quantity]
    volume: Callable[[float], Quantity]

    def weighed(self, kg: float, steps: Steps) -> float:
        """Return an amount as a kitchen weighs it: whole steps, one at the least."""
        step = step_for(kg, steps)
        return max(round(kg / step), 1) * step

    def measured_down(self, litres: float) -> float:
        """Return litres down to a whole step, one at the least."""
        return max(int(litres / self.litres + 1e-6), 1) * self.litres


def step_for(kg: float, steps: Steps) -> float:
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


def whole_batch(litres: float) -> float:
    """Return litres down to a round batch: half litres, tenths of little."""
    step = 0.5 if litres >= 4.0 else 0.1
    return max(int(litres / step + 1e-6) * step, SMALLEST_BATCH_L)


def batch_for(kitchen: Recipe, original_gravity: float, asked_l: float | None) -> float:
    """Return as much as was asked for or the fermenter takes, and the pot has wort for."""
    wanted = asked_l or whole_batch(most_beer_l(kitchen))
    carries_kg = POT_CARRIES_KG_L * wort_l(kitchen) * _moved(kitchen)
    most = carries_kg / float(extract_for(original_gravity, 1.0))
    return wanted if wanted <= most else whole_batch(most)


def wort_l(kitchen: Recipe) -> float:
    """Return what the pot holds below its foam line after the shortest boil, not less than 0.1."""
    steam_l = number(kitchen.process, "evaporation") * SHORTEST_BOIL_MIN / 60.0
    return max((foam_line_l(kitchen.pot) or 0.0) - steam_l, 0.1)


def _moved(kitchen: Recipe) -> float:
    """What of that does not stay behind with the trub, more than is usual."""
    more_l = max(number(kitchen.process, "left_in_pot") - USUALLY_LEFT_L, 0.0)
    return max(1.0 - more_l / wort_l(kitchen), 0.1)


def gives_wort(kitchen: Recipe) -> bool:
    """Tell whether a fair part of what the pot holds comes out of it as wort."""
    left_l = number(kitchen.process, "left_in_pot")
    least_l = max(LEAST_WORT * (foam_line_l(kitchen.pot) or 0.0), LEAST_WORT_L)
    return wort_l(kitchen) - left_l >= least_l
