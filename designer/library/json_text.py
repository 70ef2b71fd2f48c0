"""JSON text to plain values, stricter than JSON itself, every fault with its line and column.

A key that stands twice in one object, NaN and Infinity are refused: a recipe that could be read in
two ways, or holds no figures, is not to be guessed at.
"""

from __future__ import annotations

import json
import re
from typing import Any

from designer.errors import RefusedInputError
from designer.recipe.limits import DEEPEST, LONGEST_NUMBER, MOST_OBJECTS
from designer.recipe.message import refused
from designer.translation import message, tr
from designer.units.quoting import quoted

_TOKEN = r'"(?:[^"\\]|\\.)*"|[{}\[\]]|[^\s{}\[\]:,"]+'


def parsed(text: str) -> object:
    """Return the plain values of a JSON text.

    Raises RefusedInputError with one line: where the fault is, and what it is.
    """
    if not text.strip():
        raise refused("holds-nothing", "this holds nothing; take another copy, or a backup")
    try:
        hook = _Objects()
        return json.loads(text, object_pairs_hook=hook, parse_constant=_no_constant)
    except json.JSONDecodeError as fault:
        what = tr(
            "this is not JSON ({why}); put that right, or take another copy, or a backup",
            why=_why(fault),
        )
        raise refused(
            "at-line-and-column",
            "line {lineno}, column {colno}: {what}",
            lineno=fault.lineno,
            colno=fault.colno,
            what=what,
        ) from None
    except (ValueError, RecursionError):
        raise RefusedInputError(_first_oddity(text)) from None


_WHYS = {
    "Expecting value": message("expecting value"),
    "Expecting property name enclosed in double quotes": message(
        "expecting property name enclosed in double quotes"
    ),
    "Expecting ':' delimiter": message("expecting ':' delimiter"),
    "Expecting ',' delimiter": message("expecting ',' delimiter"),
    "Illegal trailing comma before end of object": message("a comma before the end"),
    "Illegal trailing comma before end of array": message("a comma before the end"),
    "Unterminated string starting at": message("unterminated string"),
    "Invalid control character at": message("invalid control character"),
    "Extra data": message("extra data"),
}
"""What Python finds wrong, in words that are translated; what is rarer it says itself."""


def _why(fault: json.JSONDecodeError) -> str:
    return tr(_WHYS.get(fault.msg, fault.msg.lower()))


class _Objects:
    """Makes the objects of a text, and stops at the first that no recipe has."""

    def __init__(self) -> None:
        self._count = 0

    def __call__(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        self._count += 1
        if self._count > MOST_OBJECTS:
            raise ValueError("too many objects")
        found = dict(pairs)
        if len(found) < len(pairs):
            raise ValueError("a key stands twice")
        return found


def _no_constant(word: str) -> object:
    raise ValueError(word)


def _first_oddity(text: str) -> str:
    """Find what the parser refused without telling where: it walks the text once more."""
    keys: list[set[str]] = []
    objects = 0
    colon = re.compile(r"\s*:")
    for token in re.finditer(_TOKEN, text, re.DOTALL):
        what = _oddity(token.group(), colon.match(text, token.end()) is not None, keys)
        objects += token.group() == "{"
        if not what and objects > MOST_OBJECTS:
            what = tr(
                "more than {count} objects {{ ... }} are too many for a recipe",
                count=f"{MOST_OBJECTS:,}",
            )
        if what:
            line = text.count("\n", 0, token.start()) + 1
            column = token.start() - text.rfind("\n", 0, token.start())
            return tr("line {lineno}, column {colno}: {what}", lineno=line, colno=column, what=what)
    return tr("this is no JSON that a recipe can be read from")


def _oddity(token: str, is_key: bool, keys: list[set[str]]) -> str:
    """Say what is odd about a token; `keys` holds those of each object it stands in."""
    if token in ("{", "["):
        keys.append(set())
        return tr("this is nested too deeply for a recipe") if len(keys) > DEEPEST else ""
    if token in ("}", "]"):
        del keys[-1:]
        return ""
    if is_key and keys:
        key = json.loads(token)
        if key in keys[-1]:
            return tr("the key {key} stands twice in one object", key=quoted(key))
        keys[-1].add(key)
        return ""
    if token.lstrip("-") in ("NaN", "Infinity"):
        return tr("{token} is not a figure that a recipe can hold", token=token)
    is_number = token[0] != '"' and len(token) > LONGEST_NUMBER
    return tr("a number has too many digits") if is_number else ""
