"""Fields of a recipe named as text, such as `process.top_up_to` or `hops.2.alpha`."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from designer.errors import RefusedInputError
from designer.library.document_reading import LISTS, PARTS, field_value
from designer.library.problems import Problems
from designer.recipe.document import Recipe
from designer.recipe.fields import FieldFacts
from designer.recipe.message import refused
from designer.recipe.named import lines_of, part_of
from designer.recipe.place import Place, read_place
from designer.recipe.quantity import Quantity
from designer.units.numbers import normalised
from designer.units.quoting import one_line
from designer.units.writing import UNITLESS, is_bare, unit_of

LONGEST_PLACE = 80
"""Characters of a place that are repeated where there is none such."""


def set_field(recipe: Recipe, place: str, text: str) -> Recipe:
    """Return the recipe with one field set from text; lines are counted from 1.

    A bare number takes the unit of what stands in the field, else that of its default.

    Raises RefusedInputError for a place that is not there, or a text that it does not take.
    """
    found, place = read_place(place), one_line(place)[:LONGEST_PLACE]
    if found.of in PARTS and found.field and found.line is None:
        part = _with(part_of(recipe, found.of), found.field, text, place)
        return replace(recipe, **{found.of: part})
    if found.of in LISTS and found.field and found.line is not None:
        lines = list(lines_of(recipe, found.of))
        if not 1 <= found.line <= len(lines):
            raise refused(
                "no-line-of-that-number",
                "{place}: {first} has {lines} lines, counted from 1",
                place=place,
                first=found.of,
                lines=len(lines),
            )
        lines[found.line - 1] = _with(lines[found.line - 1], found.field, text, place)
        changes: dict[str, Any] = {found.of: tuple(lines)}
        return replace(recipe, **changes)
    if found in (Place("name"), Place("style"), Place("notes")):
        return _with(recipe, found.of, text, place)  # type: ignore[no-any-return]
    raise refused(
        "no-such-place",
        "{place}: no such place; name, process.boil_time or hops.1.amount are such places",
        place=place,
    )


def _with(part: Any, name: str, text: str, place: str) -> Any:
    known = {each.name: each for each in fields(part) if each.name != "line_id"}
    if name not in known:
        raise refused(
            "no-such-field",
            "{place}: no such field; there are {known}",
            place=place,
            known=", ".join(sorted(known)),
        )
    faults = Problems()
    found: object = {"true": True, "false": False}.get(text, text) if name == "locked" else text
    facts: FieldFacts | None = known[name].metadata.get("facts")
    if facts is not None and facts.kind not in UNITLESS and is_bare(normalised(text.strip())):
        now: Quantity | None = getattr(part, name)
        found = f"{text} {unit_of(now.text if now is not None else facts.default_text)}".strip()
    value = field_value(name, known[name].metadata, found, place, faults, kept=False)
    if faults:
        raise RefusedInputError(faults.lines())
    return replace(part, **{name: value})
