"""How much of the top-up to freeze, and how long in the bath, to land at pitching temperature.

The day cools the pot until the mix with the top-up lands where the yeast wants it, but pours no
hotter than `hottest_to_pour_c`. Frozen water lets it pour warmer, so it saves minutes in the bath,
up to that limit; more would only land too cold. What the bath alone cannot reach, because its
water is warmer than the goal, frozen water reaches too.
"""

from __future__ import annotations

from designer.brewday.fit.answer import Cooling, CoolingPlan
from designer.brewday.fit.changed_recipe import mass, quick_day, with_process
from designer.brewday.hot_wort import hottest_to_pour_c
from designer.brewday.results import Day
from designer.brewday.search import last_that_passes
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import Message, say, word
from designer.recipe.quantity import Kind
from designer.wort.water import WATER_KG_PER_L

FROZEN_STEP_KG = 0.1
LANDS_WITHIN_C = 1.0
_NEARLY_C = 0.05
WORTH_SAVING_MIN = 3.0
"""For fewer minutes nobody boils and freezes water beforehand; a judgement, no source."""


def cooling_plan(recipe: Recipe, most_frozen_kg: float | None = None) -> CoolingPlan:
    """Return the plan for the recipe: the least frozen water that saves all minutes it can.

    `most_frozen_kg` is what the freezer holds; None keeps what the recipe says. See `frozen_for`.
    """
    planned = recipe if most_frozen_kg is None else with_frozen(recipe, most_frozen_kg)
    with_ice = _cooling(planned, quick_day(planned))
    bare = with_process(recipe, frozen_top_up=mass(0.0))
    without = _cooling(bare, quick_day(bare)) if with_ice.frozen_kg > 0.0 else with_ice
    return CoolingPlan(with_ice, without, _sentence(planned, with_ice, without))


def with_frozen(recipe: Recipe, most_frozen_kg: float) -> Recipe:
    """Return the recipe with the frozen top-up that shortens the bath most, of what there is.

    The least that lets the pot be poured as hot as may be; none where none is needed for that. The
    mix never lands colder than the pitching temperature for it.
    """
    bare = with_process(recipe, frozen_top_up=mass(0.0))
    day = quick_day(bare)
    room = min(most_frozen_kg, float(day.fermenter.cold_top_up_l) * WATER_KG_PER_L)
    pitch = number(recipe.process, "pitch_temperature")
    hottest = hottest_to_pour_c(recipe.fermenter.kind)

    def too_much(steps: int) -> float:
        tried = quick_day(_frozen(bare, steps))
        below = float(tried.fermenter.cool_to_c) - hottest + _NEARLY_C
        if below < 0.0:
            return below
        # As hot as may be: each further step only lands the mix colder.
        return _NEARLY_C + 2.0 * max(pitch - float(tried.fermenter.mixed_c), 0.0)

    found = last_that_passes(too_much, 0, int(room / FROZEN_STEP_KG + 1e-9))
    if not found:
        return bare
    frozen = _frozen(bare, found)
    return frozen if _worth_it(day, quick_day(frozen), pitch) else bare


def _worth_it(bare: Day, frozen: Day, pitch_c: float) -> bool:
    saves = (
        float(bare.fermenter.cooling_min) - float(frozen.fermenter.cooling_min) >= WORTH_SAVING_MIN
    )
    return saves or abs(float(bare.fermenter.mixed_c) - pitch_c) > LANDS_WITHIN_C


def _frozen(recipe: Recipe, steps: int) -> Recipe:
    return with_process(recipe, frozen_top_up=mass(steps * FROZEN_STEP_KG))


def _cooling(recipe: Recipe, day: Day) -> Cooling:
    pitch, mixed = number(recipe.process, "pitch_temperature"), float(day.fermenter.mixed_c)
    return Cooling(
        frozen_kg=float(day.fermenter.frozen_kg),
        liquid_top_up_l=float(day.fermenter.liquid_top_up_l),
        cool_to_c=float(day.fermenter.cool_to_c),
        cooling_min=float(day.fermenter.cooling_min),
        mixed_c=mixed,
        lands=abs(mixed - pitch) <= LANDS_WITHIN_C,
    )


def _sentence(recipe: Recipe, planned: Cooling, without: Cooling) -> Message:
    minutes, pour = (Kind.TIME, planned.cooling_min), (Kind.TEMPERATURE, planned.cool_to_c)
    mixed = (Kind.TEMPERATURE, planned.mixed_c)
    cooling = word(recipe.process.cooling)
    if planned.frozen_kg <= 0.0:
        if planned.lands:
            return say(
                "cools",
                "{0} of cooling ({cooling}) to {1}, then tap water: the mixed wort will be at {2}.",
                minutes,
                pour,
                mixed,
                cooling=cooling,
            )
        return say(
            "cools-not-enough",
            "{0} of cooling ({cooling}) to {1}, then tap water: the mixed wort will be at {2}, "
            "not at the {3} to pitch at. Close the fermenter and wait before you pitch.",
            minutes,
            pour,
            mixed,
            (Kind.TEMPERATURE, number(recipe.process, "pitch_temperature")),
            cooling=cooling,
        )
    return say(
        "cools-with-ice",
        "{0} of cooling ({cooling}) to {1}, then {3} of boiled and frozen water and the rest from "
        "the tap: the mixed wort will be at {2}. With none frozen it takes {4} and ends at {5}.",
        minutes,
        pour,
        mixed,
        (Kind.MASS, planned.frozen_kg),
        (Kind.TIME, without.cooling_min),
        (Kind.TEMPERATURE, without.mixed_c),
        cooling=cooling,
    )
