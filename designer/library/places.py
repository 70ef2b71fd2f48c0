"""Fields of a recipe named as text: `process.top_up_to`, `hops.2.alpha`, `boils.1.pot.volume`."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.library.document_reading import LISTS, PARTS
from designer.library.plan_places import in_plan
from designer.library.set_fields import with_field
from designer.recipe.document import LINE_TYPES, PLAN_TYPES, Recipe
from designer.recipe.edits import next_line_id
from designer.recipe.limits import MOST_LINES
from designer.recipe.message import refused
from designer.recipe.named import lines_of, part_of
from designer.recipe.place import Place, read_place
from designer.units.quoting import one_line

LONGEST_PLACE = 80
"""Characters of a place that are repeated where there is none such."""


def set_field(recipe: Recipe, place: str, text: str) -> Recipe:
    """Return the recipe with one field set from text; lines are counted from 1.

    A bare number takes the unit of what stands in the field, else that of its default. The name of
    a line more than there are puts one in. Whether the plan of the recipe can then be brewed by is
    not asked: other changes may follow.

    Raises RefusedInputError for a place that is not there, or a text that it does not take.
    """
    words = place.strip().split(".")
    found, place = read_place(place), one_line(place)[:LONGEST_PLACE]
    if words[0] in PLAN_TYPES:
        return in_plan(recipe, words, text, place)
    if found.of in PARTS and found.field and found.line is None:
        part = with_field(part_of(recipe, found.of), found.field, text, place)
        return replace(recipe, **{found.of: part})
    if found.of in LISTS and found.field and found.line is not None:
        lines = list(lines_of(recipe, found.of))
        if found.line == len(lines) + 1 <= MOST_LINES and found.field == "name":
            lines.append(replace(LINE_TYPES[found.of](), line_id=next_line_id(recipe)))
        if not 1 <= found.line <= len(lines):
            raise refused(
                "no-line-of-that-number",
                "{place}: {first} has {lines} lines, counted from 1",
                place=place,
                first=found.of,
                lines=len(lines),
            )
        lines[found.line - 1] = with_field(lines[found.line - 1], found.field, text, place)
        changes: dict[str, Any] = {found.of: tuple(lines)}
        return replace(recipe, **changes)
    if found in (Place("name"), Place("style"), Place("notes")):
        return with_field(recipe, found.of, text, place)  # type: ignore[no-any-return]
    raise refused(
        "no-such-place",
        "{place}: no such place; name, process.boil_time or hops.1.amount are such places",
        place=place,
    )
