"""What the store must know of a document: that it is one, its words, its name, its fingerprint.

The text is kept as given. Words are prepared for the search: scripts written without spaces are
taken letter by letter, so that a word inside a name is found as well.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from designer.digests import blake2b
from designer.library.json_text import parsed
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.recipe.message import refused

LONGEST_INDEXED = 20_000
UNNAMED = "Untitled brew"
_LISTS = ("fermentables", "hops", "extras")
_NAME_LINE = re.compile(r'^  "name": "(?:[^"\\]|\\.)*"', re.MULTILINE)
_LONE = re.compile("[\ud800-\udfff]")
# Thai to Khmer, kana, Chinese and Yi characters, and those outside the basic plane.
_UNSPACED = re.compile("([฀-໿က-႟ក-៿぀-ヿ㐀-鿿ꀀ-꓏豈-﫿𠀀-𱍏])")


@dataclass(frozen=True, slots=True)
class Words:
    """The words of a recipe, one field for each column of the search."""

    name: str
    style: str
    ingredients: str
    notes: str


def accepted(document: str) -> tuple[str, dict[str, Any]]:
    """Return the document as it is kept, and its plain values.

    Signs that no file can hold (halves of a surrogate pair) are written as JSON writes them.
    Raises RefusedInputError for a text that is no recipe's.
    """
    kept = _LONE.sub(lambda sign: f"\\u{ord(sign.group()):04x}", document)
    if len(kept.encode("utf-8")) > LARGEST_DOCUMENT_BYTES:
        raise refused(
            "recipe-too-large",
            "This recipe has more than {largest_document_bytes} MB and is not kept; shorten "
            "its notes.",
            largest_document_bytes=f"{LARGEST_DOCUMENT_BYTES / 1000000.0:.0f}",
        )
    values = parsed(kept)
    if not isinstance(values, dict):
        raise refused("no-recipe", "This is not a recipe: a recipe is one JSON object { ... }.")
    return kept, values


def digest(recipe: object, number: object, document: object) -> str:
    """Return the fingerprint of a version: its recipe, its number and its text."""
    whole = f"{recipe} {number} {document}"
    return blake2b(whole.encode("utf-8"), digest_size=16).hexdigest()


def is_whole(version: Mapping[str, object]) -> bool:
    """Tell whether a version read from the disk is still what was written."""
    recipe, number, document = (version.get(key) for key in ("recipe", "number", "document"))
    return digest(recipe, number, document) == version.get("digest")


def name_of(values: dict[str, Any]) -> str:
    """Return the name to show in lists, never empty, in one line."""
    name = _plain(values.get("name"))
    return " ".join(name.split()) or UNNAMED


def words_of(values: dict[str, Any]) -> Words:
    """Return the words of a document, prepared for the search."""
    names = dict.fromkeys(filter(None, map(_name, _ingredients(values))))
    return Words(
        searchable(name_of(values)),
        searchable(_plain(values.get("style"))),
        searchable(" / ".join(names)),
        searchable(_plain(values.get("notes"))),
    )


def _ingredients(values: dict[str, Any]) -> Iterator[object]:
    """Yield the lines and the yeast as written, then those that boils and fermenters have."""
    boils, fermenters = (_lines(values.get(key)) for key in ("boils", "fermenters"))
    for part in (values, *boils):
        if isinstance(part, dict):
            for key in _LISTS:
                yield from _lines(part.get(key))
    for part in (values, *fermenters):
        if isinstance(part, dict):
            yield part.get("yeast")


def searchable(text: str) -> str:
    """Return a text as the search reads it."""
    whole = unicodedata.normalize("NFC", text[:LONGEST_INDEXED])
    return _UNSPACED.sub(r" \1 ", whole)


def renamed(document: str, name: str) -> str:
    """Return the document under another name, all else as it is written."""
    wanted = {**json.loads(document), "name": name}
    line = f'  "name": {json.dumps(name, ensure_ascii=False)}'
    text = _NAME_LINE.sub(lambda _: line, document, count=1)
    if json.loads(text) == wanted:
        return text
    return json.dumps(wanted, ensure_ascii=False, indent=2) + "\n"


def _lines(value: object) -> list[object]:
    return value if isinstance(value, list) else []


def _name(part: object) -> str:
    return _plain(part.get("name")) if isinstance(part, dict) else ""


def _plain(value: object) -> str:
    """Return a value's text without signs that a database's text cannot hold."""
    return _LONE.sub("\ufffd", value).replace("\0", "\ufffd") if isinstance(value, str) else ""
