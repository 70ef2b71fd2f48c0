"""The weeks in the fermenter: what to see on which day, what goes in, when it is done.

Two equal readings, two to three days apart, say that the yeast has finished (common practice, no
source), if they lie where it can end: else it is stuck, and sugar is left. A closed vessel of
fermenting beer builds up pressure and carbon dioxide.

A beer that ferments cool is a lager: near its end it is let warm for some days, so that the yeast
takes back what tastes of butter, and then kept cold for weeks (common practice, no source).
"""

from __future__ import annotations

from designer.brewday.beer import COOL_FERMENT_C, warmest_after_c
from designer.library.catalogue import find_yeast
from designer.recipe.choices import Package
from designer.recipe.fields import number
from designer.sheet.blocks import Aside, Reading, Section, Step, Steps, Words
from designer.sheet.brewing import all_of, care, otherwise, why
from designer.sheet.head import FINAL, gravity_forecast, leaflet_says
from designer.sheet.plan import GoingIn, Plan
from designer.units.clock import DAY_MIN

READINGS_APART_DAYS = 3
WARM_REST_C, WARM_REST_DAYS = 16.0, 3
LAGERING_C, LAGERING_WEEKS = 2.0, 4


def fermenting(plan: Plan) -> Section:
    """Return the plan of the weeks after brew day."""
    steps = [_look(plan), *(_addition(plan, group) for group in plan.at("dry hop"))]
    steps += _readings(plan)
    if is_lager(plan):
        steps += [_warm_rest(plan), _lagering(plan)]
    steps.sort(key=lambda each: each.minutes)
    band = plan.figures.ends(*plan.yeast_band_c)
    lead = plan.say("in the dark at {low} to {high}", **band)
    return Section("ferment", plan.say("Ferment"), lead, (Steps(tuple(steps)),))


def last_day(plan: Plan) -> int:
    """Return the day of the second reading, the earliest on which the beer may be packaged."""
    return max(plan.ferment_days, READINGS_APART_DAYS + 1)


def packaging_day(plan: Plan) -> int:
    """Return the day on which the beer is packaged: a lager once it has been kept cold."""
    return last_day(plan) + (7 * LAGERING_WEEKS if is_lager(plan) else 0)


def is_lager(plan: Plan) -> bool:
    """Whether the beer ferments cool."""
    return number(plan.recipe.process, "pitch_temperature") < COOL_FERMENT_C


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


def _too_soon(plan: Plan) -> str:
    if plan.recipe.process.package == Package.KEG:
        return plan.say("Too soon, and pressure builds up in the keg.")
    return plan.say("Too soon, and bottles burst.")


def _warm_rest(plan: Plan) -> Step:
    told = warmest_after_c(plan.recipe.process)
    rest = plan.figures.temperature(max(told, WARM_REST_C))
    do = plan.words(
        "Let it warm to *{temperature}* and keep it there for *{days} days*.",
        temperature=rest,
        days=str(WARM_REST_DAYS),
    )
    asides = [why(plan.say("Its yeast takes back what tastes of butter."))]
    if told < WARM_REST_C and plan.recipe.process.package == Package.BOTTLES:
        cool = plan.figures.temperature(told)
        asides.append(
            why(plan.say("The sugar is for {temperature}: a little less gas.", temperature=cool))
        )
    days = max(last_day(plan) - READINGS_APART_DAYS - WARM_REST_DAYS, 1)
    return _step_on(plan, days, do, *asides)


def _lagering(plan: Plan) -> Step:
    do = plan.words(
        "Then lager it: cool it slowly to *{temperature}* and leave it for *{weeks} weeks*.",
        temperature=plan.figures.temperature(LAGERING_C),
        weeks=str(LAGERING_WEEKS),
    )
    drawn = otherwise(plan.say("Cooling draws air in: keep little water in the airlock."))
    return _step_on(plan, last_day(plan), do, why(plan.say("It clears and mellows.")), drawn)


def _settling(plan: Plan) -> list[Aside]:
    """Say of a yeast that settles early or late what that does; common practice, no source."""
    yeast = find_yeast(plan.recipe.yeast.name, plan.recipe.yeast.form)
    flocculation = "" if yeast is None else yeast.flocculation
    if flocculation == "high":
        text = plan.say("Its yeast settles early: swirl the fermenter gently, lid on.")
        return [otherwise(text)]
    if flocculation.startswith("low") and not is_lager(plan):
        text = plan.say(
            "Still cloudy? Its yeast settles slowly: a week in the cold clears it, if you want it "
            "clear."
        )
        return [otherwise(text)]
    return []


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
            *leaflet_says(plan, "final_gravity"),
            readings=(Reading(label, forecast, degrees, also),),
        ),
        _step_on(
            plan,
            last,
            plan.words(
                "Go on only if *both readings agree* within {step}.",
                step=plan.figures.gravity(0.001),
            ),
            otherwise(
                plan.say("Still falling or above the forecast? Keep it warm, read again in 3 days.")
            ),
            *_settling(plan),
            care(_too_soon(plan)),
            readings=(Reading(label, plan.say("the same again"), degrees, also),),
        ),
    ]
