"""What a way leaves over, line by line, and how to keep it; what it costs and wants bought."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from designer.brewday.fit.answer import LeftOver, ToBuy
from designer.brewday.fit.changed_recipe import mass
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.pack_choice import enough_packs
from designer.brewday.fit.sachets import sachets_of, sachets_to_buy, so_many
from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.document import Extra, Fermentable, Hop, Recipe, Yeast
from designer.recipe.edits import LISTS
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say, word
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind, Quantity
from designer.wort.pitching import LARGEST_PACKET_G, PACKET_G

_SACHETS_DIFFER_KG = (LARGEST_PACKET_G - PACKET_G) / 1000.0
"""A sachet of 11 g and one of 11.5 g are one for the other."""
KEEP_LIQUID = say(
    "keep-liquid",
    "Close the tin or pour the syrup into a clean jar, airtight and cool; it darkens and grows "
    "mould on top: use it within weeks.",
)
KEEP_DRY = say("keep-dry", "Airtight and dry: it draws water from the air and sets like stone.")
KEEP_SUGAR = say(
    "keep-sugar", "Closed and dry; a syrup in its own closed tin or jar, not in the cold: it keeps."
)
KEEP_GRAIN = say("keep-grain", "Dry, cool and airtight; crushed grain goes stale within weeks.")
KEEP_HOPS = say("keep-hops", "Freeze it, airtight: warm and in air the alpha acid fades.")
KEEP_YEAST = say("keep-yeast", "Closed, in the cold, up to the date on the sachet.")
KEEP_EXTRA = say("keep-extra", "Dry and closed, as its label says.")


def keep(line: Fermentable | Hop | Extra) -> Message:
    """Return how to keep what is left of a line; common practice, no source."""
    if isinstance(line, Hop):
        return KEEP_HOPS
    if isinstance(line, Extra):
        return KEEP_EXTRA
    if is_grain(line.kind):
        return KEEP_GRAIN
    if line.kind == FermentableKind.SUGAR:
        return KEEP_SUGAR
    return (
        KEEP_LIQUID
        if line.kind in (FermentableKind.LIQUID_EXTRACT, FermentableKind.HOPPED_KIT)
        else KEEP_DRY
    )


def left_over(
    original: Recipe, recipes: Iterable[Recipe], fermenters: int = 1
) -> tuple[LeftOver, ...]:
    """Return what of the original's lines none of the recipes uses, a tenth of a gram or more.

    Of yeast the sachets that stay closed, where so many fermenters are filled.
    """
    boils = tuple(recipes)
    found: list[LeftOver] = []
    for lines in LISTS:
        for line in lines_of(original, lines):
            amount = line.amount
            if amount is None:
                continue
            rest = amount.value - sum(_used(each, lines, line, original) for each in boils)
            if rest > (1e-3 if lines == "extras" else 5e-5):
                left = _dose(rest, amount) if lines == "extras" else mass(rest)
                found.append(LeftOver(lines, line.line_id, line.name, left, keep(line)))
    return (*found, *_sachets_left(original.yeast, boils, fermenters))


def _sachets_left(yeast: Yeast, boils: Sequence[Recipe], fermenters: int) -> Iterator[LeftOver]:
    used = max([fermenters, *(sachets_of(each.yeast) for each in boils)])
    left = so_many(yeast, sachets_of(yeast) - used) if sachets_of(yeast) > used else None
    if yeast.name and left is not None:
        yield LeftOver("yeast", 0, yeast.name, left, KEEP_YEAST)


def _dose(value: float, like: Quantity) -> Quantity:
    value = float(f"{value:.4g}")
    return typed(Kind.DOSE, value, unit=like.unit)


def _used(recipe: Recipe, lines: str, line: Any, original: Recipe) -> float:
    """What a recipe uses of a line: that line, and what was split off it under a new number."""
    known = {each.line_id for each in lines_of(original, lines)}
    used = 0.0
    for each in lines_of(recipe, lines):
        split_off = each.line_id not in known and each.name == line.name and lines == "fermentables"
        if each.amount is not None and (each.line_id == line.line_id or split_off):
            used += float(each.amount.value)
    return used


def must_buy(kitchen: Kitchen, draft: Draft) -> tuple[ToBuy, ...]:
    """Return what the kitchen lacks for a way: fermenters, and yeast for each of them.

    A sachet is never taken as divided: each fermenter wants one of its own, and what the recipe
    has of them is not bought again.
    """
    yeast = kitchen.recipe.yeast
    fermenters = draft.fermenters
    kind = fermenters[-1]
    another = say("another-vessel", "another {vessel}, or the loan of one", vessel=word(kind.kind))
    if kind.volume is not None:
        another = say(
            "another-vessel-of",
            "another {0} {vessel}, or the loan of one",
            (Kind.VOLUME, kind.volume.value),
            vessel=word(kind.kind),
        )
    bought = [ToBuy(another)] * draft.bought
    packet = say(
        "another-packet",
        "another packet of yeast: {name}",
        name=yeast.name or say("the-same", "the same"),
    )
    sachet = ToBuy(packet, so_many(yeast, 1), "yeast")
    sachets = [sachet] * sachets_to_buy(yeast, len(fermenters))
    wanted = (*draft.must_buy, *_more_than_there_is(kitchen, draft), *bought, *sachets)
    return tuple(_in_packs(kitchen, each) for each in wanted)


def _in_packs(kitchen: Kitchen, each: ToBuy) -> ToBuy:
    """Return it with the shop's packs that hold it; as it is where none are known for its kind."""
    kg = each.mass_kg or 0.0
    if each.kind == "yeast":
        kg -= _SACHETS_DIFFER_KG
    named = {pack.mass_kg: pack.said for pack in kitchen.wish.packs if pack.kind == each.kind}
    chosen = enough_packs(kg, named) if kg > 0.0 else None
    if chosen is None:
        return each
    pairs = zip(chosen.counts, chosen.sizes_kg, strict=True)
    packs = tuple((count, named[size]) for count, size in pairs if count)
    over_kg = 0.0 if each.kind == "yeast" else chosen.left_kg  # an opened sachet does not keep
    return replace(each, packs=packs, over_kg=over_kg)


def _more_than_there_is(kitchen: Kitchen, draft: Draft) -> Iterator[ToBuy]:
    """Yield what a way takes of a line beyond what the recipe has."""
    for lines in ("fermentables", "hops"):
        for line in lines_of(kitchen.recipe, lines):
            used = sum(_used(each, lines, line, kitchen.recipe) for each in draft.recipes)
            more = used - (line.amount.value if line.amount is not None else 0.0)
            if more > 5e-5:
                kind = line.kind if isinstance(line, Fermentable) else "hops"
                yield ToBuy(line.name, mass(more), kind)


def cost(original: Recipe, recipes: Iterable[Recipe], fermenters: int) -> float | None:
    """Return the price of what goes in; a line's price is that of its amount in the original.

    None where a price or an amount is not known, yeast and extras included.
    """
    total = 0.0
    boils = tuple(recipes)
    for lines in LISTS:
        for line in lines_of(original, lines):
            if line.price is None or line.amount is None or line.amount.value <= 0.0:
                return None
            used = sum(_used(each, lines, line, original) for each in boils)
            total += float(line.price.value * used / line.amount.value)
    known = {line.line_id for lines in LISTS for line in lines_of(original, lines)}
    if any(hop.line_id not in known for recipe in boils for hop in recipe.hops):
        return None
    if original.yeast.name and original.yeast.price is None:
        return None
    price, there = original.yeast.price, sachets_of(original.yeast)
    used = (there + sachets_to_buy(original.yeast, fermenters)) / there
    return total + (price.value * used if price is not None else 0.0)
