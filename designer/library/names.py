"""What other languages call the ingredients and styles of the catalogue: `names_CODE.po`.

A recipe keeps the English name; `designer.translation.named` says it in the user's language.
"""

from __future__ import annotations

import re
from functools import cache

from designer.recipe.same_name import name_key
from designer.spoken_language import LANGUAGES, names_in

_BETWEEN = re.compile(r"[\s,()/-]+")


def in_english(name: str) -> tuple[str, ...]:
    """Return what the catalogue may call a name of another language; none for any other name.

    Case, accents, umlauts however written, hyphens and brackets do not matter.
    """
    return _english().get(_loose(name), ())


def in_other_languages(name: str) -> tuple[str, ...]:
    """Return what the other languages of the program call a name of the catalogue."""
    found = (names_in(code).gettext(name) for code in LANGUAGES)
    return tuple(dict.fromkeys(each for each in found if each != name))


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
