"""The JSON Schema of a recipe file, made from the declarations of the fields."""

from __future__ import annotations

from dataclasses import Field, fields
from typing import Any

from designer.library.document_reading import FORMAT, LISTS, PARTS
from designer.recipe.document import Recipe
from designer.recipe.fields import FieldFacts, default_text_of, key_of, label_of
from designer.recipe.kinds import KINDS
from designer.recipe.limits import LONGEST_QUANTITY, LONGEST_WORDS, MOST_LINES
from designer.units.clock import CLOCK_ACCEPTED, CLOCK_PATTERN
from designer.units.reading import WHEN_ACCEPTED


def schema() -> dict[str, Any]:
    """Return the schema, draft 2020-12. Limits of quantities are told in words: they are text."""
    properties: dict[str, Any] = {
        "hobwort": {"const": FORMAT, "description": "Number of the file format."}
    }
    for each in fields(Recipe):
        if each.name in LISTS:
            properties[each.name] = {
                "type": "array",
                "maxItems": MOST_LINES,
                "items": _part(LISTS[each.name]),
            }
        elif each.name in PARTS:
            properties[each.name] = _part(PARTS[each.name])
        else:
            properties[each.name] = _field(each)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Hobwort recipe",
        "type": "object",
        "required": ["hobwort"],
        "additionalProperties": False,
        "properties": properties,
    }


def _part(of: type) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "properties": {key_of(each): _field(each) for each in fields(of) if each.name != "line_id"},
    }


def _field(each: Field[Any]) -> dict[str, Any]:
    facts: FieldFacts | None = each.metadata.get("facts")
    if facts is not None:
        described = f"{_described(each, KINDS[facts.kind].accepted)}; null: left empty on purpose"
        types = ["string", "null"]
        return {"type": types, "maxLength": LONGEST_QUANTITY, "description": described}
    if "part" in each.metadata:
        return {"description": _described(each), **_part(each.metadata["part"])}
    if "parts" in each.metadata:
        return {
            "type": "array",
            "description": _described(each),
            "maxItems": each.metadata["most"],
            "items": _part(each.metadata["parts"]),
        }
    if "whole" in each.metadata:
        low, high = each.metadata["whole"]
        described = f"{each.metadata['label']}; left out: {each.default}"
        return {"type": "integer", "minimum": low, "maximum": high, "description": described}
    if each.name == "when":
        described = f"One of: {WHEN_ACCEPTED}"
        return {"type": "string", "maxLength": LONGEST_QUANTITY, "description": described}
    if each.name == "locked":
        return {"type": "boolean", "description": each.metadata["label"]}
    if each.metadata.get("clock"):
        described = f"{each.metadata['label']}: {CLOCK_ACCEPTED}; left out: {each.default}"
        return {"type": "string", "pattern": f"^{CLOCK_PATTERN}$", "description": described}
    choices = each.metadata.get("choices")
    listed = {"enum": list(choices)} if choices else {"maxLength": LONGEST_WORDS}
    described = each.metadata["label"] + (f"; left out: {each.default}" if each.default else "")
    return {"type": "string", "description": described, **listed}


def _described(each: Field[Any], accepted: str = "") -> str:
    """Say what a field is, what it takes and what is taken where it is left out."""
    label, default = label_of(each), default_text_of(each)
    said = f"{label}: {accepted}" if accepted else label
    return f"{said}; left out: {default}" if default else said
