"""A line given another name: one that the catalogue knows brings its figures with it.

Amounts, prices and times stay, unless the new kind goes in at another time.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.library import catalogue
from designer.library.new_lines import kind_by_name, new_fermentable
from designer.recipe.document import Extra, Fermentable, Hop, Yeast
from designer.recipe.quantity import Stage

Changes = tuple[tuple[str, Any], ...]
"""Fields of a line and what they become."""


def renamed_fermentable(line: Fermentable, name: str) -> Changes:
    """Return what changes with the name; it moves to or from the steep only as its kind does."""
    entry = catalogue.find_fermentable(name)
    if entry is None and not line.name and line.kind == kind_by_name(""):
        return _first_named(line, name)
    if entry is None or name == line.name:
        return (("name", name),)
    new = catalogue.new_fermentable(entry)
    kept = ("kind", "colour", "extract", "fermentability")
    changes: Changes = (("name", entry.name), *((key, getattr(new, key)) for key in kept))
    return (*changes, ("when", new.when)) if _moves(line, new) else changes


def _first_named(line: Fermentable, name: str) -> Changes:
    """Return what changes with the first name of a line whose amount was typed alone."""
    new = new_fermentable(name)
    changes: Changes = (("name", name), ("kind", new.kind))
    return (*changes, ("when", new.when)) if _moves(line, new) else changes


def _moves(line: Fermentable, new: Fermentable) -> bool:
    return (new.when.stage is Stage.STEEP) is not (line.when.stage is Stage.STEEP)


def renamed_hop(hop: Hop, name: str) -> Changes:
    """Return what changes with the variety."""
    entry = catalogue.find_hop(name)
    if entry is None or name == hop.name:
        return (("name", name),)
    return (("name", entry.name), ("alpha", catalogue.new_hop(entry).alpha))


def renamed_extra(extra: Extra, name: str) -> Changes:
    """Return what changes with the name; how much of it there is stays."""
    entry = catalogue.find_aid(name)
    if entry is None or name == extra.name:
        return (("name", name),)
    new = catalogue.new_extra(entry)
    return (("name", entry.name), ("purpose", new.purpose), ("when", new.when))


def renamed_yeast(yeast: Yeast, name: str) -> Yeast:
    """Return the yeast under another name, one of its form if the catalogue has one."""
    entry = catalogue.find_yeast(name, yeast.form)
    if entry is None:
        return replace(yeast, name=name)
    return replace(catalogue.new_yeast(entry), amount=yeast.amount, price=yeast.price)
