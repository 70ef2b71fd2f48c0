"""The stages of the day in the pot, in order: water, steep, boil, stand, cool.

Each takes the run and changes it. Times follow from heat: the stove's power less the pot's losses.
The boil keeps the pot at its boiling point and takes off what the brewer measured, or guessed, as
far as the stove can; cooling follows Newton's law. No stage has a time step: where something
changes within a stage its closed form is used, or Gauss points of the integral. `Run.parts` cuts
every stretch anyway, so that it can be shown that finer steps change nothing.

Left out: the metal of the pot, evaporation below the boil and while cooling with the lid on, the
heat of dissolving.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from designer.brewday.cooling import Leg
from designer.brewday.extract_inputs import ExtractIn
from designer.brewday.hop_inputs import HopIn
from designer.brewday.isomerisation import Passing, State
from designer.brewday.pot import Contents
from designer.brewday.results import Steeped
from designer.brewday.run import NEVER_MIN, Run
from designer.translation import message
from designer.wort.bitterness import TINSETH_RATE, bigness
from designer.wort.chilling import bath_ice_kg, newton_temperature, newton_time
from designer.wort.extract import gravity
from designer.wort.heat import (
    WATER_SPECIFIC_HEAT,
    evaporation_kg_h,
    heat_of_vaporisation,
    heating_time_min,
    temperature_after_heating,
)
from designer.wort.isomerisation_rate import (
    STOP_C,
    equivalent_minutes_cooling,
    equivalent_minutes_straight,
    relative_rate,
)
from designer.wort.numeric import (
    Numeric,
    Points,
    any_positive,
    choose,
    exp,
    largest,
    smallest,
    weighted_mean,
)
from designer.wort.steeping import MALT_SPECIFIC_HEAT, strike_temperature
from designer.wort.water import water_density

_Line = TypeVar("_Line", ExtractIn, HopIn)
HIGHEST_STRENGTH = 0.80
"""A pot boils down to 80 °P at the most; long before that it burns."""
_LEAST_WATER = (1.0 - HIGHEST_STRENGTH) / HIGHEST_STRENGTH
"""Kilograms of water that stay with one of extract."""
COOLING_PARTS = (0.1, 0.2, 0.35, 0.5, 0.7, 1.0)
"""Shares of the cooling time at which the time line notes the curve."""
NEARLY = 0.98
"""Share of the way to its equilibrium to which a weak stove is waited for."""
STILL_MIN = 1.0
"""So long after the burner is off the wort bubbles no more, and extract does not foam up."""
KEPT_HOT_C, KEPT_HOT_MIN = 75.0, 10.0
"""Hot enough, for long enough, to kill what spoils beer in extract: common practice, no source."""
LONGEST_STRETCH_MIN = 70.0
"""A longer boil is reckoned in stretches of an hour."""
_GAUSS = (
    (3.0, ((0.5, 1.0),)),
    (25.0, ((0.2113248654051871, 0.5), (0.7886751345948129, 0.5))),
    (
        LONGEST_STRETCH_MIN,
        ((0.1127016653792583, 5 / 18), (0.5, 4 / 9), (0.8872983346207417, 5 / 18)),
    ),
)
"""Gauss points and weights by the longest stretch of boil, minutes, that they serve."""


def boiling_c(run: Run) -> Numeric:
    """Return the temperature in °C at which the pot's wort boils."""
    return run.water_boils_c + run.pot.boils_higher_k


def heat_to(run: Run, target_c: Numeric, stage: str, label: str) -> None:
    """Heat the pot to `target_c`, or as near as the stove can."""
    start, from_c = run.now_min, run.pot.temp_c
    reach = run.inputs.room_c + NEARLY * run.inputs.net_power_w / largest(
        run.inputs.heat_loss_w_k, 1e-9
    )
    goal = largest(from_c, smallest(target_c, reach))
    took = _heat_through(run, from_c, goal)
    if run.draws_curves:
        for part in (0.25, 0.5, 0.75):
            run.now_min = start + part * took
            run.pot.warm_to(stage, "stove, less losses", from_c + part * (goal - from_c))
            run.note(stage)
    run.pot.warm_to(stage, "stove, less losses", goal)
    run.now_min = start + took
    run.note(stage)
    run.span(stage, label, start)


def _heat_through(run: Run, from_c: Numeric, to_c: Numeric) -> Numeric:
    """Return the minutes from one temperature to another.

    First wort hops gain nothing on the way: they count from the boil, see `HopIn`.
    """
    took: Numeric = 0.0
    for part in range(run.parts):
        low = from_c + (to_c - from_c) * (part / run.parts)
        high = from_c + (to_c - from_c) * ((part + 1) / run.parts)
        capacity = run.pot.heat_capacity_at((low + high) / 2.0)
        minutes = smallest(_minutes_to(run, capacity, low, high), NEVER_MIN)
        took = took + minutes
    return smallest(took, NEVER_MIN)


def _minutes_to(run: Run, capacity_kj_k: Numeric, from_c: Numeric, to_c: Numeric) -> Numeric:
    given = run.inputs
    return heating_time_min(
        capacity_kj_k, from_c, to_c, given.net_power_w, given.heat_loss_w_k, given.room_c
    )


def fill(run: Run) -> None:
    """Water into the pot."""
    run.pot.temp_c = run.inputs.tap_c
    run.pot.pour_in("fill", "water", 0.0, run.inputs.water_kg, run.inputs.tap_c)
    run.look("fill")
    run.note("fill")


def steep(run: Run, grain: Sequence[ExtractIn]) -> Steeped:
    """Heat, put the grain in, hold, lift it out."""
    given = run.inputs
    grain_kg: Numeric = sum((line.grain_kg for line in grain), 0.0)
    strike = strike_temperature(given.steep_c, grain_kg, run.pot.water_kg, given.room_c)
    heat_to(run, smallest(strike, boiling_c(run)), "heat water", message("Heat the water"))
    strike_c = run.pot.temp_c
    run.look("strike")
    start = run.now_min
    heat = MALT_SPECIFIC_HEAT * WATER_SPECIFIC_HEAT * grain_kg * given.room_c
    run.pot.book("steep", "grain", grain_kg=grain_kg, heat_kj=heat)
    for line in grain:
        run.noted("fermentables", line, "steep", None)
    run.note("steep")
    steeped_c = run.pot.temp_c
    run.look("steep")
    _draw_extract(run, grain)
    run.now_min = start + given.steep_min
    run.note("steep")
    run.span("steep", message("Steep {minutes} min"), start, given.steep_min)
    return Steeped(strike_c, steeped_c, _lift(run, grain_kg))


def _draw_extract(run: Run, grain: Sequence[ExtractIn]) -> None:
    """Extract passes from grain to wort at the temperature of the steep; the stove holds that.

    Dry grain and extract carry nearly the same heat for a kilogram, so the stove makes up for the
    small difference as it does for the pot's losses.
    """
    held_c = run.pot.temp_c
    extract: Numeric = sum((line.extract_kg for line in grain), 0.0)
    run.pot.book("steep", "extract from the grain", extract_kg=extract, grain_kg=-extract)
    run.pot.warm_to("steep", "stove holds the temperature", held_c)
    for line in grain:
        run.pot.colour_units = run.pot.colour_units + line.colour_units
        run.clock.add_iso(line.label_mg)


def _lift(run: Run, dry_grain_kg: Numeric) -> Numeric:
    """Lift the bag out with the water it holds; return litres held.

    The yields are those delivered to the pot, so what is held counts as water.
    """
    start = run.now_min
    wanted = dry_grain_kg * run.inputs.grain_absorption * water_density(20.0) / 1000.0
    held_kg = smallest(wanted, 0.9 * run.pot.water_kg)
    left_c = run.pot.temp_c
    heat = WATER_SPECIFIC_HEAT * (held_kg + MALT_SPECIFIC_HEAT * run.pot.grain_kg) * left_c
    run.pot.book(
        "lift",
        "grain and what it holds",
        water_kg=-held_kg,
        grain_kg=-run.pot.grain_kg,
        heat_kj=-heat,
    )
    run.now_min = run.now_min + choose(dry_grain_kg > 0.0, 5.0, 0.0)
    run.note("lift")
    run.span("lift", message("Lift the grain out"), start)
    return held_kg * 1000.0 / water_density(20.0)


def bring_to_boil(run: Run, at_start: Sequence[ExtractIn]) -> None:
    """Heat to the boil; burner off, stir in the extract of the start; heat to the boil again."""
    heat_to(run, boiling_c(run), "heat to boil", message("Heat to the boil"))
    if at_start:
        start = run.now_min
        for line in at_start:
            run.put_in_extract(line, "extract in", run.inputs.boil_min)
        run.now_min = run.now_min + 3.0
        run.note("extract in", boiling=True)
        run.span("extract in", message("Burner off, extract in"), start)
        heat_to(run, boiling_c(run), "heat to boil", message("Back to the boil"))
    # Half a degree short of the boil is a boil that the thermometer cannot tell from one.
    run.reached_boil = not any_positive(boiling_c(run) - 0.5 - run.pot.temp_c)


def boil(run: Run, extracts: Sequence[ExtractIn], hops: Sequence[HopIn]) -> None:
    """Boil from one addition to the next until the time is up."""
    start, total = run.now_min, run.inputs.boil_min
    extracts_at, hops_at = _by_minutes(extracts, total), _by_minutes(hops, total)
    times = extracts_at.keys() | hops_at.keys()
    left = total
    run.look("boil")
    if total not in times:
        run.note("boil", boiling=True)  # it foams most as it comes to the boil
    for at in sorted(times | {0.0} | run.looks_in_at, reverse=True):
        for _ in range(run.parts):
            _boil_stretch(run, (left - at) / run.parts)
        left = at
        run.look("boiling", at)
        for line in extracts_at.get(at, ()):
            run.put_in_extract(line, "boil", at)
        for hop in hops_at.get(at, ()):
            run.put_in_hops(hop, "boil", at)
        run.note("boil", boiling=True)
    run.span("boil", message("Boil {minutes} min"), start, total)


def _by_minutes(lines: Sequence[_Line], longest: float) -> dict[float, list[_Line]]:
    """Return lines by the minutes that they boil, which is no longer than the boil."""
    found: dict[float, list[_Line]] = {}
    for line in lines:
        found.setdefault(min(line.when.minutes, longest), []).append(line)
    return found


def _boil_stretch(run: Run, minutes: float) -> None:
    """Boil for `minutes`: first back to the boil if something cold went in, then taking water off.

    The count of the boil goes on meanwhile, as the kitchen timer does.
    """
    if minutes <= 0.0:
        return
    if minutes > LONGEST_STRETCH_MIN:
        _boil_stretch(run, 60.0)
        _boil_stretch(run, minutes - 60.0)
        return
    start = run.now_min
    warming = _back_to_the_boil(run, minutes)
    if run.watching and warming > 0.0:
        run.now_min = start + warming
        run.note("boil", boiling=True)
    _boil_off(run, minutes - warming, minutes)
    run.now_min = start + minutes


def _back_to_the_boil(run: Run, at_most_min: float) -> Numeric:
    """Heat what something cold has cooled; return the minutes it took."""
    goal, from_c = boiling_c(run), run.pot.temp_c
    if not any_positive(goal - from_c):
        return 0.0
    given = run.inputs
    capacity = run.pot.heat_capacity_at((from_c + goal) / 2.0)
    warming, warmed_to = _minutes_to(run, capacity, from_c, goal), goal
    if any_positive(warming - at_most_min):
        warming = smallest(warming, at_most_min)
        warmed_to = temperature_after_heating(
            capacity, from_c, warming, given.net_power_w, given.heat_loss_w_k, given.room_c
        )
        warmed_to = smallest(warmed_to, goal)
    if run.counts_hops:
        state = (given.gravity_effect, from_c, warmed_to, warming)
        run.clock.let_pass(_as_it_warms, run.pot, state)
    run.pot.warm_to("boil", "stove, less losses", warmed_to)
    return warming


def _as_it_warms(wort: Contents, state: State) -> tuple[Numeric, Numeric]:
    effect, from_c, to_c, minutes = state
    counted = equivalent_minutes_straight(from_c, to_c, minutes)
    return counted, bigness(wort.gravity_sg, effect)


def _boil_off(run: Run, minutes: Numeric, scheduled_min: float) -> None:
    """Take water off evenly while the hops boil in ever stronger wort."""
    pot = run.pot
    rise = boiling_c(run) - run.water_boils_c
    boiling = pot.temp_c > run.water_boils_c + rise - 0.5
    wanted = _evaporation_kg_min(run) * minutes
    most = largest(pot.water_kg - (_LEAST_WATER * pot.extract_kg + 1e-9), 0.0)
    gone = choose(boiling, smallest(wanted, most), 0.0)
    if run.counts_hops:
        state = (run.inputs.gravity_effect, pot.temp_c, rise, minutes, gone)
        run.clock.let_pass(_as_it_boils(scheduled_min), pot, state)
    temp_c = pot.temp_c
    steam_kj = gone * heat_of_vaporisation(temp_c)
    run.steam_kg = run.steam_kg + gone
    pot.book(
        "boil", "steam", water_kg=-gone, heat_kj=-(steam_kj + WATER_SPECIFIC_HEAT * gone * temp_c)
    )
    # Half a degree short of the boil counts as one, but no time makes it no warmer.
    goal_c = choose(minutes > 0.0, boiling_c(run), temp_c)
    pot.warm_to("boil", "stove, less losses", choose(boiling, goal_c, temp_c))


def _evaporation_kg_min(run: Run) -> Numeric:
    """Return what goes off in a minute: no more than the stove drives off, if its power is told."""
    given = run.inputs
    if not given.held_by_stove:
        return given.evaporation_kg_min
    lost_w = given.heat_loss_w_k * (run.pot.temp_c - given.room_c)
    most_kg_h = evaporation_kg_h(given.net_power_w - lost_w, run.pot.temp_c)
    return smallest(given.evaporation_kg_min, most_kg_h / 60.0)


def _as_it_boils(scheduled_min: float) -> Passing:
    """Return what tells of so long a stretch of boil."""
    return next(passing for upto, passing in _BOILING if scheduled_min <= upto)


def _boiling(points: Points) -> Passing:
    """Return what tells how many minutes of a boil count, and the mean bigness meanwhile.

    It changes as water boils off, and is weighted by what converts: Gauss points in time, their
    weights times e^(-ct) and normalised, so that a steady bigness is kept exactly; within three
    parts in a hundred thousand for a hard hour's boil.
    """

    def passing(wort: Contents, state: State) -> tuple[Numeric, Numeric]:
        effect, temp_c, rise_k, minutes, gone_kg = state
        counted = relative_rate(temp_c - rise_k) * minutes

        def converts(share: Numeric) -> Numeric:
            return exp(-TINSETH_RATE * counted * share)

        def left(share: Numeric) -> Numeric:
            return bigness(gravity(wort.extract_kg, wort.water_kg - gone_kg * share), effect)

        return counted, weighted_mean(left, converts, points, like=gone_kg * counted)

    return passing


_BOILING = tuple((upto, _boiling(points)) for upto, points in _GAUSS)


def flame_out(run: Run, extracts: Sequence[ExtractIn], hops: Sequence[HopIn]) -> None:
    """Burner off: hops go in at once, extract when it is still, and is kept hot for a while."""
    run.look("flame-out")
    for hop in hops:
        run.put_in_hops(hop, "flame-out")
    run.note("flame-out", boiling=True)
    if extracts:
        _stir_in(run, extracts)


def _stir_in(run: Run, extracts: Sequence[ExtractIn]) -> None:
    """Extract off the boil: it does not foam any more, and must be hot for what lives in it."""
    start = run.now_min
    _hold(run, STILL_MIN)
    for line in extracts:
        run.put_in_extract(line, "flame-out")
    run.note("flame-out", coil=True)
    run.span("off the boil", message("Extract in, off the boil"), start)
    if any_positive(KEPT_HOT_C - run.pot.temp_c):
        heat_to(run, KEPT_HOT_C, "heat again", message("Heat it again"))
    start = run.now_min
    _hold(run, KEPT_HOT_MIN)
    run.note("kept hot", coil=True)
    run.span("kept hot", message("Lid on, {minutes} min"), start, KEPT_HOT_MIN)


def stand(run: Run, hops: Sequence[HopIn]) -> None:
    """Cool to each stand's temperature in turn, warmest first, and hold it with the lid on."""
    groups = sorted({hop.when.temperature or 80.0 for hop in hops}, reverse=True)
    for temp in groups:
        at_temp = [hop for hop in hops if (hop.when.temperature or 80.0) == temp]
        cool_to(run, temp + run.inputs.stand_off_c, message("Cool to the stand"))
        start = run.now_min
        left = max(hop.when.minutes for hop in at_temp)
        stood = left
        for at in sorted({hop.when.minutes for hop in at_temp} | {0.0}, reverse=True):
            _hold(run, left - at)
            left = at
            for hop in at_temp:
                if hop.when.minutes == at:
                    run.put_in_hops(hop, "stand")
            run.note("stand")
        run.span("stand", message("Stand {minutes} min"), start, stood)


def _hold(run: Run, minutes: float) -> None:
    if minutes > 0.0:
        given = run.inputs
        state = (given.gravity_effect, given.below_the_boil, run.pot.temp_c, minutes)
        run.clock.let_pass(_as_it_stands, run.pot, state)
        run.now_min = run.now_min + minutes


def _as_it_stands(wort: Contents, state: State) -> tuple[Numeric, Numeric]:
    """Tell of wort with the heat off; hops work so many times `faster` then."""
    effect, faster, temp_c, minutes = state
    rate = choose(temp_c >= STOP_C, relative_rate(temp_c), 0.0)
    return rate * minutes * faster, bigness(wort.gravity_sg, effect)


def cool_to(run: Run, target_c: Numeric, label: str) -> Numeric:
    """Cool to `target_c`, or as near as the coolant brings it; return the minutes it took."""
    start, from_c = run.now_min, run.pot.temp_c
    legs = run.inputs.cooling.legs(run.pot, target_c)
    goal = smallest(from_c, largest(target_c, legs[-1].until_c))
    for leg in legs:
        _cool_leg(run, leg, goal)
    if not any_positive(from_c - goal):
        run.note("cool")
    run.span("cool", label, start)
    return run.now_min - start


def _cool_leg(run: Run, leg: Leg, goal_c: Numeric) -> None:
    """Cool as far as this coolant is to bring the pot; the ice that its bath takes is counted."""
    start, from_c, heat_kj = run.now_min, run.pot.temp_c, run.pot.heat_kj
    to_c = smallest(from_c, largest(goal_c, leg.until_c))
    if not any_positive(from_c - to_c):
        return
    took = newton_time(from_c, to_c, leg.coolant_c, leg.constant_per_min)
    evenly = tuple((part + 1) / run.parts for part in range(run.parts))
    for part in COOLING_PARTS if run.noting else evenly:
        at_c = newton_temperature(from_c, leg.coolant_c, leg.constant_per_min, part * took)
        _cool_part(run, leg, largest(at_c, to_c))
        run.now_min = start + part * took
        run.note("cool")
    run.pot.warm_to("cool", "coolant", to_c)
    run.now_min = start + took
    if leg.takes_ice:
        taken_kj = heat_kj - run.pot.heat_kj
        ice_kg = bath_ice_kg(taken_kj, leg.coolant_c, run.inputs.frozen_c)
        run.bath_ice_kg = run.bath_ice_kg + ice_kg


def _cool_part(run: Run, leg: Leg, to_c: Numeric) -> None:
    given, from_c = run.inputs, run.pot.temp_c
    state = (given.gravity_effect, given.below_the_boil, from_c, to_c, *leg[:2])
    run.clock.let_pass(_as_it_cools, run.pot, state)
    run.pot.warm_to("cool", "coolant", to_c)


def _as_it_cools(wort: Contents, state: State) -> tuple[Numeric, Numeric]:
    effect, faster, from_c, to_c, coolant_c, constant_per_min = state
    minutes = equivalent_minutes_cooling(from_c, to_c, coolant_c, constant_per_min)
    return minutes * faster, bigness(wort.gravity_sg, effect)
