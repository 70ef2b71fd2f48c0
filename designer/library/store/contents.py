"""What a store holds, counted, and in words: so that an offer says exactly what it gives."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

from designer.translation import tr, trn

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
        parts = []
        if self.recipes or not self:
            recipes = trn("{number:,} recipe", "{number:,} recipes", self.recipes)
            versions = counted_versions(self.versions)
            parts.append(tr("{recipes} with {versions}", recipes=recipes, versions=versions))
        if self.drafts:
            parts.append(trn("{number:,} draft", "{number:,} drafts", self.drafts))
        if self.vessels:
            parts.append(trn("{number:,} vessel", "{number:,} vessels", self.vessels))
        if self.cupboard:
            parts.append(
                trn(
                    "{number:,} thing in the cupboard",
                    "{number:,} things in the cupboard",
                    self.cupboard,
                )
            )
        if self.brews:
            parts.append(trn("{number:,} brew log", "{number:,} brew logs", self.brews))
        return all_of(parts)


def counted_versions(number: int) -> str:
    """Return a number of versions in words."""
    return trn("{number:,} version", "{number:,} versions", number)


def all_of(parts: Sequence[str]) -> str:
    """Return parts, at least one, in one phrase: the last after an "and"."""
    if len(parts) == 1:
        return parts[0]
    return tr("{first} and {last}", first=", ".join(parts[:-1]), last=parts[-1])


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
