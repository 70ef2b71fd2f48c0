"""Cures that put something into the wort: extract where it is too weak, water where too strong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import floor

from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.cause_words import line_of, share_of
from designer.brewday.explaining.cure_amounts import (
    extract_to_add_kg,
    gravity_with,
    litres_with,
    water_to_add_l,
    wort_to_boil_l,
)
from designer.brewday.explaining.cure_recipes import Step
from designer.brewday.explaining.cure_wort import Wort
from designer.brewday.explaining.explained import CauseCode, Cure
from designer.brewday.measured.advice_ahead import extract_to_add, first_amount
from designer.brewday.measured.advice_levers import step_kg, step_l, stepped_kg, stepped_l
from designer.brewday.weighable import KG_PER_LB
from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.document import Fermentable
from designer.recipe.kind_defaults import extract_fraction
from designer.recipe.kinds import typed
from designer.recipe.message import Message, in_turn, say
from designer.recipe.plan import fermenters_of
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.recipe.systems import is_in_us
from designer.wort.water import WATER_KG_PER_L

WORTH_CURING_SG = 0.0015
"""So far off the wort is left as it is; nobody tastes it (judgement)."""
PACKETS_KG = (0.5, 1.0)
PACKETS_US_KG = (KG_PER_LB, 3.0 * KG_PER_LB)
"""Whole packets of dry extract; common practice, no source."""
PACKET_WITHIN_SG = 0.001
"""A whole packet is taken where it lands so near."""
LEAST_WATER_L = 0.2
IN_FERMENTER = When(Stage.FERMENTER, "fermenter")
OFF_THE_BOIL = When(Stage.FLAME_OUT, "flame-out")
NEVER_ON_ONE = say("never-on-one", "Never add sugar or extract on one reading.")
BOIL_OVER = say(
    "cure-cautions",
    "Burner off while it goes in, and stay with it: it foams up. Hot sugar burns deep.",
)


def cures_adding(wort: Wort, cause: CauseCode, asked: Asked, beliefs: Beliefs) -> Iterator[Cure]:
    """Yield what brings a wort back that a cause made another, as far as the vessel has room."""
    if wort.gravity < wort.wanted - WORTH_CURING_SG:
        yield from _extract(wort, cause, asked, beliefs)
    elif wort.gravity > wort.wanted + WORTH_CURING_SG:
        yield from _water(wort, cause, asked)


def _extract(wort: Wort, cause: CauseCode, asked: Asked, beliefs: Beliefs) -> Iterator[Cure]:
    missing = _missing(wort, cause, beliefs)
    line = missing or _dry(wort)
    solids = extract_fraction(line)
    if missing is not None and missing.amount is not None:
        amount = missing.amount
    else:
        amount = _to_add(wort, line, solids)
    in_pot = asked.samples[-1].taken is Taken.POT
    litres = wort.litres
    if not in_pot:
        litres = litres_with(wort.gravity, wort.litres, amount.value, solids)
    if amount.value <= 0.0 or not _has_room(wort, litres):
        return
    steps: tuple[Step, ...] = ()
    if wort.own is not None:
        when = OFF_THE_BOIL if in_pot else IN_FERMENTER
        steps = (wort.own.place.put_in(replace(line, amount=amount), when),)
    if wort.is_worse_with(steps, litres):
        return
    mass = Kind.MASS, amount
    title = say("cure-add", "Add {0} {name}", mass, name=_name(line))
    if missing is not None:
        title = say("cure-put-in", "Put in the {0} of {name} that is left", mass, name=_name(line))
    code = "put_in" if missing is not None else "add_extract"
    yield wort.cure(
        f"{code}:{cause}",
        title,
        in_turn(_how(amount, in_pot=in_pot), BOIL_OVER, NEVER_ON_ONE),
        say("cure-add-offer", "Add {0}", mass),
        steps,
        litres,
        gravity_with(wort.gravity, wort.litres, amount.value, solids),
    )


def _how(amount: Quantity, *, in_pot: bool) -> Message:
    if in_pot:
        return say("cure-into-pot", "Stir it into the pot and boil it 5 minutes.")
    boiled = Kind.VOLUME, wort_to_boil_l(amount.value)
    return say(
        "cure-boil-in-wort",
        "Boil it 5 minutes in {0} of the wort, lid half on, cool it covered, and stir it in hard.",
        boiled,
    )


def _missing(wort: Wort, cause: CauseCode, beliefs: Beliefs) -> Fermentable | None:
    """Return what of a line never went in, to be put in now; None where that is not the cause."""
    told = line_of(wort.part, beliefs)
    share = -share_of(wort.part)
    if cause is not CauseCode.MISSING_EXTRACT or told is None or share <= 0.0 or told.kg <= 0.0:
        return None
    if is_grain(told.kind):
        return None
    own = None if wort.own is None else wort.own.place.fermentable(told.line_id)
    whole = None if own is None else own.amount
    steps = round(min(share, 1.0) * told.kg / step_kg(whole, "fermentables"))
    amount = stepped_kg(whole, 0.0, steps, "fermentables")
    if own is None:
        return Fermentable(told.name, told.kind, amount)
    label = _label_amount(own)
    return replace(own, amount=amount, label_amount=label, locked=False, price=None)


def _label_amount(own: Fermentable) -> Quantity | None:
    """Return what the label of a hopped tin is for, so that the rest brings its part of it."""
    return own.label_amount or (own.amount if own.label_volume is not None else None)


def _dry(wort: Wort) -> Fermentable:
    """Return the dry extract that is put in: the recipe's own, else a light one."""
    known = () if wort.own is None else wort.own.place.fermentables
    return extract_to_add([each for each in known if not is_grain(each.kind)])


def _to_add(wort: Wort, line: Fermentable, solids: float) -> Quantity:
    """Return how much of it: as a scale weighs it, or a whole packet that lands as near."""
    kg = extract_to_add_kg(wort.gravity, wort.litres, wort.wanted, solids)
    like = None if wort.own is None else first_amount(list(wort.own.place.fermentables))
    us = like is not None and is_in_us(like.text)
    for packet in PACKETS_US_KG if us else PACKETS_KG:
        lands = gravity_with(wort.gravity, wort.litres, packet, solids)
        if abs(lands - wort.wanted) <= PACKET_WITHIN_SG:
            return stepped_kg(like, packet, 0, "fermentables")
    return stepped_kg(like, 0.0, round(kg / step_kg(like, "fermentables")), "fermentables")


def _name(line: Fermentable) -> object:
    if line.name:
        return line.name
    if line.kind == FermentableKind.DRY_EXTRACT:
        return say("kind-dry", "dry extract")
    return say("kind-rest", "extract")


def _has_room(wort: Wort, litres: float) -> bool:
    return wort.room_l is None or litres <= wort.room_l + 1e-6


def _water(wort: Wort, cause: CauseCode, asked: Asked) -> Iterator[Cure]:
    if asked.samples[-1].taken is Taken.POT or not wort.has_mark:
        return
    like = typed(Kind.VOLUME, wort.planned_l, ".6g")
    if wort.own is not None:
        number = wort.own.place.fermenter
        like = fermenters_of(wort.own.recipe)[number - 1].top_up_to or like
    wanted = water_to_add_l(wort.gravity, wort.litres, wort.wanted)
    if wort.room_l is not None:
        wanted = min(wanted, max(wort.room_l - wort.litres, 0.0))
    water = stepped_l(like, 0.0, floor(wanted / step_l(like) + 0.25))
    litres = wort.litres + water.value
    if water.value < LEAST_WATER_L or not _has_room(wort, litres):
        return
    if wort.is_worse_with((), litres):
        return
    yield wort.cure(
        f"add_water:{cause}",
        say("cure-water", "Add {0} of boiled water", (Kind.VOLUME, water)),
        say(
            "cure-water-words",
            "Boil it, cool it covered, pour it in and stir hard. Boiling water scalds: let it cool "
            "in the pot. Never add water on one reading.",
        ),
        say("cure-add-offer", "Add {0}", (Kind.VOLUME, water)),
        (),
        litres,
        gravity_with(wort.gravity, wort.litres, water.value * WATER_KG_PER_L, 0.0),
    )
