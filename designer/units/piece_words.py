"""Words in amounts, said and read in the user's languages: packets and tablets; "to" in a span.

A recipe that the program writes has the English words; whatever is typed stays as it was typed.
"""

from __future__ import annotations

import re

from designer.recipe.same_name import folded
from designer.translation import spoken, tr, trn

_COUNTED = re.compile(r"([\d.,/ ½¼¾⅓⅔]*[\d½¼¾⅓⅔])\s*(tablet|packet|piece|bag)s?\b")
_AT_MOST_ONE = re.compile(r"1|0?[.,]\d+|[½¼¾⅓⅔]|[1-3]/[2-4]")
_ENGLISH = {
    "tablet": "tablette tabletten comprimé comprimés pastille pastilles",
    "packet": "päckchen packung packungen tütchen briefchen",
    "piece": "stück stücke stk stck pièce pièces",
    "bag": "beutel",
}
"""What German and French call them; from memory. A sachet is one in French and English."""
_MEANT = {folded(each): word for word, others in _ENGLISH.items() for each in others.split()}


def said_pieces(text: str) -> str:
    """Return an amount with its pieces in the user's language: "2 packets" as "2 Päckchen"."""
    return text if spoken() == "en" else _COUNTED.sub(_said, text)


def said_span(text: str) -> str:
    """Return a quantity's text with what stands between the ends of a span: "1,044 bis 1,048"."""
    low, between, high = text.partition(" to ")
    return tr("{low} to {high}", low=low, high=high) if between else text


def piece_in_english(word: str) -> str:
    """Return what English calls a piece; any other word as it is."""
    return _MEANT.get(folded(word), word)


def _said(found: re.Match[str]) -> str:
    count, word = found[1], found[2]
    number = 1 if _AT_MOST_ONE.fullmatch(count.strip()) else 2
    if word == "tablet":
        return trn("{count} tablet", "{count} tablets", number, count=count)
    if word == "packet":
        return trn("{count} packet", "{count} packets", number, count=count)
    if word == "bag":
        return trn("{count} bag", "{count} bags", number, count=count)
    return trn("{count} piece", "{count} pieces", number, count=count)
