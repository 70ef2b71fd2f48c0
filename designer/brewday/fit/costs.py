"""What a recipe or a way costs: what is used of what there is, and what is bought in whole packs.

A price that is not known is never taken for nothing: what it is part of is not known either. The
price of a line is that of its amount in the recipe.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import inf

from designer.brewday.fit.answer import Costs, ToBuy
from designer.brewday.fit.leftovers import used_of
from designer.brewday.fit.packets import packets_of
from designer.recipe.document import Recipe, Yeast
from designer.recipe.edits import LISTS
from designer.recipe.named import Line, lines_of
from designer.recipe.plan import as_written, boils_of, fermenters_of, recipe_of_boil, yeast_of


def cost(recipe: Recipe) -> float | None:
    """Return the price of what goes into a recipe, yeast and extras included.

    Of a planned recipe it is that of what its boils take and its fermenters are pitched with; what
    that is beyond what is written is priced alike.
    """
    boils = tuple(recipe_of_boil(recipe, place) for place, _ in enumerate(boils_of(recipe), 1))
    yeasts = [yeast_of(recipe, each) for each in fermenters_of(recipe)]
    others = [each for each in yeasts if each.name != recipe.yeast.name]
    written = as_written(recipe)
    if len(others) == len(yeasts):
        written = replace(written, yeast=Yeast(name=""))
    used = _used(written, boils, len(yeasts) - len(others), (), most=inf)
    prices = (None if each.price is None else each.price.value for each in others)
    return _sum((used, *prices))


def costs(
    original: Recipe, recipes: Iterable[Recipe], fermenters: int, bought: Sequence[ToBuy]
) -> Costs:
    """Return what boils of a recipe cost, where this is bought for them."""
    used = _used(original, tuple(recipes), fermenters, bought)
    to_buy = _sum(each.price for each in bought)
    eaten = _sum(each.price for each in bought if each.kind)
    return Costs(used, to_buy, _sum((used, eaten)))


def _sum(prices: Iterable[float | None]) -> float | None:
    total = 0.0
    for each in prices:
        if each is None:
            return None
        total += each
    return total


def _used(
    original: Recipe,
    boils: Sequence[Recipe],
    fermenters: int,
    bought: Sequence[ToBuy],
    most: float = 1.0,
) -> float | None:
    """Return the price of what is used: of a line or of the yeast `most` times what is written."""
    if _has_others(original, boils, bought):
        return None
    shares = (
        _share_used(original, boils, lines, line, most)
        for lines in LISTS
        for line in lines_of(original, lines)
    )
    return _sum((*shares, _yeast_used(original, boils, fermenters, most)))


def _share_used(
    original: Recipe, boils: Sequence[Recipe], lines: str, line: Line, most: float
) -> float | None:
    price, amount = line.price, line.amount
    if price is None or amount is None or amount.value <= 0.0:
        return None
    used = sum(used_of(each, lines, line, original) for each in boils)
    return float(price.value * min(used / amount.value, most))


def _yeast_used(
    original: Recipe, boils: Sequence[Recipe], fermenters: int, most: float
) -> float | None:
    yeast = original.yeast
    if yeast.price is None:
        return None if yeast.name else 0.0
    there = packets_of(yeast)
    used = max([fermenters, *(packets_of(each.yeast) for each in boils)])
    return yeast.price.value * min(used / there, most)


def _has_others(original: Recipe, boils: Sequence[Recipe], bought: Sequence[ToBuy]) -> bool:
    """Tell whether hops go in that are neither the recipe's nor bought: their price is unknown."""
    known = {line.line_id for lines in LISTS for line in lines_of(original, lines)}
    names = {each.what for each in bought if each.kind}
    return any(
        hop.line_id not in known and hop.name not in names for boil in boils for hop in boil.hops
    )
