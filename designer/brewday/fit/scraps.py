"""No scraps: a twentieth of a tin, a bag or a line, or less, is not kept: it goes in as well.

Thirty grams of syrup in a tin draw mould before anyone wants them, and a gram of hops is no
addition. Grain, hops and finings are rounded up to all there is; where extract would be left, the
volume has to follow, and all of it in a little less water is a way of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from designer.brewday.fit.changed_recipe import in_part
from designer.recipe.choices import is_grain
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import LISTS
from designer.recipe.named import lines_of

SCRAP = 0.05
"""A share of a pack that nobody keeps; a judgement, no source."""


def used_up(original: Recipe, made: Recipe) -> Recipe:
    """Return a recipe made of the original with all of each line of which but a scrap was left.

    Extract stays as it is: it makes the gravity.
    """
    whole = {
        (lines, old.line_id): old.amount
        for lines, old, _ in _nearly_whole(original, made)
        if not _is_extract(old)
    }

    def filled_up(lines: str) -> tuple[Any, ...]:
        return tuple(
            _with_amount_of(each, whole.get((lines, each.line_id)), lines)
            for each in lines_of(made, lines)
        )

    if not whole:
        return made
    return replace(
        made,
        fermentables=filled_up("fermentables"),
        hops=filled_up("hops"),
        extras=filled_up("extras"),
    )


def leaves_scraps_of_extract(original: Recipe, made: Recipe) -> bool:
    """Tell whether a recipe made of the original leaves a scrap in a tin or bag of extract."""
    return any(_is_extract(old) for _, old, _ in _nearly_whole(original, made))


def scraps_left(original: Recipe, boils: Sequence[Recipe]) -> bool:
    """Tell whether several boils together leave a scrap of a line."""
    for lines in ("fermentables", "hops"):
        for old in lines_of(original, lines):
            used = sum(
                each.amount.value
                for boil in boils
                for each in lines_of(boil, lines)
                if each.line_id == old.line_id and each.amount is not None
            )
            if old.amount is not None and scrap_of(old.amount.value, used) > 5e-5:
                return True
    return False


def scrap_of(whole: float, used: float) -> float:
    """Return what is left of a pack if that is but a scrap; else 0."""
    left = whole - used
    return left if 1e-9 < left <= SCRAP * whole + 1e-9 else 0.0


def _nearly_whole(original: Recipe, made: Recipe) -> Iterator[tuple[str, Any, Any]]:
    for lines in LISTS:
        new = {each.line_id: each for each in lines_of(made, lines)}
        for old in lines_of(original, lines):
            now = new.get(old.line_id)
            amounts = old.amount, now.amount if now is not None else None
            if amounts[0] is None or amounts[1] is None:
                continue
            if scrap_of(amounts[0].value, amounts[1].value) > 0.0:
                yield lines, old, now


def _is_extract(line: Any) -> bool:
    return isinstance(line, Fermentable) and not is_grain(line.kind)


def _with_amount_of(line: Any, amount: Any, lines: str) -> Any:
    if amount is None:
        return line
    return replace(line, amount=amount) if lines == "extras" else in_part(line, amount.value)
