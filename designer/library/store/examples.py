"""The examples of the program in a box: laid in once, when nothing was ever kept in it.

What is made of one is kept apart from it (`Recipes.save`), so each has one version for ever.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from designer.library.store import recipe_rows
from designer.library.store.connection import Connection
from designer.library.store.documents import accepted, name_of
from designer.library.store.preferences import Preferences
from designer.library.store.values import Summary

if TYPE_CHECKING:
    from sqlite_utils import Database

LAID_IN = "examples"
"""The preference that tells which were laid in; a box that an earlier release made holds none."""


class Examples:
    """The examples of a store. Every method raises DesignerError where the world says no."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    @property
    def wanted(self) -> bool:
        """Whether none were laid in yet, and nothing was ever kept that they would lie among."""
        connection = self._connection
        if connection.read_only or Preferences(connection).get(LAID_IN) is not None:
            return False
        return connection.row("select 1 from recipes limit 1") is None

    def lay_in(self, examples: Mapping[str, tuple[str, Summary]]) -> None:
        """Keep the examples, document and summary by their names, if they are still wanted."""

        def work(db: Database) -> None:
            if not self.wanted:
                return
            for name, (document, summary) in examples.items():
                kept, values = accepted(document)
                recipe = recipe_rows.new_recipe(db, name_of(values), example=name)
                recipe_rows.new_version(db, recipe, kept, values, summary, "")
            Preferences(self._connection).put(LAID_IN, list(examples))

        self._connection.write(work)

    def version(self, name: str, document: str) -> tuple[int, int] | None:
        """Return recipe and version of an example that still says this; None if there is none."""
        row = self._connection.row(
            "select r.id, r.newest from recipes r join versions v on v.id = r.newest"
            " where r.example = ? and r.trashed is null and v.document = ?",
            (name, accepted(document)[0]),
        )
        return (int(row["id"]), int(row["newest"])) if row else None

    def is_one(self, recipe: int) -> bool:
        """Tell whether a recipe of the box is an example."""
        row = self._connection.row("select example from recipes where id = ?", (recipe,))
        return row is not None and bool(row["example"])
