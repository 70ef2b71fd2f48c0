"""What to buy, in the packs of a shop, with what is then left over and how that is kept.

What is locked comes in the box of its kit, as much as is written, and in no pack of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import Field, dataclass, replace
from typing import Any

from designer.brewday.fit.pack_choice import Whole, packs_of
from designer.library.packs import PackSize
from designer.recipe.choices import (
    FermentableKind,
    Metabisulfite,
    Package,
    PrimingSugar,
    is_grain,
)
from designer.recipe.document import Extra, Fermentable, Hop, Recipe
from designer.recipe.fields import table_fields
from designer.recipe.named import Line, lines_of, value_of
from designer.recipe.plan import whole_recipe
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.blocks import Item, ItemList
from designer.sheet.language import message
from designer.sheet.plan import Plan, name_of
from designer.units import ShownUnits
from designer.wort.numeric import Numeric

_MALT, _GRAIN = "Malt extract and sugar", "Grain"
_GROUPS = (_MALT, _GRAIN, "Hops", "Yeast", "Extras", "Packaging")
PRIMING_SUGARS: dict[str, str] = {
    PrimingSugar.TABLE_SUGAR: message("table sugar"),
    PrimingSugar.DEXTROSE: message("dextrose"),
    PrimingSugar.ANHYDROUS_DEXTROSE: message("anhydrous dextrose"),
    PrimingSugar.DRY_EXTRACT: message("dry extract"),
    PrimingSugar.HONEY: message("honey"),
}
"""What is asked for in a shop; dextrose is sold with its water unless it says anhydrous."""
_SOLD_AS: dict[str, str] = {
    PrimingSugar.DEXTROSE: FermentableKind.SUGAR,
    PrimingSugar.ANHYDROUS_DEXTROSE: FermentableKind.SUGAR,
    PrimingSugar.DRY_EXTRACT: FermentableKind.DRY_EXTRACT,
}
"""In which packs; table sugar and honey are sold everywhere."""
SALTS: dict[str, str] = {
    Metabisulfite.POTASSIUM: message("potassium metabisulfite"),
    Metabisulfite.SODIUM: message("sodium metabisulfite"),
}
_HOPS = "hops"
PACK_LABELS = (
    message("tin"),
    message("tub"),
    message("bag"),
    message("jar"),
    message("jug"),
    message("can"),
    message("pack"),
)
"""What the packs are called that come with the program; a shop's own names stay as typed."""
_SYRUP, _MALT_LEFT = message("syrup cold, 3 weeks"), message("grain 4 weeks")
_KEPT: dict[str, str] = {
    FermentableKind.LIQUID_EXTRACT: _SYRUP,
    FermentableKind.HOPPED_KIT: _SYRUP,
    FermentableKind.STEEPING_GRAIN: _MALT_LEFT,
    FermentableKind.MASH_GRAIN: _MALT_LEFT,
    _HOPS: message("hops frozen"),
}
"""How what is left is kept besides airtight and dry; `brewday/fit/keeping.py` says it at length."""
_SCRAP_KG = 0.0005
"""What no kitchen scale shows is not left over."""


@dataclass(frozen=True, slots=True)
class _Bought:
    """One thing to buy: where it stands, what it is called, and how much; `kg` of it in packs."""

    group: str
    name: str
    note: str
    kind: str
    amounts: tuple[Quantity | None, ...]
    kg: float


def shopping(plan: Plan) -> ItemList:
    """Return what to buy: the same thing in several additions once, with its sum and its packs."""
    recipe = whole_recipe(plan.recipe)
    items = [_item(plan, each) for each in _in_shop(plan, recipe)]
    whole = replace(plan, recipe=recipe)
    items.append(Item("Yeast", whole.yeast.amount, whole.yeast.name, whole.yeast_packets))
    if dose(plan):
        salt = plan.say(SALTS[recipe.process.metabisulfite])
        items.append(Item("Extras", dose(plan), salt, plan.say("for the water")))
    items += _extras(plan, recipe) + _packaging(plan)
    items.sort(key=lambda item: _GROUPS.index(item.group))
    return ItemList(plan.say("Buy"), tuple(items))


def _in_shop(plan: Plan, recipe: Recipe) -> list[_Bought]:
    return [*_fermentables(plan, recipe), *_hops(plan, recipe)]


def _fermentables(plan: Plan, recipe: Recipe) -> list[_Bought]:
    lines: list[tuple[str, str, str, Fermentable | Hop]] = []
    for line in _as_sold(plan, recipe, "fermentables"):
        assert isinstance(line, Fermentable)
        crushed = plan.say("crushed") if is_grain(line.kind) else ""
        group = _GRAIN if is_grain(line.kind) else _MALT
        lines.append((group, _note(plan, line, crushed), line.kind, line))
    return _gathered(plan, lines)


def _hops(plan: Plan, recipe: Recipe) -> list[_Bought]:
    lines: list[tuple[str, str, str, Fermentable | Hop]] = []
    for hop in _as_sold(plan, recipe, "hops"):
        assert isinstance(hop, Hop)
        lines.append(("Hops", _note(plan, hop), _HOPS, hop))
    return _gathered(plan, lines)


def _as_sold(plan: Plan, recipe: Recipe, name: str) -> Iterator[Line]:
    """Yield the lines of all boils, those of a kit as they are written: it is bought whole."""
    written = {line.line_id: line for line in lines_of(plan.recipe, name)}
    kit: set[int] = set()
    for line in lines_of(recipe, name):
        locked = not isinstance(line, Extra) and line.locked
        if not locked or line.line_id not in written:
            yield line
        elif line.line_id not in kit:
            kit.add(line.line_id)
            yield written[line.line_id]


def _gathered(plan: Plan, lines: list[tuple[str, str, str, Fermentable | Hop]]) -> list[_Bought]:
    """Return each thing once, with the amounts of all its lines."""
    found: dict[tuple[str, str, str, str], list[Fermentable | Hop]] = {}
    for group, note, kind, line in lines:
        found.setdefault((group, plan.full_name(line), note, kind), []).append(line)
    return [
        _Bought(
            group,
            name,
            note,
            kind,
            tuple(line.amount for line in alike),
            sum(line.amount.value for line in alike if line.amount is not None and not line.locked),
        )
        for (group, name, note, kind), alike in found.items()
    ]


def _item(plan: Plan, bought: _Bought) -> Item:
    note = ", ".join(each for each in (bought.note, in_packs(plan, bought.kind, bought.kg)) if each)
    return Item(bought.group, _sum(plan, bought.amounts, Kind.MASS), bought.name, note)


def in_packs(plan: Plan, kind: str, kg: float) -> str:
    """Return the packs that hold so much of a kind, and what is left over; "" where none do."""
    found = packs_of(kind, kg, plan.packs)
    if found is None:
        return ""
    packs = " + ".join(_counted(plan, count, pack) for count, pack in found.packs)
    if not _is_left(found):
        return packs
    figures = plan.figures
    if figures.shown is ShownUnits.BOTH:  # the packs are metric ones
        figures = replace(figures, shown=ShownUnits.METRIC)
    return plan.say("{packs}, {left} left", packs=packs, left=figures.mass(found.over_kg))


def _counted(plan: Plan, count: int, pack: PackSize) -> str:
    size, label = plan.language.figure(pack.amount.text), plan.say(name_of(pack.label))
    one = plan.say("{size} {label}", size=size, label=label)
    return one if count == 1 else plan.say("{count} × {pack}", count=str(count), pack=one)


def left_over(plan: Plan) -> list[Item]:
    """Return how to keep what is left of the packs when all is weighed out; nothing of nothing."""
    bought = _in_shop(plan, whole_recipe(plan.recipe))
    packs = [(each.kind, packs_of(each.kind, each.kg, plan.packs)) for each in bought]
    kinds = [kind for kind, found in packs if found is not None and _is_left(found)]
    if not kinds:
        return []
    how = plan.parted(dict.fromkeys(plan.say(_KEPT[kind]) for kind in kinds if kind in _KEPT))
    return [Item("", "", plan.say("what is left: airtight, dry"), how)]


def _is_left(found: Whole[PackSize]) -> bool:
    return found.over_kg > _SCRAP_KG


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
        Item("Extras", _sum(plan, tuple(amounts), Kind.DOSE), name, note)
        for (name, note, _), amounts in bought.items()
    ]


def _sum(plan: Plan, amounts: tuple[Quantity | None, ...], kind: Kind) -> str:
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
    packs = in_packs(plan, _SOLD_AS.get(sugar, ""), float(amount) / 1000.0)
    return [Item("Packaging", grams(plan, amount), name, packs)]


def grams(plan: Plan, amount_g: Numeric) -> str:
    """Return grams of the day as a kitchen scale shows them."""
    whole = float(amount_g)
    return plan.figures.mass((round(whole) if whole >= 10.0 else round(whole, 1)) / 1000.0)


def dose(plan: Plan) -> str:
    """Return the metabisulfite, in grams everywhere: no kitchen weighs parts of ounces."""
    grams_in_all = float(plan.day.beer.water_treatment_g)
    return f"{plan.figures.number(grams_in_all, '.2g')} g" if grams_in_all > 0.0 else ""
