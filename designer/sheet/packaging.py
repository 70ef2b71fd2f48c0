"""Into bottles or a keg, with the limits that keep it safe.

Limits of bottles: `designer.brewday.bottles`. Two weeks of conditioning: common practice, no
source.
"""

from __future__ import annotations

from math import ceil

from designer.brewday.beer import warmest_after_c
from designer.recipe.choices import Package, PrimingSugar
from designer.recipe.fields import number
from designer.sheet.blocks import Aside, Reading, Section, Step, Steps, Words
from designer.sheet.brewing import care, otherwise, why
from designer.sheet.buying import PRIMING_SUGARS, grams
from designer.sheet.fermenting import minute_of_day, packaging_day
from designer.sheet.figures import US_GALLON_L, us_mass
from designer.sheet.plan import Plan
from designer.sheet.watching import AT_PACKAGING, stop
from designer.units import ShownUnits
from designer.wort.carbonation import PRIMED_HALF_WIDTH, WARMEST_STORE_C

BOTTLE_L, US_BOTTLE_L = 0.5, 0.354882
CONDITION_DAYS = 14
CUP_TAKES_G = 250.0
"""Sugar that a cup of water is enough for: as much as the water weighs; a judgement, no source."""
_INSTEAD: dict[str, str] = {PrimingSugar.TABLE_SUGAR: PrimingSugar.DEXTROSE}
"""What may be used instead of a priming sugar; of others table sugar, which is in every kitchen."""


def packaging(plan: Plan, *, with_energy: bool = True) -> Section:
    """Return how the beer is packaged, from the day of the second reading on.

    Its food value is left out where there is no room for more than what to do.
    """
    litres = float(plan.day.beer.packaged_l)
    volume = plan.figures.volume(litres)
    if plan.recipe.process.package == Package.KEG:
        lead = plan.say("about {volume}", volume=volume)
        if with_energy:
            size = _size(plan)
            lead = plan.say(
                "{beer}, {energy} in {size}", beer=lead, energy=_energy(plan), size=size
            )
        return Section("package", plan.say("Fill the keg"), lead, (Steps(tuple(_keg(plan))),))
    lead = plan.say("{volume}, about {bottles}", volume=volume, bottles=bottles_for(plan, litres))
    if with_energy:
        lead = plan.say("{bottles}, {energy} each", bottles=lead, energy=_energy(plan))
    return Section("package", plan.say("Bottle"), lead, (Steps(tuple(_bottles(plan))),))


def bottles_for(plan: Plan, litres: float) -> str:
    """Return how many ordinary bottles hold the beer."""
    count = int(litres / _bottle_l(plan)) if litres > 0.0 else 0
    return plan.language.count(
        "{number} bottle of {size}", "{number} bottles of {size}", count, size=_size(plan)
    )


def _bottle_l(plan: Plan) -> float:
    return US_BOTTLE_L if plan.figures.shown is ShownUnits.US else BOTTLE_L


def _size(plan: Plan) -> str:
    return "12 fl oz" if plan.figures.shown is ShownUnits.US else "500 mL"


def _energy(plan: Plan) -> str:
    """The food value of a bottle; in kilojoules first where units are metric, as labels have it."""
    tenths = 10.0 * _bottle_l(plan)
    kcal, kj = (
        f"{plan.figures.number(tenths * plan.outlook.forecasts[key].value, '.0f')} {unit}"
        for key, unit in (("kcal_per_100ml", "kcal"), ("kj_per_100ml", "kJ"))
    )
    return kcal if plan.figures.shown is ShownUnits.US else f"{kj} ({kcal})"


class _Steps:
    """Collects steps of the packaging day; only the first shows the day."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.steps: list[Step] = []

    def add(
        self, do: Words, *asides: Aside, days: int = 0, readings: tuple[Reading, ...] = ()
    ) -> None:
        last = packaging_day(self.plan)
        when = self.plan.day_in(last + days) if days or not self.steps else ""
        minutes = minute_of_day(self.plan, last + days)
        self.steps.append(Step(when, "", minutes, do, readings=readings, asides=asides))


def _bottles(plan: Plan) -> list[Step]:
    made = _Steps(plan)
    bottles = plan.day.beer.bottled
    if bottles is None or bottles.is_refused:
        made.add(plan.words("*Stop: do not bottle this beer so.*"), *refusals(plan))
        return made.steps
    made.add(
        plan.words("Clean, then sanitise bottles, caps, hose and a bucket."),
        care(
            plan.say(
                "Sound bottles made for pressure: up to {pressure} in a cupboard at {temperature}.",
                pressure=plan.figures.pressure(bottles.most_bar),
                temperature=plan.figures.temperature(WARMEST_STORE_C),
            )
        ),
    )
    made.steps += near_their_limit(plan)
    made.add(*_priming(plan))
    volume = plan.figures.volume(float(plan.day.beer.packaged_l))
    fill = plan.words(
        "Siphon the beer onto it, no splashing; stir gently. Fill to {gap} below the rim, cap.",
        gap=_gap(plan),
    )
    made.add(fill, readings=(Reading(plan.say("Beer in the bucket"), volume),))
    made.add(
        plan.words(
            "After two weeks in a closed box at {low} to {high}, chill one and taste it.",
            **plan.figures.ends(18.0, 22.0),
        ),
        otherwise(plan.say("Gushing? Chill all; with gloves and goggles, ease the caps.")),
        days=CONDITION_DAYS,
    )
    return made.steps


def _gap(plan: Plan) -> str:
    return "1 in" if plan.figures.shown is ShownUnits.US else "3 cm"


def near_their_limit(plan: Plan) -> list[Step]:
    """Return the caution, to be ticked, for bottles under more pressure than they are at ease with.

    None for those that are refused: of them `refusals` tells.
    """
    bottles = plan.day.beer.bottled
    if bottles is None or bottles.is_at_ease or bottles.is_refused:
        return []
    do = plan.words("Bottles *near their limit*: have gloves and goggles at hand.")
    pressure = plan.figures.pressure(bottles.most_bar)
    comfortable = plan.figures.pressure(bottles.comfortable_bar)
    temperature = plan.figures.temperature(WARMEST_STORE_C)
    if pressure == comfortable:
        limit = plan.say(
            "Up to {pressure} at {temperature}, just beyond what they bear at ease: weigh exactly, "
            "store cool, handle with gloves and goggles.",
            pressure=pressure,
            temperature=temperature,
        )
    else:
        limit = plan.say(
            "Up to {pressure} at {temperature}, at ease to {comfortable}: weigh exactly, store "
            "cool, handle with gloves and goggles.",
            pressure=pressure,
            temperature=temperature,
            comfortable=comfortable,
        )
    return [Step("", "", minute_of_day(plan, packaging_day(plan)), do, asides=(care(limit),))]


def refusals(plan: Plan) -> list[Aside]:
    """Why the bottles are refused, what may happen, and the way out."""
    found = (each for each in plan.outlook.findings if each.code in AT_PACKAGING)
    return [stop(plan, each) for each in found]


def _priming(plan: Plan) -> tuple[Words, Aside, Aside]:
    day, figures = plan.day, plan.figures
    volumes = number(plan.recipe.process, "carbonation")
    sugar = plan.recipe.process.priming_sugar
    amount = float(day.beer.priming_g[sugar])
    limit = care(plan.say("Too much bursts bottles."))
    if amount < 0.5:
        own = plan.say("Sugar in the recipe is for the boil, not for the bubbles.")
        none = plan.words("No sugar: the beer holds enough carbon dioxide already.")
        return none, why(own), limit
    other = _INSTEAD.get(sugar, PrimingSugar.TABLE_SUGAR)
    do = plan.words(
        "Boil *{amount}* {sugar} (or *{other_amount}* {other}) in {water}, cool, pour in: {rate}.",
        amount=grams(plan, amount),
        sugar=plan.say(PRIMING_SUGARS[sugar]),
        other_amount=grams(plan, day.beer.priming_g[other]),
        other=plan.say(PRIMING_SUGARS[other]),
        water=_water_for(plan, max(amount, float(day.beer.priming_g[other]))),
        rate=_per_litre(plan, amount / max(float(day.beer.packaged_l), 1e-9)),
    )
    aim = plan.say(
        "For {volumes} ± {give} of CO2 in beer never warmer than {temperature} since it fermented. "
        "Sugar in the recipe is for the boil.",
        volumes=figures.number(volumes, ".1f"),
        give=figures.volumes(PRIMED_HALF_WIDTH),
        temperature=figures.temperature(warmest_after_c(plan.recipe.process)),
    )
    if sugar == PrimingSugar.DRY_EXTRACT:
        differs = plan.say("Extracts ferment differently: it may be 15 % more or less.")
        aim = f"{aim} {differs}"
    return do, why(aim), limit


def _water_for(plan: Plan, sugar_g: float) -> str:
    """The water that the sugar is boiled in: a cup, or in quarter litres as much as it weighs."""
    if sugar_g <= CUP_TAKES_G:
        return plan.say("a cup of water")
    litres = ceil(4.0 * sugar_g / 1000.0) / 4.0
    return plan.say("{volume} of water", volume=plan.figures.volume(litres))


def _per_litre(plan: Plan, grams_per_l: float) -> str:
    if plan.figures.shown is ShownUnits.US:
        mass = plan.language.figure(us_mass(grams_per_l * US_GALLON_L / 1000.0))
        return plan.say("{mass} a gallon", mass=mass)
    return plan.say("{mass} a litre", mass=f"{plan.figures.number(grams_per_l, '.1f')} g")


def _keg(plan: Plan) -> list[Step]:
    figures, process = plan.figures, plan.recipe.process
    cold = figures.temperature(number(process, "serving_temperature"))
    bar = float(plan.day.beer.keg_bar)
    made = _Steps(plan)
    made.add(
        plan.words("Let all pressure out, then open, clean and sanitise the keg."),
        care(
            plan.say(
                "Never loosen a lid or post under pressure. Never above what is stamped on keg or "
                "regulator; the relief valve must work."
            )
        ),
    )
    made.add(
        plan.words(
            "Siphon the beer in without splashing, close the lid, flush the air out with CO2."
        ),
        care(
            plan.say(
                "CO2 is heavy and stifles: bottle upright and chained, room aired, never a cellar."
            )
        ),
        readings=(
            Reading(plan.say("Beer in the keg"), figures.volume(float(plan.day.beer.packaged_l))),
        ),
    )
    aim = plan.say(
        "Gives {volumes} of CO2 at that temperature.",
        volumes=figures.volumes(number(process, "carbonation")),
    )
    if bar > 0.0:
        do = plan.words(
            "Chill to *{temperature}*, set *{pressure}*, leave it on for 7 to 10 days.",
            temperature=cold,
            pressure=figures.pressure(bar),
        )
    else:
        do = plan.words(
            "Chill to *{temperature}*. It holds enough gas already: only enough to pour.",
            temperature=cold,
        )
    foams = plan.say("Foams when poured? Less pressure for pouring, a longer hose.")
    made.add(do, why(aim), otherwise(foams))
    return made.steps
