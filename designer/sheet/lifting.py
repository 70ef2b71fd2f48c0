"""How heavy a vessel is to whoever lifts it, said as people mean it.

A hot pot of more than some 10 kg is not lifted, a bucket of up to 15 kg one person carries, two
carry up to 40 kg, and what is heavier is filled where it stands. That leaves room below the 25 kg,
held close to the body, that health and safety at work takes for one man and the 16 kg for one woman
(guideline figures of the HSE, L23; from memory), for a kitchen floor is wet and a bucket has no
good grip; otherwise common practice, no source.
"""

from __future__ import annotations

from designer.brewday.hot_wort import HOT_TO_LIFT_KG
from designer.sheet.blocks import Aside
from designer.sheet.plan import Plan

WORT_KG_PER_L = 1.05
WORTH_SAYING_KG = 5.0
FOR_ONE_KG, FOR_TWO_KG = 15.0, 40.0


def load_kg(litres: float) -> float:
    """Return what so much wort weighs."""
    return WORT_KG_PER_L * litres


def pot_holds_l(plan: Plan, time_min: float) -> float:
    """Return what the pot holds at a minute of the day."""
    held = [each.pot_volume_l for each in plan.day.moments if each.time_min <= time_min + 1e-6]
    return held[-1] if held else 0.0


def stays_where_it_is(plan: Plan) -> bool:
    """Whether the filled fermenter is too heavy to be moved."""
    return load_kg(float(plan.day.fermenter.batch_l)) > FOR_TWO_KG


def pouring(plan: Plan) -> list[Aside]:
    """Return the caution for the pot that wort is poured from."""
    heavy = load_kg(float(plan.day.fermenter.in_pot_l))
    if heavy <= WORTH_SAYING_KG:
        return []
    weight = plan.figures.rough_mass(heavy)
    if heavy <= HOT_TO_LIFT_KG:
        text = plan.say("Some {weight} of wort: both hands, dry cloths, or a jug.", weight=weight)
    elif heavy <= FOR_TWO_KG:
        text = plan.say("Some {weight} of wort: two people, or a jug.", weight=weight)
    else:
        text = plan.say(
            "Some {weight} of wort: do not lift the pot, siphon or ladle it.", weight=weight
        )
    return [Aside("care", text)]


def bathing(plan: Plan) -> list[Aside]:
    """Return the caution for a hot pot that is lifted into a bath."""
    heavy = load_kg(pot_holds_l(plan, plan.spans("cool")[0].start_min))
    if heavy <= HOT_TO_LIFT_KG:
        return []
    weight = plan.figures.rough_mass(heavy)
    if heavy <= FOR_TWO_KG:
        text = plan.say(
            "{weight}, scalding: do not lift it. A coil, or wait until it is hand-warm: two "
            "people.",
            weight=weight,
        )
    else:
        text = plan.say(
            "{weight}, scalding: nobody lifts it. Cool it where it stands, by a coil.",
            weight=weight,
        )
    return [Aside("care", text)]


def carrying(plan: Plan) -> list[Aside]:
    """Return the caution for the filled fermenter."""
    heavy = load_kg(float(plan.day.fermenter.batch_l))
    if heavy <= WORTH_SAYING_KG:
        return []
    weight = plan.figures.rough_mass(heavy)
    if heavy <= FOR_ONE_KG:
        text = plan.say("{weight}, slippery: both hands under it.", weight=weight)
    elif heavy <= FOR_TWO_KG:
        text = plan.say("{weight}, slippery: two people.", weight=weight)
    else:
        text = plan.say("{weight}: it cannot be moved any more.", weight=weight)
    return [Aside("care", text)]
