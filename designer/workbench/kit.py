"""A kit as its leaflet reads, made a recipe: its contents locked, what it promises kept beside it.

Of what the leaflet leaves out: hopped extract is boiled and hopped already and goes in late; other
extract goes in at the start where hops are boiled, for so they are mostly told to (common practice,
no source).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from math import floor
from typing import NamedTuple

from designer.brewday.foam import foam_line_l
from designer.library import catalogue
from designer.library.new_lines import new_fermentable, new_hop
from designer.recipe.choices import FermentableKind, HopForm, YeastForm, is_grain
from designer.recipe.document import (
    Fermentable,
    Hop,
    Leaflet,
    Recipe,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.message import refused
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.translation import tr

LATE_MIN, SHORT_BOIL_MIN = 5.0, 10.0
HOT, EXTRACT_L_PER_KG, LEAST_WATER_L = 1.05, 0.75, 1.0
"""How much more room boiling water takes, and room for extract as it is sold, a little more than
it is: 1.4 kg/L for syrup, 1.6 for what is dry; common practice, no source."""
USUAL_NAMES = {
    FermentableKind.HOPPED_KIT: "Hopped kit extract, amber or bitter",
    FermentableKind.LIQUID_EXTRACT: "Light liquid malt extract",
    FermentableKind.DRY_EXTRACT: "Light dry malt extract",
    FermentableKind.SUGAR: "Table sugar (sucrose)",
    FermentableKind.STEEPING_GRAIN: "Crystal malt 60 °L",
}
"""What a tin, bag or packet holds that has no name of its own."""
UNNAMED_YEAST, HOP_TO_SHOW = "Kit ale yeast, unnamed", "Challenger"
"""What a packet of yeast is called that has no name; a hop that shows how one is typed."""


class KitItem(NamedTuple):
    """A tin, a bag of extract, sugar or grain."""

    kind: FermentableKind
    amount: Quantity
    name: str = ""


class KitHop(NamedTuple):
    """A packet of hops, or a part of one that goes in by itself."""

    amount: Quantity
    name: str = ""
    form: HopForm = HopForm.PELLETS
    alpha: Quantity | None = None
    when: When | None = None


@dataclass(frozen=True, slots=True)
class Kit:
    """What the leaflet says, and the vessels in hand; None for what it does not say.

    `kitchen` is a recipe that holds all else that is known of the vessels and of how one brews.
    """

    name: str
    makes: Quantity
    items: tuple[KitItem, ...]
    pot: Quantity | None = None
    fermenter: Quantity | None = None
    hops: tuple[KitHop, ...] = ()
    yeast: str = ""
    yeast_amount: Quantity | None = None
    boil_water: Quantity | None = None
    boil_time: Quantity | None = None
    original_gravity: Quantity | None = None
    final_gravity: Quantity | None = None
    alcohol: Quantity | None = None
    bitterness: Quantity | None = None
    kitchen: Recipe = field(default_factory=Recipe)


def recipe_of_kit(kit: Kit) -> Recipe:
    """Return the recipe of a kit; only volumes, times and what is left out may change in it.

    Raises RefusedInputError for a kit with nothing in it, or made up to nothing.
    """
    if not kit.items:
        raise refused("kit-empty", "Type at least one tin or bag of the kit: nothing is in it yet.")
    if kit.makes.value <= 0.0:
        raise refused("kit-makes-nothing", "Say how much beer the kit makes.")
    boil = _boil_time(kit)
    return with_line_ids(
        Recipe(
            name=kit.name.strip() or tr("My kit"),
            pot=replace(kit.kitchen.pot, volume=kit.pot),
            fermenter=replace(kit.kitchen.fermenter, volume=kit.fermenter),
            process=replace(
                kit.kitchen.process,
                start_water=kit.boil_water or _some_water(kit),
                boil_time=boil,
                top_up_to=kit.makes,
            ),
            fermentables=tuple(_fermentables(kit, boil.value)),
            hops=tuple(_hop(each, boil) for each in kit.hops),
            yeast=_yeast(kit),
            leaflet=Leaflet(
                kit.makes, kit.original_gravity, kit.final_gravity, kit.alcohol, kit.bitterness
            ),
        )
    )


def _some_water(kit: Kit) -> Quantity:
    """Return as much water as leaves room for extract and foam in the pot, and in the batch."""
    extract = sum(each.amount.value for each in kit.items if not is_grain(each.kind))
    taken_up = EXTRACT_L_PER_KG * extract
    litres = kit.makes.value - taken_up
    if kit.pot is None:
        litres = min(litres, kit.makes.value / 3.0)
    else:
        foam = foam_line_l(replace(kit.kitchen.pot, volume=kit.pot)) or 0.0
        litres = min(litres, foam / HOT - taken_up)
    return typed(Kind.VOLUME, max(floor(10.0 * litres) / 10.0, LEAST_WATER_L))


def _boil_time(kit: Kit) -> Quantity:
    """Return the time of the leaflet, or as long as its hops want; never shorter than that."""
    hops = max((_minutes(each.when) for each in kit.hops), default=0.0)
    stated = kit.boil_time
    if stated is not None and stated.value >= hops:
        return stated
    return typed(Kind.TIME, max(hops, SHORT_BOIL_MIN))


def _minutes(when: When | None) -> float:
    return when.minutes if when is not None and when.stage is Stage.BOIL else 0.0


def _in_boil(minutes: float) -> When:
    return When(Stage.BOIL, f"boil {minutes:g} min", minutes)


def _fermentables(kit: Kit, boil_min: float) -> Iterator[Fermentable]:
    late = _in_boil(min(LATE_MIN, boil_min))
    with_hops = any(_minutes(each.when) > LATE_MIN for each in kit.hops)
    whens = {
        FermentableKind.HOPPED_KIT: late,
        FermentableKind.SUGAR: late,
        FermentableKind.STEEPING_GRAIN: When(Stage.STEEP, "steep"),
    }
    tins = sum(each.amount.value for each in kit.items if each.kind == FermentableKind.HOPPED_KIT)
    for item in kit.items:
        line = _line(item, whens.get(item.kind, _in_boil(boil_min) if with_hops else late))
        if item.kind == FermentableKind.HOPPED_KIT and kit.bitterness is not None and tins > 0.0:
            share = item.amount.value / tins
            line = replace(
                line, label_bitterness=_part(kit.bitterness, share), label_volume=kit.makes
            )
        yield line


def _part(bitterness: Quantity, share: float) -> Quantity:
    """Return what of the bitterness of all tins is that of one."""
    if share > 0.999:
        return bitterness
    return typed(Kind.BITTERNESS, round(share * bitterness.value, 1))


def _line(item: KitItem, when: When) -> Fermentable:
    name = item.name.strip() or USUAL_NAMES[item.kind]
    known = new_fermentable(name)
    if known.kind != item.kind:  # a name of another kind brings no figures
        known = Fermentable(name, item.kind)
    return replace(known, amount=item.amount, when=when, locked=True)


def _hop(packet: KitHop, boil: Quantity) -> Hop:
    known = new_hop(packet.name.strip() or tr("Hops of the kit"))
    return replace(
        known,
        form=packet.form,
        amount=packet.amount,
        alpha=packet.alpha or known.alpha,
        when=packet.when or _in_boil(boil.value),
        locked=True,
    )


def _yeast(kit: Kit) -> Yeast:
    name = kit.yeast.strip() or UNNAMED_YEAST
    entry = catalogue.find_yeast(name, YeastForm.DRY) or catalogue.find_yeast(name)
    found = catalogue.new_yeast(entry) if entry is not None else Yeast(name)
    one = typed(Kind.DOSE, 1.0, unit="packet")
    return replace(found, name=name, amount=kit.yeast_amount or one)
