"""From flame-out to pitched yeast: stand, cool, move, top up, mix, read, pitch.

Air only once the wort is cool: common practice, no source. What is too hot: `brewday.hot_wort`;
what is too heavy: `lifting`.
"""

from __future__ import annotations

from designer.brewday.cooling import to_put_round, water_until_c
from designer.brewday.hot_wort import (
    HOTTEST_INTO_GLASS_C,
    HOTTEST_TO_SPLASH_C,
    SCALDS_C,
    cracks_glass,
    hottest_to_pour_c,
    takes_hot_water,
    too_hot_to_splash,
)
from designer.brewday.instrument import trusted_within
from designer.brewday.time_line import Span
from designer.recipe.choices import CoolingWay, FermenterKind, YeastForm
from designer.recipe.fields import number, number_or_none
from designer.sheet.blocks import Aside, Reading, Step, Words
from designer.sheet.brewing import all_of, care, otherwise, rinsing, step, why
from designer.sheet.head import ORIGINAL, gravity_forecast
from designer.sheet.language import message
from designer.sheet.lifting import bathing, carrying, pouring, stays_where_it_is
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
        steps.append(step(plan, cool.start_min, cool_down))
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
        steps.append(
            step(
                plan,
                group.time_min,
                do,
                *((reason,) if opening else ()),
                left=plan.say("{time} stand", time=left),
                group=group,
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
    reading = Reading(plan.say("Wort in the pot"), goal)
    reason = why(plan.say("From now on: sanitised things only."))
    danger = [care(plan.say(_COOL_CARES[way]))]
    if way in (CoolingWay.ICE_BATH, CoolingWay.COLD_WATER_BATH):
        danger += bathing(plan)
    return step(plan, span.start_min, do, *danger, reason, readings=(reading,))


def fermenter(plan: Plan) -> tuple[list[Step], list[Step]]:
    """Return the steps that fill the fermenter up to the reading, and those that pitch."""
    moved_min = plan.spans("move")[0].start_min
    into = [(each.time_min, _into_fermenter(plan, each)) for each in plan.at("fermenter")]
    before = [step for minutes, step in into if minutes < moved_min]
    after = [step for minutes, step in into if minutes >= moved_min]
    steps = [*before, _move(plan), *after, *_top_up(plan), _mix(plan), _read(plan)]
    return steps, [_pitch(plan), _close(plan)]


def _into_fermenter(plan: Plan, group: GoingIn) -> Step:
    """Extract dissolved in the fermenter in water just boiled; what else goes in there, stirred."""
    hot_l, all_in = float(plan.day.fermenter.hot_l), all_of(plan, group)
    if group.fermentable and hot_l > 0.0:
        do = plan.words(
            "While it cools: {what} into the clean fermenter, *{hot}* of water just boiled on it. "
            "Stir until nothing lies on the bottom, lid on.",
            what=all_in,
            hot=plan.figures.volume(hot_l),
        )
        scalds = plan.say(
            "Only into plastic or steel that takes boiling water, never glass. It scalds: do not "
            "lift the vessel."
        )
        clean = why(plan.say("A clean tin is nearly sterile: wipe lid and opener, pour at once."))
        return step(plan, group.time_min, do, care(scalds), clean, group=group)
    do = plan.words("Stir {what} into the fermenter.", what=all_in)
    sanitary = plan.say("Not boiled yet: boil it in a little water first, or open it clean.")
    asides = [why(sanitary)]
    if group.fermentable and not takes_hot_water(plan.recipe.fermenter.kind):
        asides.insert(0, care(plan.say("Hot water cracks glass: let it cool to lukewarm first.")))
    return step(plan, group.time_min, do, *asides, group=group)


def _move(plan: Plan) -> Step:
    day, figures = plan.day, plan.figures
    moved, left = float(day.fermenter.from_pot_l), float(day.fermenter.lost_to_trub_l)
    do = plan.words("Pour or siphon it through a strainer into the fermenter.")
    if left > 0.0:
        sludge = plan.words("Leave *{volume}* of sludge behind.", volume=figures.volume(left))
        do = (*do, " ", *sludge)
    do = (*_wait_before_moving(plan), *do)
    asides = [*pouring(plan), *_vessel_cares(plan)]
    reading = Reading(plan.say("Into the fermenter"), figures.volume(moved))
    span = plan.spans("move")[0]
    return step(plan, span.start_min, do, *asides, readings=(reading,))


def _wait_before_moving(plan: Plan) -> Words:
    """What comes before wort that is too hot is moved, and before a vessel is too heavy to move."""
    hot, kind = float(plan.day.fermenter.cool_to_c), plan.recipe.fermenter.kind
    now = plan.figures.temperature(hot)
    safe = plan.figures.temperature(hottest_to_pour_c(kind))
    said: Words = ()
    if cracks_glass(kind, hot):
        said = plan.words(
            "*Stop: at {now} it must not go into glass.* Cool the pot to *{safe}* first.",
            now=now,
            safe=safe,
        )
    elif hot > SCALDS_C:
        said = plan.words(
            "*Stop: at {now} it scalds.* Lid on, wait until it is at *{safe}*.", now=now, safe=safe
        )
    if stays_where_it_is(plan):
        place = plan.words("Put the fermenter *where it will stay*: full, it cannot be moved.")
        said = (*said, " ", *place) if said else place
    return (*said, " ") if said else ()


def _vessel_cares(plan: Plan) -> list[Aside]:
    if plan.recipe.fermenter.kind != FermenterKind.GLASS_CARBOY:
        return []
    text = plan.say(
        "Glass cracks above {temperature} and on a cold floor; carry it in a crate.",
        temperature=plan.figures.temperature(HOTTEST_INTO_GLASS_C),
    )
    return [care(text)]


def _top_up(plan: Plan) -> list[Step]:
    day, figures = plan.day, plan.figures
    frozen, poured = float(day.fermenter.frozen_kg), float(day.fermenter.cold_top_up_l)
    if frozen <= 0.0 and poured <= 0.05:
        return []
    mark = figures.volume(float(day.fermenter.batch_l))
    do: Words = ()
    if frozen > 0.0:
        do = plan.words("Add *{mass}* of frozen water.", mass=figures.mass(frozen))
    if poured > 0.05:
        pour = plan.words(
            "Top up with cold water to *{mark}*, about {volume}.",
            mark=mark,
            volume=figures.volume(poured),
        )
        do = (*do, " ", *pour) if do else pour
    asides = [otherwise(plan.say("Trust the mark, not the jug."))]
    if frozen > 0.0:
        asides = [why(plan.say("Ice takes the last heat.")), *asides]
    if not day.fermenter.frozen_melted:
        text = plan.say("Ice left over is normal here: wait until it is gone.")
        asides.append(otherwise(text))
    start = plan.spans("top up")[0].start_min
    reading = Reading(plan.say("In the fermenter"), mark)
    return [step(plan, start, do, *asides, readings=(reading,))]


def _mix(plan: Plan) -> Step:
    start = plan.spans("top up")[0]
    minutes = start.start_min + 0.5 * (start.end_min - start.start_min)
    do = plan.words("Stir hard for *2 full minutes*, let it splash.")
    reason = why(plan.say("Water floats on wort: unmixed, no reading is true. Yeast wants air."))
    mixed = float(plan.day.fermenter.mixed_c)
    if not too_hot_to_splash(mixed):
        return step(plan, minutes, do, reason)
    wait = plan.words(
        "*Lid on, wait until it is at {safe}*: at {now} nothing is stirred hard or sampled.",
        safe=plan.figures.temperature(HOTTEST_TO_SPLASH_C),
        now=plan.figures.temperature(mixed),
    )
    hot = care(plan.say("Hot wort scalds, and splashed hot it turns stale."))
    return step(plan, minutes, (*wait, " ", *do), hot, reason)


def _read(plan: Plan) -> Step:
    forecast = gravity_forecast(plan, plan.outlook.forecasts["original_gravity"])
    readings = (
        Reading(plan.say(ORIGINAL), forecast, plan.figures.degrees, also=plan.say("at")),
        Reading(
            plan.say("Mixed wort"), plan.figures.temperature(float(plan.day.fermenter.mixed_c))
        ),
    )
    span = plan.spans("top up")[0]
    minutes = span.start_min + 0.7 * (span.end_min - span.start_min)
    do = plan.words("Fill the sample jar, float the hydrometer, read; correct by the table.")
    process = plan.recipe.process
    instrument = plan.say(
        "For a hydrometer made for {temperature}, true to {within}.",
        temperature=plan.figures.scale_temperature(number(process, "hydrometer_made_for")),
        within=plan.figures.gravity(trusted_within(process)),
    )
    wrong = plan.say("Far off? Stir, read again. Never pour a sample back.")
    return step(plan, minutes, do, why(instrument), otherwise(wrong), readings=readings)


def _pitch(plan: Plan) -> Step:
    span = plan.spans("top up")[0]
    minutes = span.start_min + 0.9 * (span.end_min - span.start_min)
    low, high = plan.yeast_band_c
    figures, yeast = plan.figures, plan.yeast
    mixed, goal = (
        float(plan.day.fermenter.mixed_c),
        number(plan.recipe.process, "pitch_temperature"),
    )
    do = plan.words(
        "At *{low} to {high}* add *{amount}* {yeast}.",
        **figures.ends(low, high),
        amount=yeast.amount,
        yeast=yeast.name,
    )
    if plan.recipe.yeast.form == YeastForm.DRY:
        how = plan.say("Sprinkle it on, or as its packet says.")
    else:
        how = plan.say("Shake it and pour it in, or as its packet says.")
    asides = [why(how)]
    if mixed < low:
        degrees = figures.temperature(goal)
        text = plan.say("Too cool? Let it warm to {temperature} first.", temperature=degrees)
        asides.append(otherwise(text))
    elif mixed > high:
        text = plan.say("Too warm? Lid on and wait; the yeast keeps until then.")
        asides.append(otherwise(text))
    return Step(plan.clock(minutes), "", minutes, do, "", (yeast,), (), tuple(asides))


def _close(plan: Plan) -> Step:
    span = plan.spans("top up")[0]
    litres = number_or_none(plan.recipe.fermenter, "volume")
    if stays_where_it_is(plan):
        do = plan.words("Lid and airlock on. Cover it against light where it stands.")
    else:
        do = plan.words("Lid and airlock on. Carry it to a dark place.")
    asides = carrying(plan)
    if litres is not None and float(plan.day.fermenter.batch_l) > 0.85 * litres:
        text = plan.say("Little room above: fit a hose into a jar instead of the airlock.")
        asides.append(otherwise(text))
    return step(plan, span.end_min, do, *asides)
