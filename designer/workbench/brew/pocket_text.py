"""The text in which a phone hands over the log of a brew, found in whatever it was pasted with.

    HOBWORT BREW 1
    ZAX4K…            Z packed, P plain; base32 (RFC 4648) of JSON and its CRC-32
    0 END

Signs are those that neither mails nor messages change; breaks, blanks and marks of quoting among
them count for nothing. `0` is none of them and ends the log. The JSON holds the recipe as it was
brewed, and the entries in rows of number, seconds since the first, what, and values.
"""

from __future__ import annotations

import base64
import binascii
import json
import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from designer.library.recipe_file import read_document
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.workbench.brew.entry_values import number_in, text_in

FORM = 1
LARGEST_BYTES = 2_000_000
"""A day's log is a hundredth of it: what unpacks to more was never one."""
_FOUND = re.compile(r"HOBWORT[\W_]*BREW[\W_]*(\d+)([^0]*)0?", re.IGNORECASE)
_TOKEN = re.compile(r"[0-9a-f]{4,32}")
_DEFLATED = -zlib.MAX_WBITS


@dataclass(frozen=True, slots=True)
class PocketRow:
    """What a phone wrote: its number, when by the phone's clock, what, and the values of it."""

    number: int
    wall: float
    what: str
    values: dict[str, Any]


@dataclass(frozen=True, slots=True)
class PocketLog:
    """A brew as a phone kept it: `brewing` is its own name, `recipe_id` that of the recipe."""

    recipe: Recipe
    document: str
    recipe_id: str
    brewing: str
    shown: str
    rows: tuple[PocketRow, ...]

    @property
    def began(self) -> float:
        """When its first entry was written, seconds since 1970."""
        return min(each.wall for each in self.rows)


def read_pocket(text: str) -> PocketLog:
    """Return the log that a text holds, the last where there are several.

    Raises RefusedInputError where there is none, or where it did not come whole.
    """
    found = list(_FOUND.finditer(text))
    if not found:
        raise refused(
            "no-pocket-log",
            "There is no log of a phone in this text. Copy all of it, from HOBWORT BREW to END.",
        )
    if int(found[-1].group(1)) > FORM:
        raise refused(
            "newer-pocket-log",
            "This log comes from a page that a newer Hobwort made; take it in with that one.",
        )
    return _log_of(_unpacked(found[-1].group(2)))


def _damaged() -> Exception:
    return refused(
        "damaged-pocket-log",
        "Some of this text is missing or was changed on its way. Copy all of it once more, from "
        "HOBWORT BREW to END, or bring the file.",
    )


def _unpacked(body: str) -> dict[str, Any]:
    signs = re.sub(r"[^A-Z2-7]", "", body.upper())
    form, signs = signs[:1], signs[1:]
    try:
        raw = base64.b32decode(signs + "=" * (-len(signs) % 8))
        packed, told = raw[:-4], int.from_bytes(raw[-4:], "big")
        plain = _inflated(packed) if form == "Z" else packed
        if form not in ("Z", "P") or zlib.crc32(plain) != told:
            raise _damaged()
        values = json.loads(plain)
    except (binascii.Error, zlib.error, ValueError, RecursionError):
        raise _damaged() from None
    if not isinstance(values, dict):
        raise _damaged()
    return values


def _inflated(packed: bytes) -> bytes:
    unpacking = zlib.decompressobj(_DEFLATED)
    plain = unpacking.decompress(packed, LARGEST_BYTES)
    if not unpacking.eof:
        raise ValueError("cut off, or too large")
    return plain


def _log_of(values: dict[str, Any]) -> PocketLog:
    brewing, document = text_in(values, "brewing"), text_in(values, "document")
    began, given = number_in(values, "began"), values.get("rows")
    rows = tuple(_rows(given, began or 0.0)) if isinstance(given, list) else ()
    if _TOKEN.fullmatch(brewing) is None:
        raise _damaged()
    if not rows:
        raise refused("empty-pocket-log", "Nothing has been done in this log yet.")
    recipe = read_document(document, "the phone’s recipe")
    return PocketLog(
        recipe, document, text_in(values, "recipe"), brewing, text_in(values, "shown"), rows
    )


def _rows(given: list[Any], began: float) -> Iterator[PocketRow]:
    """All rows that can be read; values of a later page are kept as they are."""
    for each in given:
        if not isinstance(each, list) or len(each) < 4:
            continue
        number, after, what, values = each[:4]
        named = {"number": number, "after": after}
        count, seconds = number_in(named, "number"), number_in(named, "after")
        if count is None or seconds is None or not isinstance(what, str):
            continue
        told = values if isinstance(values, dict) else {"told": values}
        yield PocketRow(int(count), began + seconds, what, told)
