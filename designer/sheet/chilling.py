"""From flame-out to pitched yeast: stand, cool, move, top up, mix, read, pitch.

Cooling below about 30 °C before wort meets glass, air only once it is cool, two people at a heavy
pot: common practice, no source.
"""

from __future__ import annotations

from designer.brewday.results import Span
from designer.recipe.fields import number, number_or_none
from designer.sheet.blocks import Aside, Reading, Step, Words, strong
from designer.sheet.brewing import care, otherwise, put_in, step, why
from designer.sheet.head import gravity_forecast
from designer.sheet.plan import GoingIn, Plan

_COOL_WAYS = {
    "ice bath": "Stand the pot in ice and water, lid on. Stir both, change the water",
    "cold water bath": "Stand the pot in cold water, lid on. Stir both, change the water",
    "coil": "Run cold water through the coil (in the pot for the last 10 min of the boil). Stir",
    "standing in air": "Let the pot stand with its lid on, away from children and draughts",
}
_COOL_CARES = {
    "ice bath": "Hot pot: dry cloths. Ice and water on the floor: wipe up, do not slip.",
    "cold water bath": "Hot pot: dry cloths. Water on the floor: wipe up, do not slip.",
    "coil": "The water leaves the coil near boiling: fix the hose in the sink, hands off.",
    "standing in air": "It stays hot enough to scald for hours.",
}


def cooling(plan: Plan) -> list[Step]:
    """Return stands and cooling in their order."""
    steps: list[Step] = []
    cools, waiting = plan.spans("cool"), plan.at("stand")
    for cool, stand in zip(cools, plan.spans("stand"), strict=False):
        ready = [group for group in waiting if group.time_min <= stand.end_min + 1e-6]
        waiting = waiting[len(ready) :]
        steps += _stand(plan, cool, stand, ready)
    return [*steps, _cool(plan, cools[-1])]


def _stand(plan: Plan, cool: Span, stand: Span, groups: list[GoingIn]) -> list[Step]:
    at = next(m.temperature_c for m in plan.day.moments if m.time_min >= stand.start_min - 1e-6)
    degrees, length = plan.figures.temperature(at), stand.end_min - stand.start_min
    steps = []
    if cool.end_min - cool.start_min > 0.5:
        cool_down: Words = ("Let it cool to ", strong(degrees), ", lid on; a cold bath is quicker.")
        steps.append(step(plan, cool.start_min, cool_down))
    opening: Words = (
        "Hold at ",
        strong(degrees),
        " for ",
        strong(f"{length:.0f} min"),
        ", lid on. ",
    )
    for group in groups:
        asides = (why("Off the boil, hops keep more of their aroma."),) if opening else ()
        left = f"{max(stand.end_min - group.time_min, 0.0):.0f} min stand"
        do: Words = (*opening, *put_in(group, "Stir in "))
        steps.append(step(plan, group.time_min, do, *asides, left=left, group=group))
        opening = ()
    return steps


def _cool(plan: Plan, span: Span) -> Step:
    way, figures = plan.recipe.process.cooling, plan.figures
    goal = figures.temperature(float(plan.day.cool_to_c))
    took = figures.minutes(span.end_min - span.start_min)
    do = (f"{_COOL_WAYS[way]} until it is at ", strong(goal), f", about {took}.")
    reading = Reading("Wort in the pot", goal)
    reason = why("From now on: sanitised things only.")
    return step(plan, span.start_min, do, care(_COOL_CARES[way]), reason, readings=(reading,))


def fermenter(plan: Plan) -> tuple[list[Step], list[Step]]:
    """Return the steps that fill the fermenter up to the reading, and those that pitch."""
    steps = [_move(plan)]
    for group in plan.at("fermenter"):
        do = put_in(group, "Stir ", " into the fermenter.")
        sanitary = why("It is not boiled: boil it with a little water first, or open it clean.")
        steps.append(step(plan, group.time_min, do, sanitary, group=group))
    top_up = _top_up(plan)
    return [*steps, *top_up, _mix(plan), _read(plan)], [_pitch(plan), _close(plan)]


def _move(plan: Plan) -> Step:
    day, figures = plan.day, plan.figures
    moved, left = float(day.from_pot_l), float(day.lost_to_trub_l)
    do: Words = ("Pour or siphon it through a strainer into the fermenter.",)
    if left > 0.0:
        do = (*do, " Leave ", strong(figures.volume(left)), " of sludge.")
    weight = figures.rough_mass(1.05 * float(day.boil_end_l))
    asides = [care(f"Some {weight} of wort: two people, or a jug.")]
    asides += _vessel_cares(plan)
    reading = Reading("Into the fermenter", figures.volume(moved))
    span = plan.spans("move")[0]
    return step(plan, span.start_min, do, *asides, readings=(reading,))


def _vessel_cares(plan: Plan) -> list[Aside]:
    if plan.recipe.fermenter.kind != "glass carboy":
        return []
    warm = plan.figures.temperature(30.0)
    return [
        care(f"Glass cracks above {warm} or on a cold floor: cool further, carry it in a crate.")
    ]


def _top_up(plan: Plan) -> list[Step]:
    day, figures = plan.day, plan.figures
    frozen, poured = float(day.frozen_kg), float(day.liquid_top_up_l)
    if frozen <= 0.0 and poured <= 0.05:
        return []
    mark = figures.volume(float(day.batch_l))
    ice: Words = (
        ("Add ", strong(figures.mass(frozen)), " of frozen water. ") if frozen > 0.0 else ()
    )
    water: Words = ()
    if poured > 0.05:
        amount = figures.volume(poured)
        water = ("Top up with cold water to ", strong(mark), f", about {amount}.")
    asides = [otherwise("Trust the mark, not the jug.")]
    if frozen > 0.0:
        asides = [why("Ice takes the last heat."), *asides]
    if not day.frozen_melted:
        asides.append(otherwise("Ice left over is normal here: wait until it is gone."))
    start = plan.spans("top up")[0].start_min
    reading = Reading("In the fermenter", mark)
    return [step(plan, start, (*ice, *water), *asides, readings=(reading,))]


def _mix(plan: Plan) -> Step:
    start = plan.spans("top up")[0]
    minutes = start.start_min + 0.5 * (start.end_min - start.start_min)
    do = ("Stir hard for ", strong("2 full minutes"), ", let it splash.")
    reason = why("Water floats on wort: unmixed, no reading is true. Yeast wants air.")
    return step(plan, minutes, do, reason)


def _read(plan: Plan) -> Step:
    forecast = plan.outlook.forecasts["original_gravity"]
    readings = (
        Reading("OG", gravity_forecast(forecast), also="at"),
        Reading("Mixed wort", plan.figures.temperature(float(plan.day.mixed_c))),
    )
    span = plan.spans("top up")[0]
    minutes = span.start_min + 0.7 * (span.end_min - span.start_min)
    do = ("Fill the sample jar, read, correct by the table.",)
    wrong = otherwise("Far off? Stir, read again. Never pour a sample back.")
    return step(plan, minutes, do, wrong, readings=readings)


def _pitch(plan: Plan) -> Step:
    span = plan.spans("top up")[0]
    minutes = span.start_min + 0.9 * (span.end_min - span.start_min)
    low, high = plan.yeast_band_c
    figures, yeast = plan.figures, plan.yeast
    mixed, goal = float(plan.day.mixed_c), number(plan.recipe.process, "pitch_temperature")
    do: Words = ("At ", strong(figures.temperatures(low, high)), " add ", strong(yeast.amount),
                 f" {yeast.name}.")  # fmt: skip
    how = "Sprinkle it on" if plan.recipe.yeast.form == "dry" else "Shake it and pour it in"
    asides = [why(f"{how}, or as its packet says.")]
    if mixed < low:
        asides.append(otherwise(f"Too cool? Let it warm to {figures.temperature(goal)} first."))
    elif mixed > high:
        asides.append(otherwise("Too warm? Lid on and wait; the yeast keeps until then."))
    return Step(plan.clock(minutes), "", minutes, do, "", (yeast,), (), tuple(asides))


def _close(plan: Plan) -> Step:
    span = plan.spans("top up")[0]
    litres = number_or_none(plan.recipe.fermenter, "volume")
    do = ("Lid and airlock on. Carry it to a dark place.",)
    heavy = plan.figures.rough_mass(1.05 * float(plan.day.batch_l))
    asides = [care(f"{heavy}, slippery: two people.")]
    if litres is not None and float(plan.day.batch_l) > 0.85 * litres:
        asides.append(otherwise("Little room above: fit a hose into a jar instead of the airlock."))
    return step(plan, span.end_min, do, *asides)
