"""From the pot into the fermenter: how cold, how much, what stays behind, water and ice on top.

The wort that leaves the pot is mixed, so what stays behind takes extract, bitterness and colour in
proportion. Without a temperature to cool to, the pot is cooled so far that the mix with the top-up
lands at pitching temperature, but not poured hotter than is safe: see `hot_wort`.

Extract for the fermenter is dissolved there while the pot cools, in part of the top-up, just
boiled; where there is none, or the fermenter is of glass, it is stirred into the cool wort.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.hot_wort import HOT_WATER_KG_PER_KG, POURED_BOILING_C
from designer.brewday.inputs import Inputs
from designer.brewday.pot import Contents
from designer.brewday.results import Filled
from designer.brewday.run import Run
from designer.brewday.stages import cool_to
from designer.translation import message
from designer.wort.chilling import ice_enthalpy_kj, settled
from designer.wort.extract import water_for_volume
from designer.wort.heat import enthalpy_kj, temperature_for
from designer.wort.numeric import Numeric, any_positive, clamp, largest, smallest
from designer.wort.water import WATER_KG_PER_L

_TINY_L = 1e-9


@dataclass(frozen=True, slots=True)
class _Masses:
    """Kilograms that will meet in the fermenter."""

    extract_kg: Numeric
    water_kg: Numeric
    line_extract_kg: Numeric
    line_water_kg: Numeric
    cold_kg: Numeric
    hot_kg: Numeric
    frozen_kg: Numeric


def fill_fermenter(run: Run) -> Filled:
    """Cool, move, top up and mix."""
    given, pot = run.inputs, run.pot
    pot_l = pot.volume_l
    trub_l = smallest(given.left_in_pot_l, pot_l)
    held: Numeric = sum((hop.held_l for hop in run.plan.pot_hops), 0.0)
    hops_l = smallest(held, pot_l - trub_l)
    moved = clamp((pot_l - trub_l - hops_l) / largest(pot_l, _TINY_L), 0.0, 1.0)
    masses = _meeting(run, moved)
    hot = any_positive(masses.hot_kg)
    if hot:
        _dissolve(run, masses)
    cooling_min = cool_to(run, _cool_goal(run, masses), message("Cool"))
    cooled_c = pot.temp_c
    run.look("cooled")
    iso_mg = run.clock.bitterness_mg()
    pot_ibu = iso_mg / largest(pot_l, _TINY_L)
    _pour(run, masses, moved)
    if not hot:
        _dissolve(run, masses)
    wort = _topped_up(run, masses)
    mixed_c, melted = _mix(wort, masses, given)
    run.look("pitch")
    late_iso: Numeric = sum((line.label_mg for line in run.plan.fermenter), 0.0)
    late_colour: Numeric = sum((line.colour_units for line in run.plan.fermenter), 0.0)
    if run.noting:
        run.note("pitch", fermenter_l=float(wort.volume_l), temp_c=mixed_c)
    return Filled(
        cool_to_c=cooled_c,
        cooling_min=cooling_min,
        bath_ice_kg=run.bath_ice_kg,
        lost_to_trub_l=trub_l,
        lost_to_hops_l=hops_l,
        moved_fraction=moved,
        from_pot_l=pot_l * moved,
        top_up_l=(masses.cold_kg + masses.hot_kg + masses.frozen_kg) / WATER_KG_PER_L,
        frozen_kg=masses.frozen_kg,
        hot_l=masses.hot_kg / WATER_KG_PER_L,
        frozen_melted=melted,
        batch_l=wort.volume_l,
        mixed_c=mixed_c,
        pot_ibu=pot_ibu,
        iso_mg=iso_mg * moved + late_iso,
        colour_units=pot.colour_units * moved + late_colour,
    )


def _meeting(run: Run, moved: Numeric) -> _Masses:
    """The masses: the top-up fills what is missing to the mark, hot water first, then frozen."""
    given, pot = run.inputs, run.pot
    line_extract: Numeric = sum((line.extract_kg for line in run.plan.fermenter), 0.0)
    line_water: Numeric = sum((line.water_kg for line in run.plan.fermenter), 0.0)
    extract, water = pot.extract_kg * moved, pot.water_kg * moved
    if given.top_up_to_l is None:
        return _Masses(extract, water, line_extract, line_water, 0.0, 0.0, given.frozen_kg)
    whole = water_for_volume(extract + line_extract, given.top_up_to_l)
    missing = largest(whole - water - line_water, 0.0)
    wanted = HOT_WATER_KG_PER_KG * (line_extract + line_water) if given.takes_hot_water else 0.0
    hot = smallest(wanted, missing)
    frozen = smallest(given.frozen_kg, missing - hot)
    cold = missing - hot - frozen
    return _Masses(extract, water, line_extract, line_water, cold, hot, frozen)


def _cool_goal(run: Run, masses: _Masses) -> Numeric:
    """How cold the pot must be so that all together lands at pitching temperature, °C."""
    given = run.inputs
    if given.cool_to_c is not None:
        return given.cool_to_c
    extract = masses.extract_kg + masses.line_extract_kg
    water = masses.water_kg + masses.line_water_kg
    water = water + masses.cold_kg + masses.hot_kg + masses.frozen_kg
    others = (
        enthalpy_kj(masses.line_extract_kg, masses.line_water_kg, given.room_c)
        + enthalpy_kj(0.0, masses.cold_kg, given.tap_c)
        + enthalpy_kj(0.0, masses.hot_kg, POURED_BOILING_C)
        + ice_enthalpy_kj(masses.frozen_kg, given.frozen_c)
    )
    needed = enthalpy_kj(extract, water, given.pitch_c) - others
    wanted = temperature_for(needed, masses.extract_kg, masses.water_kg)
    return smallest(wanted, given.hottest_to_pour_c)


def _dissolve(run: Run, masses: _Masses) -> None:
    """Extract and the hot water for it into the fermenter."""
    for line in run.plan.fermenter:
        run.noted("fermentables", line, "fermenter", None)
        run.fermenter.pour_in("move", line.name, line.extract_kg, line.water_kg, run.inputs.room_c)
    if any_positive(masses.hot_kg):
        run.fermenter.pour_in("move", "hot water", 0.0, masses.hot_kg, POURED_BOILING_C)


def _pour(run: Run, masses: _Masses, moved: Numeric) -> None:
    """Move the wort; the fermenter's book shows what came from where."""
    pot, wort = run.pot, run.fermenter
    start, took = run.now_min, 10.0
    run.look("moving")
    wort.pour_in("move", "wort from the pot", masses.extract_kg, masses.water_kg, pot.temp_c)
    moved_l = wort.volume_l
    run.look("move")
    pot.book(
        "move",
        "wort to the fermenter",
        extract_kg=-masses.extract_kg,
        water_kg=-masses.water_kg,
        heat_kj=-enthalpy_kj(masses.extract_kg, masses.water_kg, pot.temp_c),
    )
    run.clock.pour_off(moved)
    run.now_min = start + took
    run.note("move", fermenter_l=float(moved_l) if run.noting else 0.0)
    run.span("move", message("Into the fermenter"), start)


def _topped_up(run: Run, masses: _Masses) -> Contents:
    """Pour cold water on top; the ice melts into it later."""
    start, wort = run.now_min, run.fermenter
    wort.pour_in("top up", "top-up water", 0.0, masses.cold_kg, run.inputs.tap_c)
    run.now_min = run.now_min + 10.0
    run.span("top up", message("Top up, mix, pitch"), start)
    return wort


def _mix(wort: Contents, masses: _Masses, given: Inputs) -> tuple[Numeric, bool]:
    """Melt the ice into the wort; the temperature reached, and whether all ice melted.

    Ice that stays counts as water already: it melts in the hours that follow.
    """
    heat = wort.heat_kj + ice_enthalpy_kj(masses.frozen_kg, given.frozen_c)
    temp_c, melted = settled(heat, wort.extract_kg, wort.water_kg, masses.frozen_kg)
    wort.book(
        "top up",
        "frozen top-up water",
        water_kg=masses.frozen_kg,
        heat_kj=ice_enthalpy_kj(masses.frozen_kg, given.frozen_c),
    )
    all_melted = not isinstance(melted, (float, int)) or melted >= masses.frozen_kg - 1e-9
    wort.temp_c = temp_c
    return temp_c, bool(all_melted)
