"""Recipe files: one UTF-8 JSON document, quantities as text with units exactly as typed.

A failed load or save never touches the file on disk: saving writes beside it, flushes to the disk,
and moves the new file into place in one step.
"""

from __future__ import annotations

import json
import os
import tempfile
from contextlib import suppress
from dataclasses import fields
from pathlib import Path
from typing import Any

from designer.errors import DesignerError, RefusedInputError
from designer.library.document_reading import FORMAT, LISTS, PARTS, recipe_from
from designer.library.figures import with_figures
from designer.library.json_text import parsed
from designer.library.upgrades import upgraded
from designer.recipe.document import Recipe
from designer.recipe.quantity import Quantity, When
from designer.units import is_clock
from designer.units.quoting import one_line, quoted

LARGEST_FILE_BYTES = 5_000_000
SUFFIX = ".hobwort"
_ORDER = (
    "name", "style", "notes", "pot", "fermenter", "process", "methods", "fermentables", "hops",
    "yeast", "extras",
)  # fmt: skip


def load(path: Path) -> Recipe:
    """Return the recipe in a file.

    Raises RefusedInputError for what the file says, DesignerError for a file that cannot be read.
    """
    return read_document(text_of(path), str(path))


def text_of(path: Path) -> str:
    """Return the text of a file that is no larger than a recipe may be. Raises DesignerError."""
    try:
        if path.is_dir():
            raise DesignerError(f"{path} is a folder; give a recipe file inside it.")
        size = path.stat().st_size
        if size <= LARGEST_FILE_BYTES:
            with path.open("rb") as file:
                raw = file.read(LARGEST_FILE_BYTES + 1)
            size = len(raw)  # a device tells no size
        if size > LARGEST_FILE_BYTES:
            raise DesignerError(
                f"{path} has {size / 1e6:.0f} MB or more; a recipe has less than "
                f"{LARGEST_FILE_BYTES / 1e6:.0f} MB. It is not one of ours."
            )
    except FileNotFoundError:
        raise DesignerError(f"{path} is not there. Check the name and the folder.") from None
    except OSError as fault:
        raise DesignerError(f"{path} cannot be read: {_reason(fault)}.") from None
    except ValueError:
        raise DesignerError(f"{quoted(str(path), 80)} is no name that a file can have.") from None
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise RefusedInputError(
            f"{path}: byte {fault.start} is not UTF-8 text; a recipe file is UTF-8."
        ) from None


def _reason(fault: OSError) -> str:
    return (fault.strerror or str(fault)).lower()


def read_document(text: str, place: str) -> Recipe:
    """Return the recipe of a document's text, with figures left out copied from the catalogue.

    `place` (a path) stands before each problem. Raises RefusedInputError.
    """
    try:
        return with_figures(recipe_from(upgraded(parsed(text))))
    except RefusedInputError as fault:
        raise RefusedInputError([f"{place}: {problem}" for problem in fault.problems]) from None


def document_of(recipe: Recipe) -> dict[str, Any]:
    """Return the recipe as plain values in the order of the file; what is left out stays out."""
    document: dict[str, Any] = {"hobwort": FORMAT}
    for key in _ORDER:
        value = getattr(recipe, key)
        if key in LISTS:
            document[key] = [_part_of(line) for line in value]
        elif key in PARTS:
            part = _part_of(value)
            if part:
                document[key] = part
        elif value or key == "name":
            document[key] = value
    return document


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


def save(recipe: Recipe, path: Path) -> None:
    """Write the recipe to a file in one move; the old file stays whole if anything goes wrong.

    Raises DesignerError.
    """
    write_whole(path, document_text(recipe).encode("utf-8"))


def write_whole(path: Path, content: bytes) -> None:
    """Put `content` at `path`: write beside it, flush to the disk, move into place.

    Raises DesignerError that says what is wrong and that the old file is untouched.
    """
    beside = ""
    try:
        target = path.resolve() if path.is_symlink() else path
        if target.is_symlink():  # 3.13 resolves links in a circle to one of them
            raise RuntimeError
        if target.is_dir():
            raise DesignerError(f"{path} is a folder; give a file name inside it.")
        if target.exists() and not target.is_file():
            raise DesignerError(f"{path} is a device, not a file; give a file name.")
        handle, beside = tempfile.mkstemp(prefix=f".{target.name[:40]}-", dir=target.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(beside).chmod(_mode_of(target))
        Path(beside).replace(target)
        beside = ""
        _flush_folder(target.parent)
    except (OSError, ValueError, RuntimeError) as fault:  # RuntimeError: links in a circle
        reason = _reason(fault) if isinstance(fault, OSError) else "no name that a file can have"
        raise DesignerError(
            f"{one_line(str(path))[:200]} could not be written: {reason}. What was there before is "
            "untouched; save under another name or make room."
        ) from None
    finally:
        if beside:
            Path(beside).unlink(missing_ok=True)


def _mode_of(target: Path) -> int:
    """The rights of the file that is replaced, or those of a new one."""
    if target.exists():
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _flush_folder(folder: Path) -> None:
    """Make the move itself last through a power cut, where the system can.

    The new file is whole and in place by then, so a system that cannot is no failure to save.
    """
    if hasattr(os, "O_DIRECTORY"):
        with suppress(OSError):
            handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)
