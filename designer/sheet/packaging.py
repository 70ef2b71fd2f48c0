"""Into bottles or a keg, with the limits that keep it safe.

Limits of bottles: `designer.wort.carbonation`. Two weeks of conditioning: common practice, no
source.
"""

from __future__ import annotations

from designer.recipe.fields import number
from designer.recipe.quantity import Kind
from designer.sheet.blocks import Aside, Reading, Section, Step, Steps, Words, strong
from designer.sheet.brewing import care, otherwise, why
from designer.sheet.clock import day_text
from designer.sheet.fermenting import last_day, minute_of_day
from designer.sheet.plan import Plan
from designer.sheet.preparing import grams
from designer.units import ShownUnits, show
from designer.wort.carbonation import (
    HEAVY_BOTTLE_VOLUMES,
    REFUSE_BOTTLE_VOLUMES,
    SPARKLING_BOTTLE_VOLUMES,
    WARN_BOTTLE_VOLUMES,
)

US_BOTTLE_L = 0.354882
CONDITION_DAYS = 14


def packaging(plan: Plan) -> Section:
    """Return how the beer is packaged, from the day of the second reading on."""
    litres = float(plan.day.packaged_l)
    if plan.recipe.process.package == "keg":
        lead = f"about {plan.figures.volume(litres)}"
        return Section("package", "Fill the keg", lead, (Steps(tuple(_keg(plan))),))
    lead = f"{plan.figures.volume(litres)}, about {bottles_for(plan, litres)}"
    return Section("package", "Bottle", lead, (Steps(tuple(_bottles(plan))),))


def bottles_for(plan: Plan, litres: float) -> str:
    """Return how many ordinary bottles hold the beer."""
    us = plan.figures.shown is ShownUnits.US
    size = US_BOTTLE_L if us else 0.5
    count = int(litres / size) if litres > 0.0 else 0
    return f"{count} bottles of {'12 fl oz' if us else '500 mL'}"


class _Steps:
    """Collects steps of the packaging day; only the first shows the day."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.steps: list[Step] = []

    def add(
        self, do: Words, *asides: Aside, days: int = 0, readings: tuple[Reading, ...] = ()
    ) -> None:
        last = last_day(self.plan)
        when = day_text(self.plan.brew_date, last + days) if days or not self.steps else ""
        minutes = minute_of_day(self.plan, last + days)
        self.steps.append(Step(when, "", minutes, do, readings=readings, asides=asides))


def _bottles(plan: Plan) -> list[Step]:
    made = _Steps(plan)
    made.add(
        ("Clean, sanitise bottles, caps, hose, a bucket.",),
        care("Sound bottles made for pressure."),
    )
    made.add(*_priming(plan))
    volume = plan.figures.volume(float(plan.day.packaged_l))
    made.add(
        (f"Siphon the beer onto it, no splashing; stir gently. Fill to {_gap(plan)} below the rim, "
         "cap.",),
        readings=(Reading("Beer in the bucket", volume),),
    )  # fmt: skip
    warm = plan.figures.temperatures(18.0, 22.0)
    made.add(
        (f"After two weeks in a closed box at {warm}, chill one and taste it.",),
        otherwise("Gushing? Chill all; gloves, goggles, ease the caps."),
        days=CONDITION_DAYS,
    )
    return made.steps


def _gap(plan: Plan) -> str:
    return "1 in" if plan.figures.shown is ShownUnits.US else "3 cm"


def _priming(plan: Plan) -> tuple[Words, Aside, Aside]:
    day, figures = plan.day, plan.figures
    volumes = number(plan.recipe.process, "carbonation")
    sugar = float(day.priming_sugar_g)
    own = why("Sugar in the recipe is for the boil, not for the bubbles.")
    if sugar < 0.5:
        return ("No sugar: the beer holds enough carbon dioxide already.",), own, _limit(volumes)
    warmth = figures.temperature(number(plan.recipe.process, "pitch_temperature"))
    each = sugar / max(float(day.packaged_l), 1e-9)
    do: Words = (
        "Boil ", strong(grams(plan, day.priming_sugar_g)), " table sugar (or ",
        strong(grams(plan, day.priming_dextrose_g)), " dextrose) in a cup of water, cool, pour in: "
        f"{_per_litre(plan, each)}.",
    )  # fmt: skip
    aim = why(f"For {_volumes(volumes)} of CO2 at {warmth}. Sugar in the recipe is for the boil.")
    return do, aim, _limit(volumes)


def _per_litre(plan: Plan, grams_per_l: float) -> str:
    if plan.figures.shown is ShownUnits.US:
        return f"{show(Kind.MASS, grams_per_l * 3.785412 / 1000.0, ShownUnits.US)} a gallon"
    return f"{grams_per_l:.1f} g a litre"


def _volumes(volumes: float) -> str:
    return f"{volumes:.3g} volumes"


def _limit(volumes: float) -> Aside:
    if volumes > SPARKLING_BOTTLE_VOLUMES:
        return care(f"{_volumes(volumes)} burst any bottle: do not bottle this. Aim lower.")
    if volumes > HEAVY_BOTTLE_VOLUMES:
        return care(f"{_volumes(volumes)}: sparkling-wine bottles and wired corks only.")
    if volumes > REFUSE_BOTTLE_VOLUMES:
        return care(f"{_volumes(volumes)} burst ordinary bottles: heavy refillable ones only.")
    if volumes > WARN_BOTTLE_VOLUMES:
        return care("Near the limit of ordinary bottles: sturdy ones, sugar weighed to the gram.")
    return care("Too much bursts bottles.")


def _keg(plan: Plan) -> list[Step]:
    figures, process = plan.figures, plan.recipe.process
    cold = figures.temperature(number(process, "serving_temperature"))
    bar = float(plan.day.keg_bar)
    made = _Steps(plan)
    made.add(
        ("Let all pressure out, then open, clean and sanitise the keg.",),
        care("Never loosen a lid or post under pressure. Mind the keg's and regulator's rating."),
    )
    made.add(
        ("Siphon the beer in without splashing, close the lid, flush the air out with CO2.",),
        care("CO2 is heavy and stifles: bottle upright and chained, room aired, never a cellar."),
        readings=(Reading("Beer in the keg", figures.volume(float(plan.day.packaged_l))),),
    )
    aim = why(f"Gives {_volumes(number(process, 'carbonation'))} of CO2 at that temperature.")
    if bar > 0.0:
        do: Words = ("Chill to ", strong(cold), ", set ", strong(figures.pressure(bar)),
                     ", leave it on for 7 to 10 days.")  # fmt: skip
    else:
        do = ("Chill to ", strong(cold), ". It holds enough gas already: only enough to pour.")
    made.add(do, aim, otherwise("Foams when poured? Less pressure for pouring, a longer hose."))
    return made.steps
