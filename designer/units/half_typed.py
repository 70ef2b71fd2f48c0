"""Texts on their way: what does not read yet, but may with the next key.

While `1.5 k` becomes `1.5 kg`, what was read last goes on counting; it would jump back and forth
with each key otherwise.
"""

from __future__ import annotations

import re

from designer.recipe.quantity import Kind
from designer.recipe.when_words import JOINING, begins_when, when_in_english
from designer.units.numbers import normalised
from designer.units.quick_words import FACTORS
from designer.units.reading import WHEN_WORDS
from designer.units.scales import SCALE_WORDS

_WANTS_MORE = re.compile(r"(?:\d|±|\+/?|-|/|,|\.)\s*$")
_LAST_WORD = re.compile(r"[^\d\s.,±+/-][^\d.,±+/-]*$")


def may_become(kind: Kind, text: str) -> bool:
    """Return whether a text that is no quantity of a kind may become one as it is typed on."""
    plain = normalised(text).lower()
    if _WANTS_MORE.search(plain) or plain.count("(") > plain.count(")"):
        return True
    return _begins(plain, (*FACTORS.get(kind, ()), *SCALE_WORDS.get(kind, ())))


def may_become_when(text: str) -> bool:
    """Return the same of the moment that something goes in."""
    plain = " ".join(normalised(text).lower().split())
    if _WANTS_MORE.search(plain) or any(each.startswith(plain) for each in WHEN_WORDS):
        return True
    if begins_when(plain):
        return True
    plain = when_in_english(plain)
    return _begins(plain, (*FACTORS[Kind.TIME], *SCALE_WORDS[Kind.TEMPERATURE], "at", *JOINING))


def _begins(plain: str, words: tuple[str, ...]) -> bool:
    last = _LAST_WORD.search(plain)
    parts = last.group().split() if last is not None else []
    ends = [" ".join(parts[number:]) for number in range(len(parts))]
    return any(each.startswith(end) for end in ends for each in words)
