"""Recipe files: one UTF-8 JSON document, quantities as text with units exactly as typed.

A failed load or save never touches the file on disk: saving writes beside it, flushes to the disk,
and moves the new file into place in one step.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from math import isclose
from pathlib import Path
from typing import Any

from designer.errors import DesignerError, RefusedInputError
from designer.library.catalogue_figures import FIGURES, emptied, with_figures
from designer.library.document_reading import FORMAT, LISTS, PARTS, recipe_from
from designer.library.file_bytes import bytes_of, clear_leftovers
from designer.library.file_bytes import write_whole as write_whole
from designer.library.json_text import parsed
from designer.library.upgrades import upgraded
from designer.recipe.document import PLAN_TYPES, Recipe, WortShare
from designer.recipe.fields import key_of
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.recipe.message import refused, say
from designer.recipe.quantity import Quantity, When
from designer.translation import labelled
from designer.units import is_clock

SUFFIX = ".hobwort"
ROUNDING = 0.01
"""How far, as a share, a number may be from what its text says; the text is then right."""


def load(path: Path) -> Recipe:
    """Return the recipe in a file.

    Raises RefusedInputError for what the file says, DesignerError for a file that cannot be read.
    """
    return read_document(text_of(path), str(path))


def text_of(path: Path) -> str:
    """Return the text of a file that is no larger than a recipe may be. Raises DesignerError."""
    return decoded(bytes_of(path, LARGEST_DOCUMENT_BYTES), str(path))


def decoded(raw: bytes, place: str) -> str:
    """Return the text of a file's bytes. Raises RefusedInputError."""
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise refused(
            "file-not-utf8",
            "{place}: byte {number} is not UTF-8 text; a recipe file is UTF-8.",
            place=place,
            number=fault.start,
        ) from None


def read_document(text: str, place: str) -> Recipe:
    """Return the recipe of a document's text, with figures left out copied from the catalogue.

    `place` (a path) stands before each problem. Raises RefusedInputError.
    """
    try:
        document = upgraded(parsed(text))
        return with_figures(recipe_from(document), document)
    except RefusedInputError as fault:
        raise RefusedInputError([labelled(place, each) for each in fault.problems]) from None


def document_of(recipe: Recipe) -> dict[str, Any]:
    """Return the recipe as plain values in the order of the file; what is left out stays out."""
    document: dict[str, Any] = {"hobwort": FORMAT}
    for key in Recipe.__dataclass_fields__:
        value = getattr(recipe, key)
        if key in LISTS:
            document[key] = [_part_of(line) | _emptied(key, line) for line in value]
        elif key in PLAN_TYPES:
            if value:
                document[key] = [_planned(each) for each in value]
        elif key in PARTS:
            part = _part_of(value)
            if key in FIGURES:
                part |= _emptied(key, value)
            if part:
                document[key] = part
        elif value or key == "name":
            document[key] = value
    return document


def _planned(part: Any) -> dict[str, Any]:
    """Return a boil or a fermenter of the plan, with the parts and lines that are its own."""
    values: dict[str, Any] = {}
    for each in fields(part):
        value, key = getattr(part, each.name), key_of(each)
        if value is None or value == each.default:
            continue
        if isinstance(value, tuple):
            values[key] = [_own(each.name, line) for line in value]
        elif isinstance(value, Quantity):
            values[key] = value.text
        elif "part" in each.metadata:
            values[key] = _own(each.name, value)
        else:
            values[key] = value
    return values


def _own(name: str, part: Any) -> dict[str, Any]:
    if isinstance(part, WortShare):
        return {"boil": part.boil} | _planned(part)
    return _part_of(part) | (_emptied(name, part) if name in FIGURES else {})


def _emptied(key: str, part: Any) -> dict[str, Any]:
    """The figures that are left empty on purpose: else the catalogue would fill them again."""
    return {name: getattr(part, name) for name in emptied(key, part)}


def _part_of(part: Any) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for each in fields(part):
        value = getattr(part, each.name)
        if each.name == "line_id" or value is None:
            continue
        if each.metadata.get("clock") and not is_clock(value):
            continue  # half typed: it counts as left out, or the file could not be opened again
        if isinstance(value, (Quantity, When)):
            values[each.name] = value.text
        elif value != each.default or each.name in ("name", "kind", "form"):
            values[each.name] = value
    if values.keys() <= {"name", "kind", "form"} and "amount" not in dir(part):
        return {key: value for key, value in values.items() if value != _default(part, key)}
    return values


def _default(part: Any, key: str) -> object:
    return next(each.default for each in fields(part) if each.name == key)


def document_text(recipe: Recipe) -> str:
    """Return the text of the recipe's file: readable, one ingredient a line where it fits."""
    document = document_of(recipe)
    rows = [f"  {json.dumps(key)}: {_value_text(value)}" for key, value in document.items()]
    return "{\n" + ",\n".join(rows) + "\n}\n"


def _value_text(value: object) -> str:
    if isinstance(value, list):
        if not value:
            return "[]"
        lines = ",\n".join(f"    {json.dumps(each, ensure_ascii=False)}" for each in value)
        return f"[\n{lines}\n  ]"
    if isinstance(value, dict) and len(value) > 4:
        lines = ",\n".join(
            f"    {json.dumps(key)}: {json.dumps(each, ensure_ascii=False)}"
            for key, each in value.items()
        )
        return f"{{\n{lines}\n  }}"
    return json.dumps(value, ensure_ascii=False)


def save(recipe: Recipe, path: Path, *, instead_of: bytes | None = None) -> bytes:
    """Write the recipe to a file in one move and return its bytes, which were read back.

    The old file stays whole if anything goes wrong; with `instead_of` only a file of that content
    is replaced. Raises ChangedFileError and DesignerError.
    """
    content = checked_text(recipe, str(path)).encode("utf-8")
    write_whole(path, content, instead_of=instead_of)
    if bytes_of(path, LARGEST_DOCUMENT_BYTES) != content:
        raise DesignerError(
            say(
                "disk-gives-back-otherwise",
                "{path} was written, but the disk gives back something else. Save under another "
                "name, on another disk.",
                path=path,
            )
        )
    clear_leftovers(path)
    return content


def checked_text(recipe: Recipe, place: str) -> str:
    """Return the text of the recipe's file, which was found to give the same recipe again.

    Raises DesignerError for a recipe that could not be opened again.
    """
    text = document_text(recipe)
    try:
        again = recipe_from(upgraded(parsed(text)))
    except RefusedInputError as fault:
        raise DesignerError(
            say(
                "would-not-open-again",
                "{place} was not written, since it could not be opened again: {problems}. What "
                "was there before is untouched.",
                place=place,
                problems=fault.problems[0],
            )
        ) from None
    if document_text(again) != text or not _same_numbers(recipe, again):
        raise DesignerError(
            say(
                "would-be-another-recipe",
                "{place} was not written, since another recipe would be read from it. What was "
                "there before is untouched; what is open stays in the window.",
                place=place,
            )
        )
    return text


def _same_numbers(recipe: Recipe, again: Recipe) -> bool:
    """Whether every quantity of a recipe is read from its text as the number that it is."""
    return all(
        isclose(value.value, read.value, rel_tol=ROUNDING, abs_tol=1e-9)
        for value, read in _pairs(recipe, again)
    )


def _pairs(value: Any, read: Any) -> Iterator[tuple[Quantity, Quantity]]:
    """Yield the quantities of a part, and of the parts within it, with those that were read."""
    if isinstance(value, Quantity):
        yield value, read
    elif isinstance(value, tuple):
        for one, other in zip(value, read, strict=True):
            yield from _pairs(one, other)
    elif is_dataclass(value):
        for each in fields(value):
            yield from _pairs(getattr(value, each.name), getattr(read, each.name))
