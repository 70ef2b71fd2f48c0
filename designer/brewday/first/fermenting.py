"""The yeast of a first recipe: how warm it is pitched, how much of it, how long it ferments."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from designer.brewday.beer import COOL_FERMENT_C
from designer.brewday.cures import frozen_water_for
from designer.brewday.results import Day
from designer.recipe.choices import YeastForm
from designer.recipe.document import Recipe, Yeast
from designer.recipe.fields import number_or_none
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.wort.pitching import LARGEST_PACKET_G, PACKET_G

USUAL_PITCH_C, UP_THE_RANGE, ABOVE_TAP_K = 19.0, 0.4, 2.0
COLD_DAYS, STRONG_SG, STRONG_DAYS, USUAL_DAYS = 28, 1.070, 21, 14
"""How long beer ferments that is cool, strong, or neither; common practice, no source."""
NEARLY_ENOUGH = 0.05
"""So little of a packet is not worth another."""
WARMER_K = 3.0
"""A mix that is so much warmer than it is to be pitched is cooled with ice."""


def pitching_c(yeast: Yeast, tap_c: float) -> float:
    """Return at how many °C to pitch: two fifths up the range that the yeast likes; judgement.

    It is no nearer to that of the tap than a cold bath cools the wort in good time, if the yeast
    bears that.
    """
    low, high = number_or_none(yeast, "lowest"), number_or_none(yeast, "highest")
    if low is None or high is None:
        return USUAL_PITCH_C
    wanted = low + UP_THE_RANGE * (high - low)
    return float(round(max(wanted, min(tap_c + ABOVE_TAP_K, high))))


def time_for(pitch_c: float, original_gravity: float) -> Quantity:
    """Return how long a beer ferments."""
    days = STRONG_DAYS if original_gravity > STRONG_SG else USUAL_DAYS
    if pitch_c < COOL_FERMENT_C:
        days = COLD_DAYS
    return replace(typed(Kind.TIME, days * 1440.0), text=f"{days} d")


def with_yeast(recipe: Recipe, day: Day) -> Recipe:
    """Return the recipe with as many whole packets as the wort wants."""
    wanted = float(day.beer.yeast_wanted_g) / LARGEST_PACKET_G
    count = max(ceil(wanted - NEARLY_ENOUGH), 1)
    if recipe.yeast.form == YeastForm.DRY:
        dose = typed(Kind.DOSE, count * PACKET_G, unit="g")
    else:
        dose = typed(Kind.DOSE, float(count), unit="packet" if count == 1 else "packets")
    return replace(recipe, yeast=replace(recipe.yeast, amount=dose))


def cooled(recipe: Recipe, day: Day, pitch_c: float) -> Recipe:
    """Return the recipe with some of its top-up frozen where it would be too warm for the yeast."""
    if float(day.fermenter.mixed_c) <= pitch_c + WARMER_K:
        return recipe
    edit = frozen_water_for(recipe, day, pitch_c)
    return recipe if edit is None else edit.apply(recipe)
