"""What a store holds, counted, and in words: so that an offer says exactly what it gives."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

_VESSELS = ("pots", "fermenters")


@dataclass(frozen=True, slots=True)
class Contents:
    """How many things of each kind a store holds; recipes in the trash are counted."""

    recipes: int = 0
    versions: int = 0
    drafts: int = 0
    vessels: int = 0
    cupboard: int = 0
    brews: int = 0

    def __bool__(self) -> bool:
        return any((self.versions, self.drafts, self.vessels, self.cupboard, self.brews))

    def __str__(self) -> str:
        recipes = f"{counted(self.recipes, 'recipe')} with {counted(self.versions, 'version')}"
        parts = [recipes] if self.recipes or not self else []
        for number, name, many in (
            (self.drafts, "draft", "drafts"),
            (self.vessels, "vessel", "vessels"),
            (self.cupboard, "thing in the cupboard", "things in the cupboard"),
            (self.brews, "brew log", "brew logs"),
        ):
            if number:
                parts.append(counted(number, name, many))
        return " and ".join((", ".join(parts[:-1]), parts[-1]) if len(parts) > 1 else parts)


def counted(number: int, name: str, many: str = "") -> str:
    """Return a number of things in words: 1 recipe, 2 recipes."""
    return f"{number} {name if number == 1 else many or name + 's'}"


def contents_of(conn: sqlite3.Connection) -> Contents:
    """Return what a store holds. Raises sqlite3.Error."""

    def count(*tables: str) -> int:
        return sum(conn.execute(f"select count(*) from {each}").fetchone()[0] for each in tables)

    return Contents(
        count("recipes"),
        count("versions"),
        count("drafts"),
        count(*_VESSELS),
        count("cupboard"),
        count("brews"),
    )
