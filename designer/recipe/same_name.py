"""When two names mean the same thing: in the catalogue, in the cupboard and among hops in hand."""

from __future__ import annotations


def name_key(name: str) -> str:
    """Return a name without what is written in more than one way: equal for equal things.

    Upper and lower case, spaces, and the sign of degrees: "60 L" for a colour of 60 °L.
    """
    return " ".join(name.casefold().replace("°", "").split())


def is_same_name(one: str, other: str) -> bool:
    """Tell whether two names mean the same thing."""
    return name_key(one) == name_key(other)
