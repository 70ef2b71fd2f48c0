"""When two names mean the same thing: in the catalogue, in the cupboard and among hops in hand."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

_ONE_LETTER = str.maketrans({"ø": "o", "ł": "l", "đ": "d", "æ": "a", "œ": "o"})
_SPELT_OUT = (("ae", "a"), ("oe", "o"), ("ue", "u"))
"""How ä, ö and ü are written where they are not on the keys: Kölsch, Koelsch and Kolsch are one."""


@lru_cache(maxsize=4096)
def folded(text: str) -> str:
    """Return a text in lower case and without accents, umlauts and the like, however written."""
    plain = text.casefold()
    if not plain.isascii():
        apart = unicodedata.normalize("NFKD", plain.translate(_ONE_LETTER))
        plain = "".join(sign for sign in apart if not unicodedata.combining(sign))
    for two, one in _SPELT_OUT:
        plain = plain.replace(two, one)
    return plain


@lru_cache(maxsize=4096)
def name_key(name: str) -> str:
    """Return a name without what is written in more than one way: equal for equal things.

    Upper and lower case, accents, spaces, and the sign of degrees: "60 L" for a colour of 60 °L.
    Those of the catalogue are asked for each time that a name is looked up in it.
    """
    return " ".join(folded(name).replace("°", "").split())


def is_same_name(one: str, other: str) -> bool:
    """Tell whether two names mean the same thing."""
    return name_key(one) == name_key(other)
