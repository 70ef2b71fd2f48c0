"""The recipe with what the brewer decided as it was read: what he did replaces what was planned.

Water poured in, the mark that is topped up to, a weight, the packet in hand, how hot he steeped and
how far he cooled are decided by the brewer. The plan tells nothing of what he did, so a reading
stands in its place, with its own error. What nature decides, such as what boils away, is forecast,
and a reading of it is combined with the forecast (`conditioning`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from designer.brewday.measured.reading_errors import error_of
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.vessel_doubts import marked_litres
from designer.recipe.choices import is_grain
from designer.recipe.document import Process, Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.wort.steeping import MALT_SPECIFIC_HEAT
from designer.wort.water import water_density

DECIDED = (
    Measured.WATER_IN,
    Measured.STRIKE,
    Measured.STEEP,
    Measured.COOLED,
    Measured.TOPPED_UP,
    Measured.ALPHA,
    Measured.WEIGHT,
)
"""What the brewer decides; the rest is nature's."""


def as_read(recipe: Recipe, readings: Sequence[Reading]) -> Recipe:
    """Return the recipe with the figures that were read of what the brewer decided."""
    read = [each for each in readings if each.what in DECIDED]
    for each in read:
        if each.what in (Measured.ALPHA, Measured.WEIGHT):
            recipe = _of_line(recipe, each, read)
    process = recipe.process
    for each in read:
        process = _processed(recipe, process, each, read)
    return recipe if process is recipe.process else replace(recipe, process=process)


def _processed(
    recipe: Recipe, process: Process, reading: Reading, read: Sequence[Reading]
) -> Process:
    if reading.what is Measured.WATER_IN:
        return replace(process, start_water=_volume(recipe, reading, process.start_water))
    if reading.what is Measured.TOPPED_UP and process.top_up_to is not None:
        told = _volume(recipe, reading, process.top_up_to)
        if reading.by is not By.MARK:
            told = replace(told, value=marked_litres(recipe.fermenter, told.value))
        return replace(process, top_up_to=told)
    if reading.what is Measured.COOLED:
        return replace(process, cool_to=typed(Kind.TEMPERATURE, reading.value))
    if reading.what is Measured.STEEP:
        return replace(process, steep_temperature=typed(Kind.TEMPERATURE, reading.value))
    steep_is_read = any(each.what is Measured.STEEP for each in read)
    if reading.what is Measured.STRIKE and not steep_is_read:
        steeped = typed(Kind.TEMPERATURE, _steeped_c(recipe, process, reading.value))
        return replace(process, steep_temperature=steeped)
    return process


def _volume(recipe: Recipe, reading: Reading, planned: Quantity | None) -> Quantity:
    """Return the litres as read: off as far as the measure is, or as was typed of the same one."""
    told = typed(Kind.VOLUME, reading.value)
    if reading.by is By.MARK and reading.half_width is None:
        return told if planned is None else replace(told, spread=planned.spread)
    return replace(told, spread=error_of(recipe, reading).whole)


def _steeped_c(recipe: Recipe, process: Process, strike_c: float) -> float:
    """Return how warm the steep is with the grain of the kitchen in water so hot."""
    grain_kg = sum(
        line.amount.value
        for line in recipe.fermentables
        if is_grain(line.kind) and line.amount is not None
    )
    water_l, tap_c = (
        number_or_none(process, "start_water") or 0.0,
        number(process, "tap_temperature"),
    )
    water_kg = water_l * float(water_density(tap_c)) / 1000.0
    ratio = MALT_SPECIFIC_HEAT * grain_kg / max(water_kg, 1e-9)
    return (strike_c + ratio * number(process, "room_temperature")) / (1.0 + ratio)


def _of_line(recipe: Recipe, reading: Reading, read: Sequence[Reading]) -> Recipe:
    lists = "hops" if reading.what is Measured.ALPHA else reading.lines
    lines: tuple[Any, ...] = getattr(recipe, lists, ())
    line = next((each for each in lines if each.line_id == reading.line_id), None)
    if line is None:
        return recipe
    if reading.what is Measured.WEIGHT:
        return _with(recipe, lists, [line], "amount", _weighed(line.amount, reading))
    told = replace(typed(Kind.FRACTION, reading.value), spread=reading.half_width)
    others = {each.line_id for each in read if each.what is Measured.ALPHA}
    # What is of the same name and was taken to be alike comes out of the same packet.
    same = [
        each
        for each in lines
        if each is line
        or ((each.name, each.alpha) == (line.name, line.alpha) and each.line_id not in others)
    ]
    return _with(recipe, lists, same, "alpha", told)


def _weighed(planned: Quantity | None, reading: Reading) -> Quantity:
    if planned is not None and planned.unit:
        return replace(planned, value=reading.value, text=f"{reading.value:g} {planned.unit}")
    spread = reading.half_width
    if spread is None and planned is not None:
        spread = planned.spread
    return replace(typed(Kind.MASS, reading.value), spread=spread)


def _with(recipe: Recipe, lists: str, lines: Sequence[Any], name: str, told: Quantity) -> Recipe:
    changed = tuple(
        replace(each, **{name: told}) if any(each is line for line in lines) else each
        for each in getattr(recipe, lists)
    )
    return replace(recipe, **{lists: changed})  # type: ignore[arg-type]
