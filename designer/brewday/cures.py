"""Edits that cure a finding, found by running the day again."""

from __future__ import annotations

from math import ceil, floor

from designer.brewday.day import fullest_boiling_l, mixed_c
from designer.brewday.results import Day
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangePart
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.wort.chilling import ice_enthalpy_kj
from designer.wort.density import plato_from_gravity, wort_density
from designer.wort.heat import enthalpy_kj
from designer.wort.water import WATER_KG_PER_L

_TRIES = 3


def set_volume(field: str, litres: float, text: Message) -> ChangePart:
    """Return the edit that sets a volume of the process; it is put into the text."""
    volume = typed(Kind.VOLUME, round(litres, 1))
    text = text._replace(figures=((Kind.VOLUME, volume),))
    return ChangePart("process", field, volume, text)


def steep_at(temp_c: float) -> ChangePart:
    """Return the edit that sets the temperature of the steep."""
    temp = typed(Kind.TEMPERATURE, temp_c, ".0f")
    text = say("steep-at", "Steep at {0}", (Kind.TEMPERATURE, temp))
    return ChangePart("process", "steep_temperature", temp, text)


def rounded_down(value: float, step: float) -> float:
    """Return the multiple of `step` at or just below `value`."""
    return floor(value / step + 1e-9) * step


def rounded_up(value: float, step: float) -> float:
    """Return the multiple of `step` at or just above `value`."""
    return ceil(value / step - 1e-9) * step


def less_start_water(recipe: Recipe, day: Day, surplus_l: float) -> ChangePart | None:
    """Return the edit that starts with so much less water that `surplus_l` goes from the pot.

    None where no start with at least a litre would do.
    """
    limit = float(day.pot.fullest_boiling_l) - surplus_l
    typed = recipe.process.start_water
    if typed is None:
        return None
    litres = typed.value
    for _ in range(_TRIES):
        litres = rounded_down(litres - max(surplus_l, 0.0), 0.1)
        if litres < 1.0:
            return None
        edit = set_volume("start_water", litres, say("start-with", "Start with {0}"))
        surplus_l = fullest_boiling_l(edit.apply(recipe), day.began) - limit
        if surplus_l <= 0.0:
            return edit
    return None


def frozen_water_for(recipe: Recipe, day: Day, pitch_c: float) -> ChangePart | None:
    """Return the edit that freezes as much of the top-up as lands the mix at `pitch_c`.

    Each kilogram frozen in place of poured takes the same heat out of the mix. None where not even
    all of the top-up, frozen, or none of it would land within a degree.
    """
    mixed, frozen = float(day.fermenter.mixed_c), float(day.fermenter.frozen_kg)
    if not day.fermenter.frozen_melted:  # what has not melted hides how much too cold it is
        mixed, frozen = mixed_c(_frozen(0.0).apply(recipe), day.began), 0.0
    plato = float(plato_from_gravity(float(day.beer.original_gravity)))
    mass_kg = float(day.fermenter.batch_l) * float(wort_density(plato / 100.0, 20.0)) / 1000.0
    extract_kg = mass_kg * plato / 100.0
    water_kg = mass_kg - extract_kg
    too_much_kj = float(enthalpy_kj(extract_kg, water_kg, mixed)) - float(
        enthalpy_kj(extract_kg, water_kg, pitch_c)
    )
    poured_kj = float(enthalpy_kj(0.0, 1.0, number(recipe.process, "tap_temperature")))
    frozen_kj = float(ice_enthalpy_kj(1.0, number(recipe.process, "frozen_temperature")))
    wanted = frozen + too_much_kj / (poured_kj - frozen_kj)
    most = float(day.fermenter.top_up_l - day.fermenter.hot_l) * WATER_KG_PER_L
    edit = _frozen(round(min(max(wanted, 0.0), most), 1))
    landed = mixed_c(edit.apply(recipe), day.began)
    return edit if abs(landed - pitch_c) < 1.5 else None


def _frozen(mass_kg: float) -> ChangePart:
    """Return the edit that freezes so much of the top-up water."""
    mass = typed(Kind.MASS, round(mass_kg, 1), unit="kg")
    text = (
        say("freeze", "Freeze {0} of it", (Kind.MASS, mass))
        if mass_kg > 0.0
        else say("freeze-none", "Freeze none of it")
    )
    return ChangePart("process", "frozen_top_up", mass, text)
