"""The boil, counted down: what goes in, what is lowered and sanitised meanwhile, flame-out.

Sources of the advice: a coil lies in the boil for its last ten minutes, what meets cool wort is
sanitised before it is wanted, and all else: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from designer.brewday.measured.readings import Measured
from designer.brewday.stages import KEPT_HOT_C
from designer.recipe.choices import CoolingWay, FermenterKind
from designer.recipe.document import Fermenter
from designer.recipe.fields import number
from designer.sheet.blanks import Countdown
from designer.sheet.blocks import Aside, Doing, Reading, Step, Words
from designer.sheet.brewing import (
    all_of,
    burner_off,
    burns,
    care,
    foam,
    otherwise,
    rinsing,
    step,
    why,
)
from designer.sheet.doings import gravity_blank, in_pot, volume_blank
from designer.sheet.language import message
from designer.sheet.plan import GoingIn, Plan

COIL_LEFT_MIN = 10.0
SANITISE_LEFT_MIN = 20.0
_SANITISED: dict[str, str] = {
    FermenterKind.PLASTIC_BUCKET: message(
        "Sanitise: bucket, lid, tap, airlock, strainer, spoon, jug, thermometer, sample jar."
    ),
    FermenterKind.GLASS_CARBOY: message(
        "Sanitise: carboy, bung, airlock, funnel, strainer, spoon, thermometer, sample jar."
    ),
    FermenterKind.STEEL_VESSEL: message(
        "Sanitise: vessel, lid, tap, airlock, strainer, spoon, jug, thermometer, sample jar."
    ),
}


def boil(plan: Plan) -> list[Step]:
    """Return the boil, counted down, and what goes in at flame-out."""
    span = plan.spans("boil")[0]
    total = number(plan.recipe.process, "boil_time")
    opening = plan.words(
        "When it boils, set a timer for *{time}*.", time=plan.figures.minutes(total)
    )
    groups = plan.at("boil")
    steps = []
    boils: Doing | None = replace(_boils(plan, total), do=opening, asides=(foam(plan),))
    if boils is not None and (not groups or groups[0].boil_left_min < total):
        steps.append(step(plan, span.start_min, opening, left=plan.left(total), doing=boils))
        boils = None
    for place, group in enumerate(groups):
        steps.append(_addition(plan, group, boils, first=place == 0, total_min=total))
        boils = None
    meanwhile = [*_sanitising(plan, span.end_min, total), *_coil(plan, span.end_min, total)]
    in_order = sorted([*steps, *meanwhile], key=lambda each: each.minutes)
    return in_order + _flame_out(plan, span.end_min)


def _boils(plan: Plan, total_min: float) -> Doing:
    """The moment from which the boil is counted, and what is in the pot then."""
    hot = (each.pot_volume_l for each in plan.day.moments if each.stage == "boil")
    litres, gravity = next(hot, plan.day.pot.boil_start_l), plan.day.pot.boil_gravity_start
    label, its = plan.say("Boil starts"), plan.say("its gravity")
    read = (
        volume_blank(plan, Measured.BOIL_START_VOLUME, label, float(litres), total_min),
        gravity_blank(plan, Measured.BOIL_START_GRAVITY, its, float(gravity), left_min=total_min),
    )
    return in_pot(
        plan,
        "boils",
        plan.say("It boils: start the timer"),
        amount=plan.figures.minutes(total_min),
        left_min=total_min,
        blanks=read,
        starts=Countdown("boil", total_min, plan.boil_number),
    )


def _sanitising(plan: Plan, end_min: float, total_min: float) -> list[Step]:
    left = min(SANITISE_LEFT_MIN, total_min)
    vessels = (plan.recipe.fermenter,) if plan.vessels is None else plan.vessels
    if vessels:
        do, title = _all_sanitised(plan, vessels), plan.say("Sanitise fermenter and tools")
    elif plan.tools_again:
        do = plan.words("Sanitise again: strainer, spoon, jug, thermometer, sample jar.")
        title = plan.say("Sanitise the tools again")
    else:
        return []
    danger = care(plan.say("By its label. Gloves, open window; never mix cleaners."))
    doing = in_pot(plan, "sanitise", title, left_min=left)
    return [step(plan, end_min - left, do, danger, left=plan.left(left), doing=doing)]


def _all_sanitised(plan: Plan, vessels: Sequence[Fermenter]) -> Words:
    first, *others = dict.fromkeys(each.kind for each in vessels)
    do = plan.words(_SANITISED[first])
    for kind in others:
        do = (*do, " ", *plan.words(_SANITISED[kind]))
    if len(vessels) == 1:
        return do
    return (*do, " ", *plan.words("*All {number}* fermenters.", number=str(len(vessels))))


def _coil(plan: Plan, end_min: float, total_min: float) -> list[Step]:
    if plan.recipe.process.cooling != CoolingWay.COIL:
        return []
    left = min(COIL_LEFT_MIN, total_min)
    do = plan.words("Lower the *clean coil* slowly into the boil; bring it back to the boil.")
    steam = care(plan.say("Steam scalds: long gloves. It may foam up: stay."))
    doing = in_pot(plan, "coil", plan.say("Lower the coil into the boil"), left_min=left)
    return [step(plan, end_min - left, do, steam, left=plan.left(left), doing=doing)]


def _addition(
    plan: Plan, group: GoingIn, boils: Doing | None, *, first: bool, total_min: float
) -> Step:
    """What goes in, on paper with the start of the boil; at the stove that is a step before it."""
    do, asides = _put_in(plan, group, first=first, total_min=total_min)
    opening: Words = () if boils is None else (*boils.do, " ")
    doing = in_pot(plan, "addition", group=group, left_min=group.boil_left_min)
    return step(
        plan,
        group.time_min,
        (*opening, *do),
        *asides,
        left=plan.left(group.boil_left_min),
        group=group,
        doing=replace(doing, do=do),
        first=boils,
    )


def _put_in(
    plan: Plan, group: GoingIn, *, first: bool, total_min: float
) -> tuple[Words, list[Aside]]:
    what = all_of(plan, group)
    if group.fermentable:
        stirred = plan.words("Stir in {what} until dissolved; burner on.", what=what)
        late = otherwise(plan.say("Late? Stir it in now; boil 5 min more."))
        off = burner_off(plan, group.time_min)
        return (*off, " ", *stirred, *rinsing(plan, group)), [*burns(plan, group), late]
    hops = any(portion.lines == "hops" for portion in group.portions)
    dropped = (
        plan.words("Drop in {what}.", what=what)
        if hops
        else plan.words("Stir in {what}.", what=what)
    )
    asides: list[Aside] = []
    if hops and first:
        asides.append(care(plan.say("The first hops foam: a few at a time, hand on the dial.")))
    if hops and group.boil_left_min < total_min:
        asides.append(otherwise(plan.say("Missed? Put it in now; keep to the end time.")))
    asides += [why(text) for text in _purposes(plan, group)]
    return dropped, asides


def _purposes(plan: Plan, group: GoingIn) -> list[str]:
    """What extras are for, in the words of the recipe's own purpose."""
    wanted = {part.line_id for part in group.portions if part.lines == "extras"}
    found = (extra.purpose for extra in plan.recipe.extras if extra.line_id in wanted)
    texts = (plan.language.named(purpose) for purpose in dict.fromkeys(found) if purpose)
    return [f"{text[0].upper()}{text[1:]}." for text in texts]


def _flame_out(plan: Plan, end_min: float) -> list[Step]:
    """Burner off, with what goes in then; the level is read while the pot stands still."""
    hot_l, gravity = plan.day.boil_end_hot_l, float(plan.day.pot.boil_gravity_end)
    label, its = plan.say("Boil ends"), plan.say("its gravity")
    read = (
        volume_blank(plan, Measured.BOIL_END_VOLUME, label, hot_l, 0.0),
        gravity_blank(plan, Measured.BOIL_END_GRAVITY, its, gravity, left_min=0.0),
    )
    level = Reading(plan.say("Level, hot"), read[0].forecast)
    note = otherwise(plan.say("Too low? Add boiled water. Too high? Boil a little longer."))
    off: Words = plan.words("*Burner off.*")
    at_once = [each for each in plan.at("flame-out") if not each.fermentable]
    extract = [each for each in plan.at("flame-out") if each.fermentable]
    first = at_once[0] if at_once else None
    if first is not None:
        off = (*off, " ", *plan.words("Stir in {what}.", what=all_of(plan, first)))
    title = plan.say("Burner off") if first is None else ""
    doing = in_pot(
        plan, "flame-out", title, key="flame-out", group=first, left_min=0.0, blanks=read
    )
    steps = [
        step(
            plan,
            end_min,
            off,
            note,
            left=plan.left(0.0),
            group=first,
            readings=(level,),
            doing=doing,
        ),
        *(_stirred_in(plan, group) for group in at_once[1:]),
    ]
    return [*steps, *(_off_the_boil(plan, group) for group in extract), *_kept_hot(plan)]


def _stirred_in(plan: Plan, group: GoingIn) -> Step:
    what = plan.words("Stir in {what}.", what=all_of(plan, group))
    doing = in_pot(plan, "addition", group=group)
    return step(plan, group.time_min, what, group=group, doing=doing)


def _off_the_boil(plan: Plan, group: GoingIn) -> Step:
    """Extract at flame-out: no sooner than the wort is still."""
    do = plan.words(
        "When it is *still*, stir in {what} until nothing lies on the bottom.",
        what=all_of(plan, group),
    )
    foams = care(plan.say("While it still bubbles, extract makes it boil over."))
    do = (*do, *rinsing(plan, group))
    doing = in_pot(plan, "extract", group=group)
    return step(plan, group.time_min, do, foams, group=group, doing=doing)


def _kept_hot(plan: Plan) -> list[Step]:
    """The minutes that extract off the boil is hot for, warmed again where it cooled the pot."""
    reason = why(plan.say("A clean tin is nearly sterile; this kills what is left."))
    hot = plan.figures.temperature(KEPT_HOT_C)
    steps = []
    for place, again in enumerate(plan.spans("heat again"), 1):
        do = plan.words("Burner on, low: stir until it is at *{temperature}*.", temperature=hot)
        scorches = care(plan.say("Over heat, extract burns on."))
        warmed = in_pot(
            plan,
            "heat",
            plan.say("Warm it to {temperature}", temperature=hot),
            key=f"warm again {place}",
            amount=hot,
            name=plan.say("Warm it, stirring"),
        )
        steps.append(step(plan, again.start_min, do, scorches, doing=warmed))
    for place, kept in enumerate(plan.spans("kept hot"), 1):
        length = kept.end_min - kept.start_min
        time = f"{length:.0f} min"
        waits = in_pot(
            plan,
            "kept hot",
            plan.say("Keep it hot for {time}", time=time),
            key=f"kept hot {place}",
            amount=time,
            name=plan.say("Keep it hot, lid on"),
            starts=Countdown("kept hot", length, plan.boil_number),
        )
        do = plan.words(
            "Burner off, lid on, *{time}* at *{temperature}* or more.",
            time=time,
            temperature=hot,
        )
        steps.append(step(plan, kept.start_min, do, reason, doing=waits))
    return steps
