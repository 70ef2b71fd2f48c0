"""A search of the Recipe box that is kept: in English, so that it is understood in any language.

`kept_search` makes that of what was typed in the language that is spoken, `shown_search` what would
be typed in it. Only these change: the words `with`, `without` and the like, and the names of
ingredients and styles behind them. What a brewer calls things by, tags among them, stays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import takewhile

from designer.library import names
from designer.library.store.search_words import (
    LONGEST_SEARCH,
    PIECE,
    in_english,
    in_spoken,
)
from designer.translation import named, spoken

_BEFORE_NAMES = ("with", "without", "style")
"""Words that have the name of an ingredient or a style behind them."""
_TAGGED, _FITS = "tagged", "fits"


def kept_search(typed: str) -> str:
    """Return a search in English that finds what was typed in the spoken language."""
    return _turned(typed, in_english, _english_name) if spoken() != "en" else typed.strip()


def shown_search(kept: str) -> str:
    """Return a search that is kept as it would be typed in the spoken language."""
    return _turned(kept, in_spoken, named) if spoken() != "en" else kept


def _turned(search: str, word: Callable[[str], str], name: Callable[[str], str]) -> str:
    return " ".join(_pieces(search[:LONGEST_SEARCH], word, name))


def _pieces(search: str, turned: Callable[[str], str], name: Callable[[str], str]) -> Iterator[str]:
    """Yield the pieces of a search, parted by spaces, each in the other language."""
    before = ""
    for between, plain in PIECE.findall(search):
        text = plain or between
        word = in_english(plain.casefold()) if plain and not before else ""
        if word in (*_BEFORE_NAMES, _TAGGED, _FITS):
            yield turned(word)
        else:
            yield _quoted(name(text) if before in _BEFORE_NAMES else text, plain)
        before = word if word in (*_BEFORE_NAMES, _TAGGED) else ""


def _quoted(text: str, plain: str) -> str:
    """Put between quotation marks what was, and what is more than one word."""
    return text if plain and " " not in text else f'"{text}"'


def _english_name(words: str) -> str:
    """Return what is called so in the spoken language as the catalogue calls it; of several names
    the beginning that they share. Words that have none come back as they are.
    """
    exactly = names.in_english(words)
    found = [each.split() for each in exactly or names.named_by_words(words)]
    alike = takewhile(lambda each: len(set(each)) == 1, zip(*found, strict=False))
    return " ".join(each[0] for each in alike) or words
