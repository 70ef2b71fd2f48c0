"""How much of the extract may wait until near the end of the boil.

The weaker boil draws more from the hops and leaves room for more water at the start. As much waits
as the brewer allows, unless the beer would become more bitter than the original. A line that is
locked waits whole or not at all; another may be divided.
"""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.fit.answer import named
from designer.brewday.fit.changed_recipe import (
    EXTRACT_STEP_KG,
    boil_left,
    forecast,
    in_part,
    line_kg,
)
from designer.brewday.fit.draft_way import Kitchen
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.search import last_that_passes
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import next_line_id
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind, Stage, When

LATE_MIN = 15.0
"""Long enough to dissolve and to kill what is in it; 10 to 15 min, common practice, no source."""
PARTS = 20
"""The share that waits is sought in twentieths."""
LATE_KINDS = (
    FermentableKind.LIQUID_EXTRACT,
    FermentableKind.DRY_EXTRACT,
    FermentableKind.HOPPED_KIT,
    FermentableKind.SUGAR,
)


def early_lines(
    recipe: Recipe, late_min: float, kinds: tuple[FermentableKind, ...] = LATE_KINDS
) -> tuple[Fermentable, ...]:
    """Return the lines that could wait, in the order of `kinds`, the largest of each first.

    Liquid extract waits first as a rule: it darkens most.
    """
    early = [
        line
        for line in recipe.fermentables
        if line.kind in kinds
        and line_kg(line) > 0.0
        and (
            line.when.stage in (Stage.STEEP, Stage.FIRST_WORT)
            or (line.when.stage is Stage.BOIL and line.when.minutes > late_min)
        )
    ]
    return tuple(
        sorted(early, key=lambda line: (kinds.index(FermentableKind(line.kind)), -line_kg(line)))
    )


def late_min_for(recipe: Recipe) -> float:
    """Return how many whole minutes before the end late extract goes in."""
    return float(int(min(LATE_MIN, number(recipe.process, "boil_time") / 2.0)))


def held_late(kitchen: Kitchen, base: Recipe) -> tuple[Recipe, tuple[object, ...], float] | None:
    """Return the recipe with extract late, the names of what waits, and its minutes left.

    None where nothing can wait without making the beer more bitter than the original, or where the
    boil has no time for it.
    """
    minutes = late_min_for(base)
    most = int(PARTS * kitchen.wish.late_fraction + 1e-9)
    if minutes < 5.0 or not early_lines(base, minutes):
        return None
    made: dict[int, Recipe | None] = {}

    def too_bitter(parts: int) -> float:
        later = put_off(base, parts / PARTS, boil_left(minutes), early_lines(base, minutes))
        made[parts] = filled(
            later, kitchen.original, own_water_l(kitchen.recipe), hold_bitterness=False
        )
        best = made[parts]
        return 1.0 if best is None else forecast(best, "bitterness_ibu") - kitchen.original.most_ibu

    found = last_that_passes(too_bitter, 1, most)
    recipe = made.get(found) if found is not None else None
    waits = () if recipe is None else _waiting_late(base, recipe, minutes)
    return None if recipe is None or not waits else (recipe, waits, minutes)


def _waiting_late(base: Recipe, recipe: Recipe, minutes: float) -> tuple[object, ...]:
    return waiting(base, recipe, early_lines(base, minutes), boil_left(minutes))


def waiting(
    base: Recipe, recipe: Recipe, lines: tuple[Fermentable, ...], when: When
) -> tuple[object, ...]:
    """Return the names of what of these lines waits for `when`, with its weight where in part."""
    early = {line.line_id for line in lines}
    known = {line.line_id for line in base.fermentables}
    return tuple(
        named(line.name) if line.line_id in known else _part(line)
        for line in recipe.fermentables
        if line.when == when and (line.line_id in early or line.line_id not in known)
    )


def _part(line: Fermentable) -> Message:
    if line.amount is None:
        return say("part-of", "part of {name}", name=named(line.name))
    return say("so-much-of", "{0} of {name}", (Kind.MASS, line.amount.value), name=named(line.name))


def put_off(recipe: Recipe, share: float, when: When, early: tuple[Fermentable, ...]) -> Recipe:
    """Return the recipe with this share of lines that could wait put in at `when`, in order."""
    left = share * sum(line_kg(line) for line in early) + 1e-9
    late: dict[int, float] = {}
    for line in early:
        whole = line_kg(line)
        if whole <= left:
            late[line.line_id] = whole
        elif not line.locked and left > 0.05 * whole:
            late[line.line_id] = round(round(left / EXTRACT_STEP_KG) * EXTRACT_STEP_KG, 6)
        left -= late.get(line.line_id, 0.0)
        if left <= 0.0:
            break
    return _retimed(recipe, late, when)


def _retimed(recipe: Recipe, late: dict[int, float], when: When) -> Recipe:
    lines: list[Fermentable] = []
    new_id = next_line_id(recipe)
    for line in recipe.fermentables:
        kg = late.get(line.line_id, 0.0)
        if kg >= line_kg(line) - 1e-9 and kg > 0.0:
            lines.append(replace(line, when=when))
        elif kg > 0.0:
            lines.append(in_part(line, line_kg(line) - kg))
            lines.append(replace(in_part(line, kg), when=when, line_id=new_id))
            new_id += 1
        else:
            lines.append(line)
    return replace(recipe, fermentables=tuple(lines))
