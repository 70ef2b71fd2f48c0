"""Changed copies of a recipe with amounts as a kitchen measures them, and the edit between two."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from designer.brewday.day import run_day
from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Day
from designer.brewday.tolerances import Nominal
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.edits import (
    LISTS,
    PARTS,
    AddLine,
    ChangeLine,
    ChangeRecipe,
    Edit,
    RemoveLines,
    Together,
    with_amount,
)
from designer.recipe.kinds import typed
from designer.recipe.message import Message
from designer.recipe.named import lines_of, value_of
from designer.recipe.quantity import Kind, Quantity, Stage, When

WATER_STEP_L = 0.1
EXTRACT_STEP_KG = 0.005
HOP_STEP_KG = 0.0005
"""Steps of a kitchen scale and of a measuring jug; common practice, no source."""


MOST_KEPT = 256
"""Days of recipes that are asked for again while a kitchen is searched."""


def quick_day(recipe: Recipe) -> Day:
    """Return the day without its time line: what the pot's fullness needs is not kept.

    Searches come by the same recipe again and again: its day is run once. It is shared, so not to
    be changed.
    """
    numbers = tuple(line.line_id for name in LISTS for line in lines_of(recipe, name))
    return _quick_day(recipe, numbers)


def forget_days() -> None:
    """Forget the days that were run, so that what a search takes by itself can be measured."""
    _quick_day.cache_clear()


@lru_cache(MOST_KEPT)
def _quick_day(recipe: Recipe, _numbers: tuple[int, ...]) -> Day:
    """Run the day; equal recipes whose lines are numbered otherwise are others to a day."""
    return run_day(recipe, Nominal(), noting=False)[0]


def forecast(recipe: Recipe, key: str) -> float:
    """Return one forecast of the recipe as typed."""
    return float(BY_KEY[key].compute(quick_day(recipe)))


def litres(value: float) -> Quantity:
    """Return a volume as it would be typed."""
    return typed(Kind.VOLUME, round(value, 3))


def mass(kg: float) -> Quantity:
    """Return a mass as it would be typed, to a tenth of a gram."""
    return typed(Kind.MASS, round(kg, 4))


def boil_left(minutes: float) -> When:
    """Return the time that is so many minutes before the end of the boil."""
    return When(Stage.BOIL, f"boil {minutes:g} min", float(minutes))


def with_process(recipe: Recipe, **changes: Any) -> Recipe:
    """Return the recipe with fields of the process set."""
    return replace(recipe, process=replace(recipe.process, **changes))


def with_water(recipe: Recipe, start_l: float) -> Recipe:
    """Return the recipe with so much water to start; text and all stay if it is that already."""
    typed = recipe.process.start_water
    if typed is not None and abs(typed.value - start_l) < 1e-9:
        return recipe
    return with_process(recipe, start_water=litres(start_l))


def with_mark(recipe: Recipe, mark_l: float) -> Recipe:
    """Return the recipe topped up to another mark."""
    typed = recipe.process.top_up_to
    if typed is not None and abs(typed.value - mark_l) < 1e-9:
        return recipe
    return with_process(recipe, top_up_to=litres(mark_l))


def line_kg(line: Fermentable | Hop) -> float:
    """Return the mass of a line, 0 where none is typed."""
    return line.amount.value if line.amount is not None else 0.0


def with_amounts(recipe: Recipe, kg: Mapping[int, float]) -> Recipe:
    """Return the recipe with other masses for the lines of those ids; equal ones stay."""
    return replace(
        recipe,
        fermentables=tuple(_weighed(line, kg) for line in recipe.fermentables),
        hops=tuple(_weighed(hop, kg) for hop in recipe.hops),
    )


def _weighed(line: Any, kg: Mapping[int, float]) -> Any:
    wanted = kg.get(line.line_id)
    if wanted is None or line.amount is None or abs(wanted - line.amount.value) < 1e-9:
        return line
    return in_part(line, wanted)


def in_part(line: Any, kg: float) -> Any:
    """Return the line with so many kilograms; a kit's label stays that of the whole tin."""
    return replace(line, **dict(with_amount(line, mass(kg))))


def without_empty_lines(recipe: Recipe) -> Recipe:
    """Return the recipe without the lines whose amount has come down to nothing."""

    def kept(lines: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(each for each in lines if each.amount is None or each.amount.value > 0.0)

    return replace(recipe, fermentables=kept(recipe.fermentables), hops=kept(recipe.hops))


def edit_between(old: Recipe, new: Recipe, text: Message) -> Together:
    """Return the one edit that makes `new` of `old`, part by part and line by line.

    Lines are the same where their line_id is; the order of new lines is that of `new`, at the end.
    """
    edits: list[Edit] = [
        ChangeRecipe(name, value_of(new, name), text)
        for name in ("name", "style", "notes", *PARTS)
        if value_of(old, name) != value_of(new, name)
    ]
    for lines in LISTS:
        edits += _line_edits(lines, lines_of(old, lines), lines_of(new, lines), text)
    return Together(tuple(edits), text)


def _line_edits(
    lines: str, old: tuple[Any, ...], new: tuple[Any, ...], text: Message
) -> list[Edit]:
    before = {line.line_id: line for line in old}
    after = {line.line_id for line in new}
    gone = frozenset(before.keys() - after)
    edits: list[Edit] = [RemoveLines(lines, gone, text)] if gone else []
    for position, line in enumerate(new):
        known = before.get(line.line_id)
        if known is None:
            edits.append(AddLine(lines, line, text, position))
        elif known != line:
            changes = tuple(
                (name, value_of(line, name))
                for name in line.__dataclass_fields__
                if name != "line_id" and value_of(line, name) != value_of(known, name)
            )
            edits.append(ChangeLine(lines, line.line_id, changes, text))
    return edits
