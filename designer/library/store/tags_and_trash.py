"""Keeping order in the Recipe box: tags, the trash, and what comes out of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from designer.library.store import recipe_rows
from designer.library.store.changes import note
from designer.library.store.connection import Connection
from designer.library.store.values import now_text

if TYPE_CHECKING:
    from sqlite_utils import Database


class Tags:
    """The tags of recipes. Upper and lower case do not tell tags apart."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def put(
        self, recipes: Sequence[int], add: Iterable[str] = (), drop: Iterable[str] = ()
    ) -> None:
        """Add tags to recipes and take others from them. Raises DesignerError."""
        added, dropped = tuple(add), {recipe_rows.key_of(tag) for tag in drop}

        def work(db: Database) -> None:
            for recipe in recipes:
                if not db.table("recipes").count_where("id = ?", (recipe,)):
                    continue
                old = [
                    tag
                    for tag in recipe_rows.tags_of(db, recipe)
                    if recipe_rows.key_of(tag) not in dropped
                ]
                recipe_rows.put_tags(db, recipe, (*old, *added))
                note(db, "recipe", recipe)

        self._connection.write(work)

    def all(self) -> dict[str, int]:
        """Return each tag with the number of recipes in the box that have it, by the alphabet."""
        found = self._connection.rows(
            "select min(tag) as tag, count(*) as n from tags join recipes on id = recipe"
            " where trashed is null group by tag_key order by tag_key"
        )
        return {row["tag"]: row["n"] for row in found}


class Trash:
    """Recipes that were thrown away: they can be restored until the trash is emptied."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def put(self, recipes: Sequence[int]) -> None:
        """Throw recipes away. Raises DesignerError."""
        now = now_text()

        def work(db: Database) -> None:
            for recipe in recipes:
                recipe_rows.set_trashed(db, recipe, now)

        self._connection.write(work)

    def restore(self, recipes: Sequence[int]) -> None:
        """Take recipes out of the trash. Raises DesignerError."""

        def work(db: Database) -> None:
            for recipe in recipes:
                recipe_rows.set_trashed(db, recipe, None)

        self._connection.write(work)

    def delete(self, recipes: Sequence[int]) -> int:
        """Delete recipes for good, of those that are in the trash; return how many.

        Logs of their brews stay, with the recipe as it was brewed. Raises DesignerError.
        """

        def work(db: Database) -> int:
            gone = 0
            for recipe in recipes:
                # by hand: one statement looks and deletes, and tells whether it did
                done = db.conn.execute(
                    "delete from recipes where id = ? and trashed is not null", (recipe,)
                )
                if done.rowcount:
                    db.conn.execute("delete from words where rowid = ?", (recipe,))
                    note(db, "recipe", recipe)
                    gone += 1
            return gone

        return self._connection.write(work)

    def empty(self) -> int:
        """Delete all recipes in the trash for good; return how many. Raises DesignerError."""
        found = self._connection.rows("select id from recipes where trashed is not null")
        return self.delete([row["id"] for row in found])
