"""Fields of the recipe as numbers, looked up fast: a day reads some hundreds at every keystroke."""

from __future__ import annotations

from typing import Any

from designer.recipe import fields
from designer.recipe.fields import FieldFacts
from designer.recipe.quantity import Quantity

_FOUND: dict[tuple[type[Any], str], FieldFacts] = {}


def facts_of(part: Any, name: str) -> FieldFacts:
    """Return the declaration of the quantity field `name`; KeyError if it is not one."""
    place = (type(part), name)
    if place not in _FOUND:
        _FOUND[place] = fields.facts_of(part, name)
    return _FOUND[place]


def number_or_none(part: Any, name: str) -> float | None:
    """Return the value of a field, its default, or None where it stays unknown."""
    typed: Quantity | None = getattr(part, name)
    return typed.value if typed is not None else facts_of(part, name).default


def number(part: Any, name: str) -> float:
    """Return the value of a field: what was typed, or else its default.

    Raises KeyError for a field that is not typed and has no default.
    """
    value = number_or_none(part, name)
    if value is None:
        raise KeyError(name)
    return value
