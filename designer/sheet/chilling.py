"""From flame-out to wort that may be moved: stands, and the cooling of the pot.

What is too heavy: `lifting`.
"""

from __future__ import annotations

from designer.brewday.cooling import to_put_round, water_until_c
from designer.brewday.measured.readings import Measured
from designer.brewday.time_line import Span
from designer.recipe.choices import CoolingWay
from designer.recipe.fields import number
from designer.sheet.blanks import Countdown
from designer.sheet.blocks import Reading, Step, Words
from designer.sheet.brewing import all_of, care, rinsing, step, why
from designer.sheet.doings import in_pot, lines_of_key, temperature_blank
from designer.sheet.language import message
from designer.sheet.lifting import bathing
from designer.sheet.plan import GoingIn, Plan

_COOL_WAYS: dict[str, str] = {
    CoolingWay.ICE_BATH: message(
        "Stand the pot in cold water, lid on. Stir wort and bath, change the water. At about "
        "{switch} put *{ice}* of ice round it, until it is at *{temperature}*, about {time} in all."
    ),
    CoolingWay.COLD_WATER_BATH: message(
        "Stand the pot in cold water, lid on. Stir wort and bath, change the water, until it "
        "is at *{temperature}*, about {time}."
    ),
    CoolingWay.COIL: message(
        "Run cold water through the coil. Stir until it is at *{temperature}*, about {time}."
    ),
    CoolingWay.STANDING_IN_AIR: message(
        "Let the pot stand with its lid on, away from children and draughts, until it is at "
        "*{temperature}*, about {time}."
    ),
}
_COOL_CARES: dict[str, str] = {
    CoolingWay.ICE_BATH: message("Hot pot: dry cloths. Wipe up spilt water and ice, do not slip."),
    CoolingWay.COLD_WATER_BATH: message("Hot pot: dry cloths. Wipe up spilt water, do not slip."),
    CoolingWay.COIL: message(
        "The water leaves the coil near boiling: fix the hose in the sink, hands off."
    ),
    CoolingWay.STANDING_IN_AIR: message("It stays hot enough to scald for hours."),
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
        if plan.recipe.process.cooling == CoolingWay.STANDING_IN_AIR:
            cool_down = plan.words(
                "Let it cool to *{temperature}*, lid on; a cold bath is quicker.",
                temperature=degrees,
            )
        else:
            cool_down = plan.words(
                "Cool it to *{temperature}* as you will later, then lid on.", temperature=degrees
            )
        goes_in = [portion for group in groups for portion in group.portions]
        cooling_down = in_pot(
            plan,
            "cool",
            plan.say("Cool to {temperature}", temperature=degrees),
            key=f"cool for {lines_of_key(goes_in)}",
            amount=degrees,
            name=plan.say("Cool the wort"),
        )
        steps.append(step(plan, cool.start_min, cool_down, doing=cooling_down))
    opening = plan.words(
        "Hold at *{temperature}* for *{time}*, lid on.",
        temperature=degrees,
        time=f"{length:.0f} min",
    )
    opening = (*opening, " ")
    for group in groups:
        reason = why(plan.say("Off the boil, hops keep more of their aroma."))
        left = f"{max(stand.end_min - group.time_min, 0.0):.0f} min"
        stirred = plan.words("Stir in {what}.", what=all_of(plan, group))
        do: Words = (*opening, *stirred, *rinsing(plan, group))
        starts = Countdown("stand", length, plan.boil_number) if opening else None
        kind = "stand" if opening else "addition"
        steps.append(
            step(
                plan,
                group.time_min,
                do,
                *((reason,) if opening else ()),
                left=plan.say("{time} stand", time=left),
                group=group,
                doing=in_pot(plan, kind, group=group, starts=starts),
            )
        )
        opening = ()
    return steps


def _cool(plan: Plan, span: Span) -> Step:
    way, figures = plan.recipe.process.cooling, plan.figures
    goal = figures.temperature(float(plan.day.fermenter.cool_to_c))
    took = figures.minutes(span.end_min - span.start_min)
    ice_kg = float(plan.day.fermenter.bath_ice_kg)
    switch = water_until_c(number(plan.recipe.process, "tap_temperature"))
    water_does = way == CoolingWay.ICE_BATH and ice_kg <= 0.0
    do = plan.words(
        _COOL_WAYS[CoolingWay.COLD_WATER_BATH if water_does else way],
        temperature=goal,
        time=took,
        ice=figures.mass(to_put_round(ice_kg)),
        switch=figures.temperature(float(switch)),
    )
    cool_to_c = float(plan.day.fermenter.cool_to_c)
    blank = temperature_blank(plan, Measured.COOLED, plan.say("Cooled to"), cool_to_c)
    reading = Reading(plan.say("Wort in the pot"), blank.forecast)
    doing = in_pot(
        plan,
        "cool",
        plan.say("Cool to {temperature}", temperature=goal),
        amount=goal,
        name=plan.say("Cool the wort"),
        blanks=(blank,),
    )
    reason = why(plan.say("From now on: sanitised things only."))
    danger = [care(plan.say(_COOL_CARES[way]))]
    if way in (CoolingWay.ICE_BATH, CoolingWay.COLD_WATER_BATH):
        danger += bathing(plan)
    return step(plan, span.start_min, do, *danger, reason, readings=(reading,), doing=doing)
