"""Before the day: what to buy, what to weigh out, water to prepare, what to clean."""

from __future__ import annotations

from designer.recipe.document import Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.blocks import Item, ItemList, Section, SideBySide
from designer.sheet.plan import Plan, full_name
from designer.wort.numeric import Numeric

_GROUPS = {
    "liquid extract": "Malt extract and sugar",
    "dry extract": "Malt extract and sugar",
    "hopped kit extract": "Malt extract and sugar",
    "sugar": "Malt extract and sugar",
    "steeping grain": "Grain, crushed",
    "mash grain": "Grain, crushed",
}
_GROUP_ORDER = ("Malt extract and sugar", "Grain, crushed", "Hops", "Yeast", "Extras", "Packaging")


def preparing(plan: Plan) -> Section:
    """Return the lists of the day before."""
    lists = SideBySide((shopping(plan), cleaning(plan)), (weighing(plan), water(plan)))
    return Section("prepare", "Before the day", "buy, weigh, freeze, clean", (lists,))


def shopping(plan: Plan) -> ItemList:
    """Return what to buy: the same thing in several additions once, with its sum."""
    recipe = plan.recipe
    bought: dict[tuple[str, str], list[Quantity | None]] = {}
    for line in recipe.fermentables:
        key = (_GROUPS[line.kind], full_name("fermentables", line))
        bought.setdefault(key, []).append(line.amount)
    for hop in recipe.hops:
        alpha = f" {100.0 * hop.alpha.value:.3g} %" if hop.alpha is not None else ""
        bought.setdefault(("Hops", full_name("hops", hop) + alpha), []).append(hop.amount)
    items = [
        Item(group, _sum(plan, amounts, Kind.MASS), name)
        for (group, name), amounts in bought.items()
    ]
    items.append(Item("Yeast", plan.yeast.amount, plan.yeast.name))
    items += _extras(plan, recipe) + _packaging(plan)
    items.sort(key=lambda item: _GROUP_ORDER.index(item.group))
    return ItemList("Buy", tuple(items))


def _extras(plan: Plan, recipe: Recipe) -> list[Item]:
    bought: dict[tuple[str, str], list[Quantity | None]] = {}
    for extra in recipe.extras:
        unit = "" if extra.amount is None else extra.amount.unit
        bought.setdefault((full_name("extras", extra), unit), []).append(extra.amount)
    return [
        Item("Extras", _sum(plan, amounts, Kind.DOSE), name)
        for (name, _), amounts in bought.items()
    ]


def _sum(plan: Plan, amounts: list[Quantity | None], kind: Kind) -> str:
    known = [each for each in amounts if each is not None]
    if not known:
        return plan.figures.amount(None, kind)
    total = Quantity(sum(each.value for each in known), "", unit=known[0].unit)
    return plan.figures.amount(total, kind)


def _packaging(plan: Plan) -> list[Item]:
    if plan.recipe.process.package == "keg":
        return [Item("Packaging", "", "CO2, a tested keg and regulator")]
    sugar = grams(plan, plan.day.priming_sugar_g)
    if float(plan.day.priming_sugar_g) < 0.5:
        return [Item("Packaging", "", "bottles and caps")]
    return [Item("Packaging", sugar, "table sugar for the bottles")]


def grams(plan: Plan, amount_g: Numeric) -> str:
    """Return grams of the day as a kitchen scale shows them."""
    whole = float(amount_g)
    return plan.figures.mass((round(whole) if whole >= 10.0 else round(whole, 1)) / 1000.0)


def weighing(plan: Plan) -> ItemList:
    """Return the bags to weigh out, lettered in the order in which they go in."""
    items = [
        Item(
            group.words,
            portion.amount,
            portion.name,
            group.words if index == 0 else "",
            group.letter if index == 0 else "",
        )
        for group in plan.going_in
        for index, portion in enumerate(group.portions)
    ]
    return ItemList("Weigh out, by when it goes in", tuple(items))


def water(plan: Plan) -> ItemList:
    """Return the water of the day: for the pot, to freeze, to pour on top; and its treatment."""
    day, figures = plan.day, plan.figures
    items = []
    start = number_or_none(plan.recipe.process, "start_water")
    if start:
        items.append(Item("", figures.volume(start), "cold water for the pot"))
    if float(day.frozen_kg) > 0.0:
        name = "water, boiled, to freeze in clean lidded tubs"
        items.append(Item("", figures.mass(float(day.frozen_kg)), name))
    pour = float(day.liquid_top_up_l)
    if pour > 0.05:
        name = "water to top up with, boiled, kept cold and covered"
        items.append(Item("", figures.volume(pour), name))
    dose = float(day.water_treatment_g)
    if dose > 0.0:
        name = "potassium metabisulfite into all of it against chlorine, 10 min"
        items.append(Item("", f"{dose:.2g} g", name, "sulfite: read its label"))
    return ItemList("Water, the day before", tuple(items))


def cleaning(plan: Plan) -> ItemList:
    """Return what to clean and what to sanitise, with the cautions that belong there."""
    fermenter = {
        "plastic bucket": "bucket, lid, tap",
        "glass carboy": "carboy (no hot water into cold glass)",
        "steel vessel": "vessel, lid, tap",
    }[plan.recipe.fermenter.kind]
    items = (
        Item("", "", f"wash, rinse: pot, spoon, bag, {fermenter}"),
        Item(
            "",
            "",
            "sanitise by its label what meets cool wort: fermenter, lid, spoon, thermometer …",
        ),
        Item(
            "",
            "",
            "gloves, open window; never mix cleaners",
        ),
    )
    return ItemList("Clean, then sanitise", items)
