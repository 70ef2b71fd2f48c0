"""What a way leaves over, line by line, and how to keep it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from designer.brewday.fit.answer import LeftOver
from designer.brewday.fit.changed_recipe import mass
from designer.brewday.fit.keeping import EXTRAS, HOPS, KEEPING, YEAST
from designer.brewday.fit.packets import packets_of, so_many
from designer.recipe.document import Fermentable, Hop, Recipe, Yeast
from designer.recipe.edits import LISTS
from designer.recipe.kinds import typed
from designer.recipe.named import Line, lines_of
from designer.recipe.quantity import Kind, Quantity


def kind_of(line: Line) -> str:
    """Return of what kind a line is: a fermentable's own, "hops" or "extras"."""
    if isinstance(line, Fermentable):
        return line.kind
    return HOPS if isinstance(line, Hop) else EXTRAS


def left_over(
    original: Recipe, recipes: Iterable[Recipe], fermenters: int = 1
) -> tuple[LeftOver, ...]:
    """Return what of the original's lines none of the recipes uses, a tenth of a gram or more.

    Of yeast the packets that stay closed, where so many fermenters are filled.
    """
    boils = tuple(recipes)
    found: list[LeftOver] = []
    for lines in LISTS:
        for line in lines_of(original, lines):
            amount = line.amount
            if amount is None:
                continue
            rest = amount.value - sum(used_of(each, lines, line, original) for each in boils)
            if rest > (1e-3 if lines == "extras" else 5e-5):
                left = _dose(rest, amount) if lines == "extras" else mass(rest)
                kept = KEEPING[kind_of(line)]
                found.append(LeftOver(lines, line.line_id, line.name, left, kept))
    return (*found, *_packets_left(original.yeast, boils, fermenters))


def kept_for(recipe: Recipe) -> tuple[LeftOver, ...]:
    """Return all that goes into a brew of another day, and how it is kept till then."""
    return tuple(
        LeftOver(lines, line.line_id, line.name, line.amount, KEEPING[kind_of(line)])
        for lines in LISTS
        for line in lines_of(recipe, lines)
        if line.amount is not None and line.amount.value > 0.0
    )


def _packets_left(yeast: Yeast, boils: Sequence[Recipe], fermenters: int) -> Iterator[LeftOver]:
    used = max([fermenters, *(packets_of(each.yeast) for each in boils)])
    left = so_many(yeast, packets_of(yeast) - used) if packets_of(yeast) > used else None
    if yeast.name and left is not None:
        yield LeftOver("yeast", 0, yeast.name, left, KEEPING[YEAST])


def _dose(value: float, like: Quantity) -> Quantity:
    value = float(f"{value:.4g}")
    return typed(Kind.DOSE, value, unit=like.unit)


def used_of(recipe: Recipe, lines: str, line: Line, original: Recipe) -> float:
    """Return what a recipe uses of a line, with what was split off it under a new number."""
    known = {each.line_id for each in lines_of(original, lines)}
    used = 0.0
    for each in lines_of(recipe, lines):
        split_off = each.line_id not in known and each.name == line.name and lines == "fermentables"
        if each.amount is not None and (each.line_id == line.line_id or split_off):
            used += float(each.amount.value)
    return used
