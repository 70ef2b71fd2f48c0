"""The weeks in the fermenter: what to see on which day, what goes in, when it is done.

Two equal readings, two to three days apart, say that the yeast has finished (common practice, no
source). A closed vessel of fermenting beer builds up pressure and carbon dioxide.
"""

from __future__ import annotations

from designer.sheet.blocks import Aside, Reading, Section, Step, Steps, Words
from designer.sheet.brewing import all_of, care, otherwise, why
from designer.sheet.head import FINAL, gravity_forecast
from designer.sheet.plan import GoingIn, Plan
from designer.units.clock import DAY_MIN

READINGS_APART_DAYS = 3


def fermenting(plan: Plan) -> Section:
    """Return the plan of the weeks after brew day."""
    steps = [_look(plan), *(_addition(plan, group) for group in plan.at("dry hop"))]
    steps += _readings(plan)
    steps.sort(key=lambda each: each.minutes)
    band = plan.figures.ends(*plan.yeast_band_c)
    lead = plan.say("in the dark at {low} to {high}", **band)
    return Section("ferment", plan.say("Ferment"), lead, (Steps(tuple(steps)),))


def last_day(plan: Plan) -> int:
    """Return the day of the second reading, the earliest on which the beer may be packaged."""
    return max(plan.ferment_days, READINGS_APART_DAYS + 1)


def minute_of_day(plan: Plan, days: int) -> float:
    """Return the minutes from the start of brew day to so many days after pitching."""
    return float(plan.day.total_min) + days * DAY_MIN


def _step_on(
    plan: Plan,
    days: int,
    do: Words,
    *asides: Aside,
    readings: tuple[Reading, ...] = (),
    group: GoingIn | None = None,
) -> Step:
    return Step(
        plan.day_in(days),
        "",
        minute_of_day(plan, days),
        do,
        "" if group is None else group.letter,
        () if group is None else group.portions,
        readings,
        asides,
    )


def _look(plan: Plan) -> Step:
    return _step_on(
        plan,
        1,
        plan.words(
            "Look for foam or bubbles by tomorrow. Keep the airlock clear and the room aired."
        ),
        otherwise(plan.say("Nothing by day 3? Check that it is warm and the lid is tight.")),
        care(plan.say("A blocked airlock can burst it; CO2 in a closed room stifles.")),
    )


def _addition(plan: Plan, group: GoingIn) -> Step:
    days = round((group.time_min - float(plan.day.total_min)) / DAY_MIN)
    do = plan.words("Put {what} into the fermenter, lid back on.", what=all_of(plan, group))
    if any(portion.lines == "hops" for portion in group.portions):
        text = plan.say("Dry hops give aroma, no bitterness. Sanitised hands and scissors.")
    else:
        text = plan.say("Follow its label.")
    return _step_on(plan, days, do, why(text), group=group)


def _readings(plan: Plan) -> list[Step]:
    forecast = gravity_forecast(plan, plan.outlook.forecasts["final_gravity"])
    last = last_day(plan)
    first = last - READINGS_APART_DAYS
    label, also, degrees = plan.say(FINAL), plan.say("at"), plan.figures.degrees
    return [
        _step_on(
            plan,
            first,
            plan.words("Take a sample, shake the gas out, read."),
            readings=(Reading(label, forecast, degrees, also),),
        ),
        _step_on(
            plan,
            last,
            plan.words(
                "Go on only if *both readings agree* within {step}.",
                step=plan.figures.gravity(0.001),
            ),
            otherwise(plan.say("Still falling? Wait 3 days, read again.")),
            care(plan.say("Too soon, and bottles burst.")),
            readings=(Reading(label, plan.say("the same again"), degrees, also),),
        ),
    ]
