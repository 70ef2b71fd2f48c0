"""What other languages call the ingredients and styles of the catalogue: `names_CODE.po`.

A recipe keeps the English name; `designer.translation.named` says it in the user's language.
"""

from __future__ import annotations

import re
from functools import cache
from itertools import islice

from designer.recipe.same_name import name_key
from designer.spoken_language import LANGUAGES, names_in
from designer.translation import spoken

MOST_NAMED = 12
"""A search is for no more names than so many."""
SHORTEST_BEGINNING = 3

_BETWEEN = re.compile(r"[\s,()/'’-]+")


def in_english(name: str) -> tuple[str, ...]:
    """Return what the catalogue may call a name of another language; none for any other name.

    Case, accents, umlauts however written, hyphens and brackets do not matter.
    """
    return _english().get(_loose(name), ())


def in_other_languages(name: str) -> tuple[str, ...]:
    """Return what the other languages of the program call a name of the catalogue."""
    found = (names_in(code).gettext(name) for code in LANGUAGES)
    return tuple(dict.fromkeys(each for each in found if each != name))


def named_by_words(words: str) -> tuple[str, ...]:
    """Return what the catalogue calls all that the user's language calls by such words.

    The last of them may go on: "schoko" is found in "Schokoladenmalz". None in English.
    """
    begun = f" {_loose(words)}"
    if spoken() == "en" or len(begun) <= SHORTEST_BEGINNING:
        return ()
    found = (english for said, english in _said(spoken()) if begun in said)
    return tuple(islice(found, MOST_NAMED))


@cache
def _said(code: str) -> tuple[tuple[str, str], ...]:
    """What a language calls each name, with a space before each word; and that name."""
    return tuple((f" {_loose(said)}", english) for english, said in names_in(code).pairs())


@cache
def _english() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for code in LANGUAGES:
        for english, said in names_in(code).pairs():
            key = _loose(said)
            found[key] = tuple(dict.fromkeys((*found.get(key, ()), english)))
    return found


def _loose(name: str) -> str:
    return _BETWEEN.sub(" ", name_key(name)).strip()
