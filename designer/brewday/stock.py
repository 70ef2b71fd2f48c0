"""What lies in the cupboard against what the recipe asks for: missing, cost, bags as they are.

Amounts are kilograms, or the recipe's own pieces for yeast and the like; prices are in whatever
money they were typed in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from designer.brewday.aiming import Means, make_it
from designer.brewday.day import brew
from designer.recipe.document import Extra, Fermentable, Hop, Recipe, Yeast
from designer.recipe.edits import ChangeLine, Edit, Together
from designer.recipe.kind_defaults import alpha_acid
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.plan import fermenters_of, whole_recipe, yeast_of
from designer.recipe.quantity import Kind
from designer.recipe.same_name import is_same_name, name_key

ALPHA_DIFFERS = 0.0005


@dataclass(frozen=True, slots=True)
class Stock:
    """One thing on hand: how much (`unit` "kg", or a dose's), its price for one unit, its alpha."""

    name: str
    amount: float
    unit: str = "kg"
    price_each: float | None = None
    alpha: float | None = None


@dataclass(frozen=True, slots=True)
class Need:
    """One ingredient of the recipe: what is needed, on hand and missing, and what it costs."""

    name: str
    needed: float
    on_hand: float
    unit: str
    cost: float | None

    @property
    def missing(self) -> float:
        """How much is not there."""
        return max(self.needed - self.on_hand, 0.0)


@dataclass(frozen=True, slots=True)
class OtherAlpha:
    """A hop whose bag on hand has another alpha acid than the recipe counts with."""

    line_id: int
    name: str
    in_recipe: float
    on_bag: float


def needs(recipe: Recipe, stock: tuple[Stock, ...]) -> tuple[Need, ...]:
    """Return what the recipe needs, the same ingredient of several lines once, in its order.

    Of one that is brewed by a plan it is what all its boils and fermenters take.
    """
    wanted: dict[tuple[str, str], tuple[str, float]] = {}
    for name, amount, unit in _asked(recipe):
        key = (name_key(name), unit)
        shown, before = wanted.get(key, (name, 0.0))
        wanted[key] = (shown, before + amount)
    return tuple(_need(name, amount, unit, stock) for (_, unit), (name, amount) in wanted.items())


def _asked(recipe: Recipe) -> Iterator[tuple[str, float, str]]:
    brewed = whole_recipe(recipe)
    lines: tuple[Fermentable | Hop, ...] = (*brewed.fermentables, *brewed.hops)
    for line in lines:
        if line.amount is not None and line.amount.value > 0.0:
            yield line.name, line.amount.value, "kg"
    yeasts = [yeast_of(recipe, each) for each in fermenters_of(recipe)]
    doses: tuple[Yeast | Extra, ...] = (*yeasts, *brewed.extras)
    for other in doses:
        if other.name and other.amount is not None and other.amount.value > 0.0:
            yield other.name, other.amount.value, other.amount.unit or "piece"


def _need(name: str, amount: float, unit: str, stock: tuple[Stock, ...]) -> Need:
    own = [each for each in stock if is_same_name(each.name, name)]
    there = sum(_in_unit(each, unit) for each in own)
    price = next((_price(each, unit) for each in own if _price(each, unit) is not None), None)
    return Need(name, amount, there, unit, None if price is None else price * amount)


def _in_unit(stock: Stock, unit: str) -> float:
    """How much of a stock there is in another unit; nothing where they cannot be compared."""
    if stock.unit == unit:
        return stock.amount
    factor = {("kg", "g"): 1000.0, ("g", "kg"): 0.001}.get((stock.unit, unit))
    return 0.0 if factor is None else factor * stock.amount


def _price(stock: Stock, unit: str) -> float | None:
    if stock.price_each is None:
        return None
    if stock.unit == unit:
        return stock.price_each
    factor = {("kg", "g"): 0.001, ("g", "kg"): 1000.0}.get((stock.unit, unit))
    return None if factor is None else factor * stock.price_each


def other_alphas(recipe: Recipe, stock: tuple[Stock, ...]) -> tuple[OtherAlpha, ...]:
    """Return the hops whose bag on hand says another alpha acid than the recipe."""
    bags = {name_key(each.name): each.alpha for each in stock if each.alpha is not None}
    found = []
    for hop in recipe.hops:
        bag = bags.get(name_key(hop.name))
        if bag is not None and not hop.locked and abs(bag - alpha_acid(hop)) > ALPHA_DIFFERS:
            found.append(OtherAlpha(hop.line_id, hop.name, alpha_acid(hop), bag))
    return tuple(found)


def take_bag(recipe: Recipe, other: OtherAlpha) -> ChangeLine:
    """Return the edit that takes the bag's alpha acid and the weight that holds the bitterness.

    A hop that brings no bitterness (a dry hop) keeps its weight.
    """
    alpha = typed(Kind.FRACTION, other.on_bag, ".4g")
    text = say("take-bag", "take the {name} that is in the cupboard", name=other.name)
    changed = ChangeLine("hops", other.line_id, (("alpha", alpha),), text)
    wanted = float(brew(recipe).beer.bitterness_ibu)
    after = changed.apply(recipe)
    aim = make_it(after, "bitterness_ibu", wanted, Means("hops", other.line_id, other.name))
    if aim.edit is None or float(brew(after).beer.bitterness_ibu) == wanted:
        return changed
    line = next(each for each in aim.edit.apply(after).hops if each.line_id == other.line_id)
    return changed._replace(changes=(("alpha", alpha), ("amount", line.amount)))


def take_bags(recipe: Recipe, stock: tuple[Stock, ...]) -> Edit | None:
    """Return the edit that takes every bag as it is, one after another; None if none differs."""
    edits: list[Edit] = []
    for other in other_alphas(recipe, stock):
        edit = take_bag(recipe, other)
        edits.append(edit)
        recipe = edit.apply(recipe)
    return Together(tuple(edits), edits[0].text) if edits else None
