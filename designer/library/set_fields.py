"""One field of a part of a recipe set from text, as a file would hold it."""

from __future__ import annotations

from dataclasses import Field, fields, replace
from typing import Any

from designer.errors import RefusedInputError
from designer.library.document_reading import field_value
from designer.library.problems import Problems
from designer.recipe.fields import key_of
from designer.recipe.message import refused
from designer.recipe.quantity import Quantity
from designer.units.numbers import normalised
from designer.units.writing import UNITLESS, is_bare, unit_of


def known_fields(part: Any) -> dict[str, Field[Any]]:
    """Return the fields of a part by their names in a file."""
    return {key_of(each): each for each in fields(part) if each.name != "line_id"}


def with_field(part: Any, key: str, text: str, place: str) -> Any:
    """Return a part with the field of that key set from text. Raises RefusedInputError."""
    known = known_fields(part)
    if key not in known:
        raise refused(
            "no-such-field",
            "{place}: no such field; there are {known}",
            place=place,
            known=", ".join(sorted(known)),
        )
    faults = Problems()
    each = known[key]
    found, facts = _typed(each, text), each.metadata.get("facts")
    if facts is not None and facts.kind not in UNITLESS and is_bare(normalised(text.strip())):
        now: Quantity | None = getattr(part, each.name)
        found = f"{text} {unit_of(now.text if now is not None else facts.default_text)}".strip()
    value = field_value(each.name, each.metadata, found, place, faults, kept=False)
    if faults:
        raise RefusedInputError(faults.lines())
    return replace(part, **{each.name: value})


def _typed(each: Field[Any], text: str) -> object:
    """Return a text as a document would hold it: a lock and a whole number are no texts there."""
    if each.name == "locked":
        return {"true": True, "false": False}.get(text, text)
    if "whole" in each.metadata and text.strip().isdecimal():
        return int(text.strip()[:9])
    return text
