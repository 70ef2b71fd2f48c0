"""The brew day as steps: heat, steep, boil. Cautions stand exactly where the danger is.

Sources of the advice: steep of 66 to 77 °C: Palmer, How to Brew, ch. 13; burner off before extract
goes in, the first minutes of the boil and the first hops as those that boil over, and all else:
common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from designer.recipe.fields import number, number_or_none
from designer.sheet.blocks import Aside, Reading, Step, Strong, Words, strong
from designer.sheet.plan import GoingIn, Plan

WARMEST_STEEP_C = 77.0
COOLEST_STEEP_C = 66.0
_SCORCHES = "Over heat, extract scorches."


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
) -> Step:
    """Return a step of the brew day at its clock time."""
    return Step(
        plan.clock(minutes),
        left,
        minutes,
        do,
        "" if group is None else group.letter,
        () if group is None else group.portions,
        readings,
        asides,
    )


def put_in(group: GoingIn, before: str, after: str = ".") -> Words:
    """Return the words of an addition: the thing itself, or its letter where it is several."""
    if len(group.portions) == 1:
        (portion,) = group.portions
        return before, strong(portion.amount), f" {portion.name}{after}"
    return before, "all of ", strong(group.letter), after


def to_the_boil(plan: Plan) -> list[Step]:
    """Return the steps from cold water to a rolling boil."""
    if not any(plan.at(place) for place in ("water", "steep", "extract after steep", "first wort")):
        return _straight_to_boil(plan)
    steps = _water(plan)
    if plan.spans("steep"):
        steps += _steep(plan)
    for group in plan.at("extract after steep"):
        steps.append(_extract(plan, group))
    for group in plan.at("first wort"):
        do = put_in(group, "Drop in ", " while the pot heats.")
        reason = why("In before the boil, hops give a rounder bitterness.")
        steps.append(step(plan, group.time_min, do, reason, group=group))
    return steps + _heat_to_boil(plan)


def _straight_to_boil(plan: Plan) -> list[Step]:
    """Without grain, water is poured in and heated in one step."""
    heat, *rest = _heat_to_boil(plan)
    return [replace(heat, do=(*_pour(plan), " ", *heat.do)), *rest]


def _pour(plan: Plan) -> Words:
    start = number_or_none(plan.recipe.process, "start_water")
    if start is None:
        return ("Fill the pot with the water.",)
    return "Pour ", strong(plan.figures.volume(start)), " of cold water into the pot."


def _water(plan: Plan) -> list[Step]:
    first = _pour(plan)
    steps = []
    for group in plan.at("water"):
        do = put_in(group, "Stir ", " into the cold water.")
        steps.append(step(plan, 0.0, do, group=group))
    heat = plan.spans("heat water")
    if heat:
        strike = plan.figures.temperature(float(plan.day.strike_c))
        first = (*first, " Heat it to ", strong(strike), ", lid on.")
        reason = why("The cold grain takes a little of it.")
        return [step(plan, 0.0, first, reason), *steps]
    return [step(plan, 0.0, first), *steps]


def _steep(plan: Plan) -> list[Step]:
    figures, process = plan.figures, plan.recipe.process
    span = plan.spans("steep")[0]
    wanted = number(process, "steep_temperature")
    at, length = figures.temperature(wanted), figures.minutes(number(process, "steep_time"))
    window = figures.temperatures(COOLEST_STEEP_C, WARMEST_STEEP_C)
    (group,) = plan.at("steep")
    do = (
        strong("Burner off. "), *put_in(group, "Hang ", " in a bag in the water; keep at "),
        strong(at), " for ", strong(length), ", stirring at times.",
    )  # fmt: skip
    reading = Reading("In the pot", figures.temperature(float(plan.day.steeped_c)))
    lift = plan.spans("lift")[0].start_min
    return [
        step(
            plan, span.start_min, do,
            why(f"{window} draws colour and flavour; hotter, harsh tannin."),
            otherwise("Too hot? A cup of cold water. Too cool? Low heat, bag off the base."),
            left=f"{length} steep",
            group=group,
            readings=(reading,),
        ),
        step(
            plan, lift,
            ("Lift the bag, let it drip for ", strong("5 min"), "; do not wring it."),
            care("Hot and heavy: tongs or a sieve."),
        ),
    ]  # fmt: skip


def _extract(plan: Plan, group: GoingIn) -> Step:
    do = (_burner_off(plan), *put_in(group, "Stir in ", " until dissolved."))
    return step(plan, group.time_min, do, care(_SCORCHES), group=group)


def _heat_to_boil(plan: Plan) -> list[Step]:
    spans = plan.spans("heat to boil")
    steps = []
    foam = _foam(plan)
    groups = plan.at("extract in")
    first = "Heat to the boil, lid off." if not groups else "Heat until it just boils, lid on."
    asides = [] if groups else [foam]
    if not plan.day.reached_boil:
        asides.append(otherwise("A weak stove? Keep the lid half on and watch it."))
    steps.append(step(plan, spans[0].start_min, (first,), *asides))
    for group in groups:
        steps.append(_extract(plan, group))
    if groups:
        do = ("Burner on, ", strong("lid off"), ". Stir until it boils again.")
        steps.append(step(plan, spans[-1].start_min, do, foam))
    return steps


def _burner_off(plan: Plan) -> Strong:
    """An electric plate stays hot: there the pot is moved as well."""
    aside = ", pot aside" if plan.recipe.pot.stove == "electric" else ""
    return strong(f"Burner off{aside}. ")


def _foam(plan: Plan) -> Aside:
    volume = number_or_none(plan.recipe.pot, "volume")
    full = plan.figures.volume(float(plan.day.fullest_boiling_l))
    room = "" if volume is None else f" {full} in a {plan.figures.volume(volume)} pot."
    return care(
        f"It boils over in seconds: stay.{room} If foam climbs: heat off, stir, splash cold water."
    )


def boil(plan: Plan) -> list[Step]:
    """Return the boil, counted down, and what goes in at flame-out."""
    span = plan.spans("boil")[0]
    total = number(plan.recipe.process, "boil_time")
    length = plan.figures.minutes(total)
    groups = plan.at("boil")
    opening: Words = ("When it rolls, set a timer for ", strong(length), ".")
    steps = []
    if not groups or groups[0].boil_left_min < total:
        steps.append(step(plan, span.start_min, opening, left=left_words(total)))
        opening = ()
    for number_, group in enumerate(groups):
        steps.append(_addition(plan, group, opening, first=number_ == 0, total_min=total))
        opening = ()
    return steps + _flame_out(plan, span.end_min)


def left_words(minutes: float) -> str:
    """Return the countdown beside a step of the boil."""
    return f"{minutes:g} min left"


def _addition(plan: Plan, group: GoingIn, opening: Words, *, first: bool, total_min: float) -> Step:
    spaced: Words = (*opening, " ") if opening else ()
    left = left_words(group.boil_left_min)
    if group.fermentable:
        stirred = put_in(group, "Stir in ", " until dissolved; burner on.")
        return step(
            plan,
            group.time_min,
            (*spaced, _burner_off(plan), *stirred),
            care(_SCORCHES),
            otherwise("Late? Stir it in now; boil 5 min more."),
            left=left,
            group=group,
        )
    hops = any(portion.lines == "hops" for portion in group.portions)
    do = (*spaced, *put_in(group, "Drop in " if hops else "Stir in "))
    asides: list[Aside] = []
    if hops and first:
        asides.append(care("The first hops foam: a few at a time, hand on the dial."))
    if hops and group.boil_left_min < total_min:
        asides.append(otherwise("Missed? In it goes now; keep to the end time."))
    asides += [why(text) for text in _purposes(plan, group)]
    return step(plan, group.time_min, do, *asides, left=left, group=group)


def _purposes(plan: Plan, group: GoingIn) -> list[str]:
    """What extras are for, in the words of the recipe's own purpose."""
    wanted = {part.line_id for part in group.portions if part.lines == "extras"}
    found = (extra.purpose for extra in plan.recipe.extras if extra.line_id in wanted)
    return [f"{text[0].upper()}{text[1:]}." for text in dict.fromkeys(found) if text]


def _flame_out(plan: Plan, end_min: float) -> list[Step]:
    """Burner off, with what goes in then; the level is read while the pot stands still."""
    level = Reading("Level, hot", plan.figures.volume(plan.after_boil_hot_l))
    groups = plan.at("flame-out")
    note = otherwise("Too low? Boiled water. Too high? Boil on.")
    if not groups:
        done = (strong("Burner off."),)
        return [step(plan, end_min, done, note, left="0 min left", readings=(level,))]
    steps = []
    for number_, group in enumerate(groups):
        stir = " until dissolved" if group.fermentable else ""
        do = (strong("Burner off. "), *put_in(group, "Stir in ", f"{stir}."))
        readings, asides = ((level,), (note,)) if number_ == 0 else ((), ())
        left = "0 min left" if number_ == 0 else ""
        steps.append(
            step(plan, group.time_min, do, *asides, left=left, group=group, readings=readings)
        )
    return steps
