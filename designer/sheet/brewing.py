"""The brew day as steps: heat, steep, come to the boil. Cautions stand where the danger is.

Sources of the advice: steep of 66 to 77 °C: Palmer, How to Brew, 1st ed., online, ch. 13; burner
off before extract goes in, the first minutes of the boil and the first hops as those that boil
over, and all else: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.hot_wort import HOT_TO_LIFT_KG
from designer.brewday.malt_doubts import is_from_a_tin
from designer.brewday.measured.readings import Measured
from designer.recipe.choices import GrainBag, Stove, SyrupTin
from designer.recipe.fields import number, number_or_none
from designer.sheet.blanks import Countdown
from designer.sheet.blocks import Aside, Doing, Reading, Step, Strong, Words
from designer.sheet.doings import in_pot, temperature_blank, volume_blank
from designer.sheet.lifting import load_kg, pot_holds_l
from designer.sheet.plan import GoingIn, Plan
from designer.translation import message
from designer.wort.steeping import COOLEST_STEEP_C, HOTTEST_STEEP_C

_LIFT = message("Lift the bag, let it drip for *{time}*; do not wring it.")
_LIFT_RINSED = message(
    "Lift the bag, rinse it with the water kept back, let it drip for *{time}*; do not wring it."
)


def why(text: str) -> Aside:
    """Return the reason of a step."""
    return Aside("why", text)


def otherwise(text: str) -> Aside:
    """Return what to do if a step goes wrong."""
    return Aside("if", text)


def care(text: str) -> Aside:
    """Return a warning of something that can hurt."""
    return Aside("care", text)


def step(
    plan: Plan,
    minutes: float,
    do: Words,
    *asides: Aside,
    left: str = "",
    group: GoingIn | None = None,
    readings: tuple[Reading, ...] = (),
    doing: Doing,
    first: Doing | None = None,
) -> Step:
    """Return a step of the brew day at its clock time.

    `doing` is what it is at the stove; there `first` is a step of its own before it.
    """
    told = doing if doing.do else replace(doing, do=do)
    return Step(
        plan.clock(minutes),
        left,
        minutes,
        do,
        "" if group is None else group.letter,
        () if group is None else group.portions,
        readings,
        asides,
        doings=(told,) if first is None else (first, told),
    )


def all_of(plan: Plan, group: GoingIn) -> Words:
    """Return the words for what goes in: the thing itself, or its letter where it is several."""
    if len(group.portions) == 1:
        (portion,) = group.portions
        return Strong(portion.amount), f" {portion.name}"
    return plan.words("all of *{letter}*", letter=group.letter)


def to_the_boil(plan: Plan) -> list[Step]:
    """Return the steps from cold water to a rolling boil."""
    first, *rest = _to_the_boil(plan)
    return [replace(first, asides=(*first.asides, *_fire(plan))), *rest]


def _fire(plan: Plan) -> list[Aside]:
    """What to mind where a fire is lit."""
    if plan.recipe.pot.stove != Stove.GAS:
        return []
    return [care(plan.say("Gas: window open, cloths and sleeves away from the flame."))]


def _to_the_boil(plan: Plan) -> list[Step]:
    if not any(plan.at(place) for place in ("water", "steep", "extract after steep", "first wort")):
        return _straight_to_boil(plan)
    steps = _water(plan)
    if plan.spans("steep"):
        steps += _steep(plan)
    for group in plan.at("extract after steep"):
        steps.append(_extract(plan, group))
    for group in plan.at("first wort"):
        do = plan.words("Drop in {what} while the pot heats.", what=all_of(plan, group))
        reason = why(plan.say("In before the boil, hops give a rounder bitterness."))
        doing = in_pot(plan, "addition", group=group)
        steps.append(step(plan, group.time_min, do, reason, group=group, doing=doing))
    return steps + _heat_to_boil(plan)


def _straight_to_boil(plan: Plan) -> list[Step]:
    """Without grain, water is poured in and heated in one step."""
    heat, *rest = _heat_to_boil(plan)
    do = (*_pour(plan), " ", *heat.do)
    return [replace(heat, do=do, doings=(replace(_filling(plan), do=do),)), *rest]


def _pour(plan: Plan) -> Words:
    start = number_or_none(plan.recipe.process, "start_water")
    if start is None:
        return plan.words("Fill the pot with the water.")
    volume = plan.figures.volume(start)
    return plan.words("Pour *{volume}* of cold water into the pot.", volume=volume)


def _filling(plan: Plan) -> Doing:
    """The cold water, which is read off the marks of the pot, and at the strike how warm it is."""
    start = number_or_none(plan.recipe.process, "start_water")
    if start is None:
        return in_pot(plan, "fill", plan.say("Fill the pot"))
    blanks = [volume_blank(plan, Measured.WATER_IN, plan.say("Water in"), start)]
    if plan.spans("heat water"):
        strike = float(plan.day.steep.strike_c)
        blanks.append(
            temperature_blank(plan, Measured.STRIKE, plan.say("Before the grain"), strike)
        )
    volume = plan.figures.volume(start)
    return in_pot(
        plan,
        "fill",
        plan.say("Fill {volume} of water", volume=volume),
        amount=volume,
        name=plan.say("Cold water into the pot"),
        blanks=tuple(blanks),
    )


def _water(plan: Plan) -> list[Step]:
    first = _pour(plan)
    if _bag_is_rinsed(plan):
        first = (*first, " ", *plan.words("Keep some back to rinse the bag."))
    steps = []
    for group in plan.at("water"):
        do = plan.words("Stir {what} into the cold water.", what=all_of(plan, group))
        if _tin_is_rinsed(plan, group):
            later = plan.words("Rinse the tin with it once it is hot, a dry cloth round it.")
            do = (*do, " ", *later)
        doing = in_pot(plan, "extract" if group.fermentable else "addition", group=group)
        steps.append(step(plan, 0.0, do, group=group, doing=doing))
    if plan.spans("heat water"):
        strike = plan.figures.temperature(float(plan.day.steep.strike_c))
        heat = plan.words("Heat it to *{temperature}*, lid on.", temperature=strike)
        reason = why(plan.say("Cold grain will cool it a little."))
        opening = step(plan, 0.0, (*first, " ", *heat), reason, doing=_filling(plan))
        return [opening, *steps]
    return [step(plan, 0.0, first, doing=_filling(plan)), *steps]


def _steep(plan: Plan) -> list[Step]:
    figures, process = plan.figures, plan.recipe.process
    span = plan.spans("steep")[0]
    wanted = number(process, "steep_temperature")
    at, length = figures.temperature(wanted), figures.minutes(number(process, "steep_time"))
    window = figures.temperatures(COOLEST_STEEP_C, HOTTEST_STEEP_C)
    (group,) = plan.at("steep")
    do = plan.words(
        "*Burner off.* Hang {what} in a bag in the water; keep at *{temperature}* for *{time}*, "
        "stirring at times.",
        what=all_of(plan, group),
        temperature=at,
        time=length,
    )
    steeped = float(plan.day.steep.steeped_c)
    blank = temperature_blank(plan, Measured.STEEP, plan.say("Steep"), steeped)
    reading = Reading(plan.say("In the pot"), blank.forecast)
    steeping = Countdown("steep", number(process, "steep_time"), plan.boil_number)
    reason = plan.say("{span} draws colour and flavour; hotter, harsh tannin.", span=window)
    wrong = plan.say("Too hot? Add a cup of cold water. Too cool? Low heat, bag off the base.")
    lift = plan.words(_LIFT_RINSED if _bag_is_rinsed(plan) else _LIFT, time=figures.minutes(5.0))
    hot = care(plan.say("Hot and heavy: use tongs or a sieve."))
    return [
        step(
            plan,
            span.start_min,
            do,
            why(reason),
            otherwise(wrong),
            left=plan.say("{time} steep", time=length),
            group=group,
            readings=(reading,),
            doing=in_pot(plan, "steep", group=group, blanks=(blank,), starts=steeping),
        ),
        step(
            plan,
            plan.spans("lift")[0].start_min,
            lift,
            hot,
            doing=in_pot(plan, "lift", plan.say("Lift the grain bag")),
        ),
    ]


def _bag_is_rinsed(plan: Plan) -> bool:
    return bool(plan.spans("steep")) and plan.recipe.process.grain_bag == GrainBag.RINSED


def _tin_is_rinsed(plan: Plan, group: GoingIn) -> bool:
    if plan.recipe.process.syrup_tin != SyrupTin.RINSED:
        return False
    going_in = {each.line_id for each in group.portions if each.lines == "fermentables"}
    return any(
        line.line_id in going_in and is_from_a_tin(line) for line in plan.recipe.fermentables
    )


def rinsing(plan: Plan, group: GoingIn) -> Words:
    """Return what is done with the tins of what has gone into hot wort; nothing if nothing is."""
    if not _tin_is_rinsed(plan, group):
        return ()
    return (" ", *plan.words("Rinse the tin with hot wort, a dry cloth round it."))


def _extract(plan: Plan, group: GoingIn) -> Step:
    stirred = plan.words("Stir in {what} until dissolved.", what=all_of(plan, group))
    do = (*burner_off(plan, group.time_min), " ", *stirred, *rinsing(plan, group))
    doing = in_pot(plan, "extract", group=group)
    return step(plan, group.time_min, do, *burns(plan, group), group=group, doing=doing)


def _heat_to_boil(plan: Plan) -> list[Step]:
    spans = plan.spans("heat to boil")
    groups = plan.at("extract in")
    lid_on = plan.words("Heat until it just boils, lid on.")
    first = lid_on if groups else plan.words("Heat to the boil, lid off.")
    asides = [] if groups else [foam(plan)]
    if not plan.day.pot.reached_boil:
        asides.append(otherwise(plan.say("A weak stove? Keep the lid half on and watch it.")))
    heating = in_pot(plan, "heat", plan.say("Heat to the boil"))
    steps = [step(plan, spans[0].start_min, first, *asides, doing=heating)]
    steps += [_extract(plan, group) for group in groups]
    if groups:
        do = plan.words("Burner on, *lid off*. Stir until it boils again.")
        again = in_pot(plan, "heat", plan.say("Back to the boil, lid off"), key="heat again")
        steps.append(step(plan, spans[-1].start_min, do, foam(plan), doing=again))
    return steps


def burner_off(plan: Plan, time_min: float) -> Words:
    """Return how the heat goes off; an electric plate stays hot: there a light pot is moved."""
    if plan.recipe.pot.stove != Stove.ELECTRIC:
        return plan.words("*Burner off.*")
    if load_kg(pot_holds_l(plan, time_min)) > HOT_TO_LIFT_KG:
        return plan.words("*Burner off*, wait until it is *still*.")
    return plan.words("*Burner off, pot aside.*")


def burns(plan: Plan, group: GoingIn) -> tuple[Aside, ...]:
    """Return the warnings for extract that goes in: it burns on, and a full pot is heavy."""
    heavy = load_kg(pot_holds_l(plan, group.time_min))
    scorches = plan.say("Over heat, extract burns on.")
    if plan.recipe.pot.stove != Stove.ELECTRIC or heavy <= HOT_TO_LIFT_KG:
        return (care(scorches),)
    weight = plan.figures.rough_mass(heavy)
    stays = plan.say(
        "{weight}, scalding: do not lift it. The plate stays hot: stir.", weight=weight
    )
    return care(scorches), care(stays)


def foam(plan: Plan) -> Aside:
    """Return the warning for a pot that comes to the boil."""
    volume = number_or_none(plan.recipe.pot, "volume")
    full = plan.figures.volume(float(plan.day.pot.fullest_boiling_l))
    parts = [plan.say("It boils over in seconds: stay.")]
    if volume is not None:
        pot = plan.figures.volume(volume)
        parts.append(plan.say("{full} in a pot of {pot}.", full=full, pot=pot))
    parts.append(plan.say("If foam climbs: heat off, stir, splash in cold water."))
    if plan.recipe.pot.stove == Stove.GAS:
        parts.append(plan.say("Flame out? Shut the gas, air the room, then relight."))
    return care(" ".join(parts))
