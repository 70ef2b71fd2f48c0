"""Into the fermenter: move, top up, mix, read, pitch, close.

Air only once the wort is cool: common practice, no source. What is too hot: `brewday.hot_wort`;
what is too heavy: `lifting`.
"""

from __future__ import annotations

from dataclasses import replace

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
from designer.brewday.measured.readings import Measured
from designer.brewday.vessel_doubts import marked_litres
from designer.recipe.choices import FermenterKind, YeastForm
from designer.recipe.fields import number, number_or_none
from designer.sheet.blocks import Aside, Doing, Reading, Step, Words
from designer.sheet.brewing import all_of, care, otherwise, step, why
from designer.sheet.doings import (
    gravity_blank,
    in_fermenter,
    in_pot,
    of_portion,
    temperature_blank,
    volume_blank,
)
from designer.sheet.head import ORIGINAL, gravity_forecast, leaflet_says
from designer.sheet.lifting import carrying, pouring, stays_where_it_is
from designer.sheet.plan import GoingIn, Plan


def fermenter(plan: Plan) -> tuple[list[Step], list[Step]]:
    """Return the steps that fill the fermenter up to the reading, and those that pitch."""
    moved_min = plan.spans("move")[0].start_min
    into = [(each.time_min, into_fermenter(plan, each)) for each in plan.at("fermenter")]
    before = [step for minutes, step in into if minutes < moved_min]
    after = [step for minutes, step in into if minutes >= moved_min]
    steps = [*before, move(plan), *after, *top_up(plan), mix(plan), read_gravity(plan)]
    return steps, [pitch(plan), close_up(plan)]


def into_fermenter(plan: Plan, group: GoingIn) -> Step:
    """Return extract dissolved there in water just boiled; what else goes in there, stirred."""
    hot_l, all_in = float(plan.day.fermenter.hot_l), all_of(plan, group)
    doing = in_fermenter(plan, "extract" if group.fermentable else "addition", group=group)
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
        return step(plan, group.time_min, do, care(scalds), clean, group=group, doing=doing)
    do = plan.words("Stir {what} into the fermenter.", what=all_in)
    sanitary = plan.say("Not boiled yet: boil it in a little water first, or open it clean.")
    asides = [why(sanitary)]
    if group.fermentable and not takes_hot_water(plan.recipe.fermenter.kind):
        asides.insert(0, care(plan.say("Hot water cracks glass: let it cool to lukewarm first.")))
    return step(plan, group.time_min, do, *asides, group=group, doing=doing)


def move(plan: Plan, number: int = 0, *, is_one_of_several: bool = False) -> Step:
    """Return the step that moves the wort, with what has to be waited for first.

    `number` is that of the fermenter where the sheet has to name it; at the stove it is told of
    each that `is_one_of_several`.
    """
    moved = float(plan.day.fermenter.from_pot_l)
    if number:
        do = plan.words(
            "Pour or siphon it through a strainer into fermenter *{number}*.", number=str(number)
        )
    else:
        do = plan.words("Pour or siphon it through a strainer into the fermenter.")
    do = (*wait_before_moving(plan), *do, *sludge(plan))
    asides = [*pouring(plan), *vessel_cares(plan)]
    blank = volume_blank(plan, Measured.INTO_FERMENTER, plan.say("From the pot"), moved)
    reading = Reading(plan.say("Into the fermenter"), blank.forecast)
    volume, which = blank.forecast, str(plan.fermenter_number)
    if is_one_of_several:
        name = plan.say("Into fermenter {number}", number=which)
        title = plan.say("{volume} into fermenter {number}", volume=volume, number=which)
    else:
        name = plan.say("Into the fermenter")
        title = plan.say("{volume} into the fermenter", volume=volume)
    doing = in_pot(
        plan,
        "move",
        title,
        amount=volume,
        name=name,
        blanks=(blank,),
        fermenter=plan.fermenter_number,
    )
    span = plan.spans("move")[0]
    return step(plan, span.start_min, do, *asides, readings=(reading,), doing=doing)


def sludge(plan: Plan) -> Words:
    """Return what is left in the pot; nothing where nothing is."""
    left = float(plan.day.fermenter.lost_to_trub_l)
    if left <= 0.0:
        return ()
    volume = plan.figures.volume(left)
    return (" ", *plan.words("Leave *{volume}* of sludge behind.", volume=volume))


def wait_before_moving(plan: Plan) -> Words:
    """Return what comes before wort is moved that is too hot, or too heavy once it is moved."""
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


def vessel_cares(plan: Plan) -> list[Aside]:
    """Return the caution for a vessel of glass."""
    if plan.recipe.fermenter.kind != FermenterKind.GLASS_CARBOY:
        return []
    text = plan.say(
        "Glass cracks above {temperature} and on a cold floor; carry it in a crate.",
        temperature=plan.figures.temperature(HOTTEST_INTO_GLASS_C),
    )
    return [care(text)]


def top_up(plan: Plan) -> list[Step]:
    """Return the step that tops up to the mark; none where there is no water to pour."""
    day, figures = plan.day, plan.figures
    frozen, poured = float(day.fermenter.frozen_kg), float(day.fermenter.cold_top_up_l)
    if frozen <= 0.0 and poured <= 0.05:
        return []
    mark = figures.volume(_mark_l(plan))
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
    doing = _topping_up(plan, pours=poured > 0.05)
    return [step(plan, start, do, *asides, readings=(reading,), doing=doing)]


def _mark_l(plan: Plan) -> float:
    """Return the mark to which the fermenter is filled."""
    return marked_litres(plan.recipe.fermenter, float(plan.day.fermenter.batch_l))


def _topping_up(plan: Plan, *, pours: bool) -> Doing:
    """Up to the mark, or ice alone; what is topped up after each of several boils has its key."""
    day, figures = plan.day.fermenter, plan.figures
    blank = volume_blank(plan, Measured.TOPPED_UP, plan.say("Top up to"), _mark_l(plan))
    if pours:
        amount, name = blank.forecast, plan.say("Top up with cold water")
        title = plan.say("Top up to {mark}", mark=amount)
    else:
        amount = figures.mass(float(day.frozen_kg))
        name = plan.say("Frozen water into the fermenter")
        title = plan.say("Add {mass} of frozen water", mass=amount)
    key = f"top-up after boil {plan.boil_number}"
    return in_fermenter(plan, "top-up", title, key=key, amount=amount, name=name, blanks=(blank,))


def mix(plan: Plan) -> Step:
    """Return the hard stir, once it is cool enough for it."""
    start = plan.spans("top up")[0]
    minutes = start.start_min + 0.5 * (start.end_min - start.start_min)
    do = plan.words("Stir hard for *2 full minutes*, let it splash.")
    reason = why(plan.say("Water floats on wort: unmixed, no reading is true. Yeast wants air."))
    time = plan.figures.minutes(2.0)
    doing = in_fermenter(
        plan,
        "mix",
        plan.say("Stir hard for {time}", time=time),
        amount=time,
        name=plan.say("Stir hard, let it splash"),
    )
    mixed = float(plan.day.fermenter.mixed_c)
    if not too_hot_to_splash(mixed):
        return step(plan, minutes, do, reason, doing=doing)
    wait = plan.words(
        "*Lid on, wait until it is at {safe}*: at {now} nothing is stirred hard or sampled.",
        safe=plan.figures.temperature(HOTTEST_TO_SPLASH_C),
        now=plan.figures.temperature(mixed),
    )
    hot = care(plan.say("Hot wort scalds, and splashed hot it turns stale."))
    return step(plan, minutes, (*wait, " ", *do), hot, reason, doing=doing)


def read_gravity(plan: Plan) -> Step:
    """Return the reading before yeast."""
    original = plan.outlook.forecasts["original_gravity"]
    forecast = gravity_forecast(plan, original)
    label = plan.say(ORIGINAL)
    mixed_c, mixed = float(plan.day.fermenter.mixed_c), plan.say("Mixed wort")
    blanks = (
        gravity_blank(plan, Measured.ORIGINAL_GRAVITY, label, original.value, forecast),
        temperature_blank(plan, Measured.MIXED, mixed, mixed_c),
    )
    readings = (
        Reading(label, forecast, plan.figures.degrees, also=plan.say("at")),
        Reading(mixed, blanks[1].forecast),
    )
    doing = in_fermenter(plan, "read", plan.say("Read the gravity"), blanks=blanks)
    span = plan.spans("top up")[0]
    minutes = span.start_min + 0.7 * (span.end_min - span.start_min)
    do = plan.words(
        "Fill the sample jar, float the hydrometer, read it, and the temperature of the sample."
    )
    process = plan.recipe.process
    instrument = plan.say(
        "For a hydrometer made for {temperature}, true to {within}.",
        temperature=plan.figures.scale_temperature(number(process, "hydrometer_made_for")),
        within=plan.figures.gravity(trusted_within(process)),
    )
    wrong = plan.say(
        "Far off? Stir hard, read again before you add anything. Never pour a sample back."
    )
    stated = leaflet_says(plan, "original_gravity")
    asides = (*stated, why(instrument), otherwise(wrong))
    return step(plan, minutes, do, *asides, readings=readings, doing=doing)


def pitch(plan: Plan, packets: str = "") -> Step:
    """Return the pitching of the yeast; `packets` is how many of them that is."""
    span = plan.spans("top up")[0]
    minutes = span.start_min + 0.9 * (span.end_min - span.start_min)
    low, high = plan.yeast_band_c
    figures, yeast = plan.figures, plan.yeast
    mixed, goal = (
        float(plan.day.fermenter.mixed_c),
        number(plan.recipe.process, "pitch_temperature"),
    )
    band = figures.ends(low, high)
    if plan.is_yeast_dosed:
        amount = yeast.amount if packets in ("", yeast.amount) else f"{yeast.amount} ({packets})"
        do = plan.words(
            "At *{low} to {high}* add *{amount}* {yeast}.", **band, amount=amount, yeast=yeast.name
        )
    else:
        do = plan.words(
            "At *{low} to {high}* add {yeast}, as much as its label says.", **band, yeast=yeast.name
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
    amount, name, title = of_portion(yeast)
    doing = in_fermenter(plan, "pitch", title, amount=amount, name=name)
    return replace(step(plan, minutes, do, *asides, doing=doing), portions=(yeast,))


def close_up(plan: Plan) -> Step:
    """Return what is done with the full fermenter."""
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
    doing = in_fermenter(plan, "close", plan.say("Close the fermenter"))
    return step(plan, span.end_min, do, *asides, doing=doing)
