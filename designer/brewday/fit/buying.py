"""What a way wants bought: vessels, yeast and what the recipe has too little of, in whole packs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from designer.brewday.fit.answer import ToBuy
from designer.brewday.fit.changed_recipe import line_kg, mass
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.keeping import YEAST
from designer.brewday.fit.leftovers import kind_of, used_of
from designer.brewday.fit.pack_choice import packs_of
from designer.brewday.fit.packets import packets_of, packets_to_buy, so_many
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.message import say, word
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind
from designer.wort.pitching import LARGEST_PACKET_G, PACKET_G

_PACKETS_DIFFER_KG = (LARGEST_PACKET_G - PACKET_G) / 1000.0
"""A packet of 11 g and one of 11.5 g are one for the other."""


def must_buy(kitchen: Kitchen, draft: Draft) -> tuple[ToBuy, ...]:
    """Return what the kitchen lacks for a way: fermenters, and yeast for each of them.

    A packet is never taken as divided: each fermenter wants one of its own, and what the recipe
    has of them is not bought again. What is bought is priced as it is in the recipe.
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
    one_more = ToBuy(packet, so_many(yeast, 1), YEAST)
    missing = packets_to_buy(yeast, len(fermenters))
    later = missing - packets_to_buy(yeast, len(draft.filled_first))
    packets = [one_more] * (missing - later) + [replace(one_more, later=True)] * later
    wanted = (*draft.must_buy, *_more_than_there_is(kitchen, draft), *bought, *packets)
    return tuple(_priced(kitchen.recipe, _in_packs(kitchen, each)) for each in wanted)


def _in_packs(kitchen: Kitchen, each: ToBuy) -> ToBuy:
    """Return it with the shop's packs that hold it; as it is where none are known for its kind."""
    kg = each.mass_kg or 0.0
    if each.kind == YEAST:
        kg -= _PACKETS_DIFFER_KG
    found = packs_of(each.kind, kg, kitchen.wish.packs)
    if found is None:
        return each
    packs = tuple((count, pack.said) for count, pack in found.packs)
    over_kg = 0.0 if each.kind == YEAST else found.over_kg  # an opened packet does not keep
    return replace(each, packs=packs, over_kg=over_kg)


def _more_than_there_is(kitchen: Kitchen, draft: Draft) -> Iterator[ToBuy]:
    """Yield what a way takes of a line beyond what the recipe has."""
    for lines in ("fermentables", "hops"):
        for line in lines_of(kitchen.recipe, lines):
            used = sum(used_of(each, lines, line, kitchen.recipe) for each in draft.recipes)
            more = used - (line.amount.value if line.amount is not None else 0.0)
            if more > 5e-5:
                yield ToBuy(line.name, mass(more), kind_of(line))


def _priced(recipe: Recipe, each: ToBuy) -> ToBuy:
    """Return it with what its packs cost, by the price of the same thing in the recipe."""
    if each.kind == YEAST:
        price = recipe.yeast.price
        return replace(
            each, price=None if price is None else price.value / packets_of(recipe.yeast)
        )
    if each.mass_kg is None:
        return each
    lines: tuple[Fermentable | Hop, ...] = (*recipe.fermentables, *recipe.hops)
    alike = (line for line in lines if (kind_of(line), line.name) == (each.kind, each.what))
    of_a_kg = next((found for found in map(_of_a_kg, alike) if found is not None), None)
    if of_a_kg is None:
        return each
    return replace(each, price=of_a_kg * (each.mass_kg + each.over_kg))


def _of_a_kg(line: Fermentable | Hop) -> float | None:
    kg = line_kg(line)
    return None if line.price is None or kg <= 0.0 else float(line.price.value / kg)
