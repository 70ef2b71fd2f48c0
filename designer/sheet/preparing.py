"""Before the day: what to buy, what to weigh out, water to prepare, what to clean."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import Field
from typing import Any

from designer.brewday.cooling import to_put_round
from designer.recipe.choices import (
    Disinfectant,
    FermentableKind,
    FermenterKind,
    Metabisulfite,
    Package,
    PrimingSugar,
)
from designer.recipe.document import Fermenter, Recipe
from designer.recipe.fields import number_or_none, table_fields
from designer.recipe.named import Line, value_of
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.blocks import Item, ItemList, Section, SideBySide
from designer.sheet.language import message
from designer.sheet.plan import Plan, name_of
from designer.wort.numeric import Numeric

_MALT, _GRAIN = "Malt extract and sugar", "Grain"
_GROUPS: dict[str, str] = {
    FermentableKind.LIQUID_EXTRACT: _MALT,
    FermentableKind.DRY_EXTRACT: _MALT,
    FermentableKind.HOPPED_KIT: _MALT,
    FermentableKind.SUGAR: _MALT,
    FermentableKind.STEEPING_GRAIN: _GRAIN,
    FermentableKind.MASH_GRAIN: _GRAIN,
}
_GROUP_ORDER = (_MALT, _GRAIN, "Hops", "Yeast", "Extras", "Packaging")
PRIMING_SUGARS: dict[str, str] = {
    PrimingSugar.TABLE_SUGAR: message("table sugar"),
    PrimingSugar.DEXTROSE: message("dextrose"),
    PrimingSugar.ANHYDROUS_DEXTROSE: message("anhydrous dextrose"),
    PrimingSugar.DRY_EXTRACT: message("dry extract"),
}
"""What is asked for in a shop; dextrose is sold with its water unless it says anhydrous."""
_SALTS: dict[str, str] = {
    Metabisulfite.POTASSIUM: message("potassium metabisulfite"),
    Metabisulfite.SODIUM: message("sodium metabisulfite"),
}
LEAST_POURED_L = 0.05
LEAST_WEIGHED_G = 1.0
"""What a good kitchen scale can still weigh to a tenth or so; common practice, no source."""
_FERMENTERS: dict[str, str] = {
    FermenterKind.PLASTIC_BUCKET: message("wash, rinse: pot, spoon, bag, bucket, lid, tap"),
    FermenterKind.GLASS_CARBOY: message(
        "wash, rinse: pot, spoon, bag, carboy (no hot water into cold glass)"
    ),
    FermenterKind.STEEL_VESSEL: message("wash, rinse: pot, spoon, bag, vessel, lid, tap"),
}


def preparing(plan: Plan) -> Section:
    """Return the lists of the day before."""
    lists = SideBySide((shopping(plan), cleaning(plan)), (weighing(plan), water(plan)))
    lead = plan.say("buy, weigh, freeze, clean")
    return Section("prepare", plan.say("Before the day"), lead, (lists,))


def shopping(plan: Plan) -> ItemList:
    """Return what to buy: the same thing in several additions once, with its sum."""
    recipe = plan.recipe
    bought: dict[tuple[str, str, str], list[Quantity | None]] = {}
    for line in recipe.fermentables:
        group = _GROUPS[line.kind]
        crushed = plan.say("crushed") if group == _GRAIN else ""
        key = (group, plan.full_name(line), _note(plan, line, crushed))
        bought.setdefault(key, []).append(line.amount)
    for hop in recipe.hops:
        key = ("Hops", plan.full_name(hop), _note(plan, hop))
        bought.setdefault(key, []).append(hop.amount)
    items = [
        Item(group, _sum(plan, amounts, Kind.MASS), name, note)
        for (group, name, note), amounts in bought.items()
    ]
    items.append(Item("Yeast", plan.yeast.amount, plan.yeast.name, plan.yeast_packets))
    if _dose(plan):
        salt = plan.say(_SALTS[recipe.process.metabisulfite])
        items.append(Item("Extras", _dose(plan), salt, plan.say("for the water")))
    items += _extras(plan, recipe) + _packaging(plan)
    items.sort(key=lambda item: _GROUP_ORDER.index(item.group))
    return ItemList(plan.say("Buy"), tuple(items))


def _note(plan: Plan, line: Line, first: str = "") -> str:
    """What is said beside a line where it is bought, as the declarations of its fields have it."""
    said = [first] if first else []
    for each, table in table_fields(line):
        value = value_of(line, each.name)
        if table.on_sheet and value:
            said.append(plan.say(table.on_sheet, value=_as_bought(plan, each, value)))
    return ", ".join(said)


def _as_bought(plan: Plan, each: Field[Any], value: Quantity | str) -> str:
    if isinstance(value, str):
        return name_of(value)
    kind = each.metadata["facts"].kind
    if kind is Kind.FRACTION:
        return plan.figures.number(100.0 * value.value, ".3g")
    return plan.figures.of_kind(kind, value.value)


def _extras(plan: Plan, recipe: Recipe) -> list[Item]:
    bought: dict[tuple[str, str, str], list[Quantity | None]] = {}
    for extra in recipe.extras:
        unit = "" if extra.amount is None else extra.amount.unit
        key = (plan.full_name(extra), _note(plan, extra), unit)
        bought.setdefault(key, []).append(extra.amount)
    return [
        Item("Extras", _sum(plan, amounts, Kind.DOSE), name, note)
        for (name, note, _), amounts in bought.items()
    ]


def _sum(plan: Plan, amounts: list[Quantity | None], kind: Kind) -> str:
    known = [each for each in amounts if each is not None]
    if not known:
        return plan.figures.amount(None, kind)
    total = Quantity(sum(each.value for each in known), "", unit=known[0].unit)
    return plan.figures.amount(total, kind)


def _packaging(plan: Plan) -> list[Item]:
    if plan.recipe.process.package == Package.KEG:
        return [Item("Packaging", "", plan.say("CO2, a tested keg and regulator"))]
    bottles = plan.day.beer.bottled
    if bottles is not None and bottles.is_refused:
        return [Item("Packaging", "", plan.say("no sugar: these bottles would burst"))]
    sugar = plan.recipe.process.priming_sugar
    amount = plan.day.beer.priming_g[sugar]
    if float(amount) < 0.5:
        return [Item("Packaging", "", plan.say("bottles and caps"))]
    name = plan.say("{sugar} for the bottles", sugar=plan.say(PRIMING_SUGARS[sugar]))
    return [Item("Packaging", grams(plan, amount), name)]


def grams(plan: Plan, amount_g: Numeric) -> str:
    """Return grams of the day as a kitchen scale shows them."""
    whole = float(amount_g)
    return plan.figures.mass((round(whole) if whole >= 10.0 else round(whole, 1)) / 1000.0)


def weighing(plan: Plan, title: str = "", boxes: int = 1) -> ItemList:
    """Return the bags to weigh out, lettered in the order in which they go in.

    They are weighed out as often as there are `boxes` to tick.
    """
    items = [
        Item(
            group.words,
            portion.amount,
            portion.name,
            group.words if index == 0 else "",
            group.letter if index == 0 else "",
            boxes,
        )
        for group in plan.going_in
        for index, portion in enumerate(group.portions)
    ]
    return ItemList(title or plan.say("Weigh out, by when it goes in"), tuple(items))


def water(plan: Plan) -> ItemList:
    """Return the water of the day: for the pot, to freeze, to pour on top; and its treatment."""
    return waters(plan, [plan], [plan])


def waters(plan: Plan, boils: Sequence[Plan], fermenters: Sequence[Plan]) -> ItemList:
    """Return the water and the ice of all boils and fermenters, in the parts that they take."""
    litres, kilograms = plan.figures.volume, plan.figures.mass
    tanks = [each.day.fermenter for each in fermenters]
    starts = [number_or_none(each.recipe.process, "start_water") or 0.0 for each in boils]
    ice = [to_put_round(float(each.day.fermenter.bath_ice_kg)) for each in boils]
    items = [
        *_in_all(starts, litres, plan.say("cold water for the pot")),
        *_in_all(
            [float(each.frozen_kg) for each in tanks],
            kilograms,
            plan.say("water, boiled, to freeze in clean lidded tubs"),
        ),
        *_in_all(
            [float(each.hot_l) for each in tanks],
            litres,
            plan.say("water to boil in a kettle, for extract in the fermenter"),
        ),
        *_in_all(
            [float(each.cold_top_up_l) for each in tanks],
            litres,
            plan.say("water to top up with, boiled, kept cold and covered"),
            least=LEAST_POURED_L,
        ),
        *_in_all(ice, kilograms, plan.say("ice for the bath round the pot, made or bought")),
    ]
    return ItemList(plan.say("Water, the day before"), (*items, *treatment(plan)))


def _in_all(
    parts: Sequence[float], shown: Callable[[float], str], name: str, *, least: float = 0.0
) -> list[Item]:
    """So much in all, with a box for each part; parts are added up as they are shown, in tenths."""
    there = [each for each in parts if each > least]
    if not there:
        return []
    if len(there) == 1:
        return [Item("", shown(there[0]), name)]
    there = [round(each, 1) if each >= 1.0 else round(each, 2) for each in there]
    texts = [shown(each) for each in there]
    note = f"{len(texts)} × {texts[0]}" if len(set(texts)) == 1 else " + ".join(texts)
    return [Item("", shown(sum(there)), name, note, boxes=len(texts))]


def treatment(plan: Plan) -> list[Item]:
    """Return what takes chlorine out of the water, with its cautions; nothing without any."""
    dose = _dose(plan)
    if not dose:
        return []
    process = plan.recipe.process
    salt = plan.say(_SALTS[process.metabisulfite])
    if process.disinfectant == Disinfectant.CHLORINE:
        name = plan.say("{salt} into all of it against chlorine, 10 min", salt=salt)
    else:
        name = plan.say("{salt} into all of it against chloramine, 10 min", salt=salt)
    notes = [plan.say("sulfite: not near asthma or allergy, no dust, window open, weighed exactly")]
    if float(plan.day.beer.water_treatment_g) < LEAST_WEIGHED_G:
        solution = 100.0 * float(plan.day.beer.water_treatment_g)
        figure = f"{plan.figures.number(solution, '.2g')} mL"
        notes.append(plan.say("or {solution} of 1 g dissolved in 100 mL water", solution=figure))
    return [Item("", dose, name, "; ".join(notes))]


def _dose(plan: Plan) -> str:
    """The weight of the metabisulfite, in grams everywhere: no kitchen weighs parts of ounces."""
    dose = float(plan.day.beer.water_treatment_g)
    return f"{plan.figures.number(dose, '.2g')} g" if dose > 0.0 else ""


def cleaning(plan: Plan) -> ItemList:
    """Return what to clean, with the cautions that belong there; it is sanitised in the boil."""
    return washed(plan, (plan.recipe.fermenter,))


def washed(plan: Plan, fermenters: Sequence[Fermenter], vessels: str = "") -> ItemList:
    """Return what to clean with fermenters of these kinds; `vessels` says which where several."""
    kinds = dict.fromkeys(each.kind for each in fermenters)
    said = [plan.say(_FERMENTERS[kind]) for kind in kinds]
    said += [vessels] if vessels else []
    said.append(plan.say("gloves, open window; never mix cleaners"))
    return ItemList(plan.say("Clean, the day before"), tuple(Item("", "", text) for text in said))
