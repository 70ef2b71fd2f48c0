"""How much water a pot takes, sought through the day of the recipe."""

from __future__ import annotations

from designer.brewday.day import brew, fullest_boiling_l
from designer.brewday.fit.changed_recipe import (
    WATER_STEP_L,
    forecast,
    line_kg,
    quick_day,
    with_water,
)
from designer.brewday.fit.original import Original
from designer.brewday.foam import foam_line_l
from designer.brewday.results import Day
from designer.brewday.search import first_that_passes, last_that_passes
from designer.recipe.choices import CoolingWay, is_grain
from designer.recipe.document import Pot, Recipe
from designer.recipe.fields import number, number_or_none
from designer.wort.vessel_fit import foam_limit_l

STRONGEST_BOIL_SG = 1.150
"""Beyond it a boil is a syrup that scorches and isomerises little; common practice, no source."""
LEAST_WATER_L = 1.0
THICKEST_STEEP_L_PER_KG = 3.0
"""Less water for a kilogram of grain and it does not rinse; common practice, no source."""
_MOST_WATER_L = 1000.0
_MARK_SLACK_L = 0.01
_STIRRED = ("heat again", "kept hot")
STIRRING_ROOM = 0.05
"""The share of a pot that stays free where syrup is stirred in off the boil; a judgement."""
_STEEPEST = 1.1
"""No litre of cold water makes a boiling pot fuller by more litres than that."""
NEARLY_BOILING_C = 5.0


def foam_limit(pot: Pot) -> float:
    """Return the litres up to which the pot may boil; infinite for a pot of unknown size."""
    line = foam_line_l(pot)
    return float("inf") if line is None else line


def rim_of(pot: Pot) -> float:
    """Return the litres up to the rim; infinite for a pot of unknown size."""
    rim = number_or_none(pot, "volume")
    return float("inf") if rim is None else rim


def least_water_l(recipe: Recipe) -> float:
    """Return the least water the pot may start with, so that grain can be steeped in it."""
    grain = sum(line_kg(line) for line in recipe.fermentables if is_grain(line.kind))
    return max(LEAST_WATER_L, THICKEST_STEEP_L_PER_KG * grain)


def as_written(recipe: Recipe) -> bool:
    """Tell whether the recipe fits its pot and its mark just as it is written."""
    typed = recipe.process.start_water
    if typed is None or typed.value <= 0.0:
        return False
    day = brew(recipe)
    return not _over_the_mark(recipe, day) and _too_full_l(recipe, day) <= 0.0


def own_water_l(recipe: Recipe) -> float:
    """Return the water that the recipe starts with, or as much as may be where it says nothing."""
    typed = recipe.process.start_water
    return typed.value if typed is not None and typed.value > 0.0 else _MOST_WATER_L


def filled(
    recipe: Recipe, original: Original, most_l: float, *, hold_bitterness: bool = True
) -> Recipe | None:
    """Return the recipe with as much water to start, up to `most_l`, as its pot takes.

    The pot keeps its room for foam and nothing runs over the fermenter's mark. With
    `hold_bitterness` it does not rise above the original's: a weaker boil draws more from the hops.
    None where not even the least water fits or the boil is a syrup.
    """
    low = _steps_up(least_water_l(recipe))
    high = int(min(most_l, 1.2 * rim_of(recipe.pot)) / WATER_STEP_L + 1e-9)
    found = last_that_passes(lambda n: _foam_excess(_at(recipe, n)), low, high)
    while found is not None and found >= low:
        day = brew(_at(recipe, found))
        excess_l = _too_full_l(recipe, day)
        if excess_l <= 0.0 and not _over_the_mark(recipe, day):
            break
        found -= max(int(max(excess_l, 0.0) / (_STEEPEST * WATER_STEP_L)), 1)
        if _over_the_mark(recipe, day):
            found = last_that_passes(lambda n: _mark_excess(_at(recipe, n)), low, found)
    if found is None or found < low:
        return None
    chosen = _at(recipe, found)
    if hold_bitterness and float(day.beer.bitterness_ibu) > original.most_ibu:
        most_ibu = original.most_ibu
        held = last_that_passes(
            lambda n: forecast(_at(recipe, n), "bitterness_ibu") - most_ibu, low, found
        )
        chosen = _at(recipe, low if held is None else held)
        day = quick_day(chosen)
    return None if is_syrup(day, original) else chosen


def _at(recipe: Recipe, steps: int) -> Recipe:
    return with_water(recipe, round(steps * WATER_STEP_L, 3))


def _steps_up(value_l: float) -> int:
    return int(-(-value_l // WATER_STEP_L))


def _foam_excess(recipe: Recipe) -> float:
    return fullest_boiling_l(recipe) - foam_limit(recipe.pot)


def _mark_excess(recipe: Recipe) -> float:
    mark = number(recipe.process, "top_up_to")
    return float(quick_day(recipe).fermenter.batch_l) - mark - _MARK_SLACK_L


def _over_the_mark(recipe: Recipe, day: Day) -> bool:
    mark = number_or_none(recipe.process, "top_up_to")
    return mark is not None and float(day.fermenter.batch_l) > mark + _MARK_SLACK_L


def _too_full_l(recipe: Recipe, day: Day) -> float:
    """Return by how much the pot is too full at its worst.

    That is over its rim, over its foam line as it boils, or too full to be stirred after it.
    """
    rim = rim_of(recipe.pot)
    stirred = [each.pot_volume_l for each in day.moments if each.stage in _STIRRED]
    return max(
        float(day.pot.fullest_l) - rim,
        fullest_at_the_boil_l(recipe, day) - foam_limit(recipe.pot),
        max(stirred, default=0.0) - (1.0 - STIRRING_ROOM) * rim,
    )


def fullest_at_the_boil_l(recipe: Recipe, day: Day) -> float:
    """Return the most that the pot holds while it boils or comes to the boil, litres hot.

    It foams most as it comes to the boil, whether or not something goes in just then.
    """
    coil_l = number(recipe.pot, "coil") if recipe.process.cooling == CoolingWay.COIL else 0.0
    hot_c = float(day.pot.boiling_c) - NEARLY_BOILING_C
    coming = [
        each.pot_volume_l + coil_l
        for each in day.moments
        if each.stage == "heat to boil" and each.temperature_c >= hot_c
    ]
    return max([float(day.pot.fullest_boiling_l), *coming])


def is_syrup(day: Day, original: Original) -> bool:
    """Tell whether the boil ends too strong: above a syrup's limit and above the original's own."""
    strongest = max(STRONGEST_BOIL_SG, float(original.day.pot.boil_gravity_end) + 0.001)
    return float(day.pot.boil_gravity_end) > strongest


def smallest_pot_l(recipe: Recipe) -> int | None:
    """Return the smallest pot in whole litres that boils the recipe just as it is written."""
    day = brew(recipe)
    boiling, fullest = fullest_at_the_boil_l(recipe, day), float(day.pot.fullest_l)

    def too_full_l(pot_l: int) -> float:
        limit = foam_limit_l(float(pot_l), number(recipe.pot, "foam_room"))
        return max(boiling - limit, fullest - pot_l)

    return first_that_passes(too_full_l, 1, int(_MOST_WATER_L) - 1)
