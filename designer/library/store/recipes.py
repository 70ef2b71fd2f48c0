"""Recipes with every version that was ever saved.

A version is never changed but for its name, and goes only when its recipe is deleted for good.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from designer.library.held_parts import refuse_long_words
from designer.library.store import recipe_rows
from designer.library.store.changes import note
from designer.library.store.connection import Connection
from designer.library.store.documents import accepted, is_whole, name_of, renamed
from designer.library.store.faults import NotInStoreError, StoreDamagedError
from designer.library.store.values import (
    SUMMARY_COLUMNS,
    Conflict,
    RecipeRow,
    Summary,
    Version,
    VersionRow,
    from_row,
)
from designer.recipe.limits import LONGEST_WORDS
from designer.recipe.message import say
from designer.translation import message, tr

if TYPE_CHECKING:
    from sqlite_utils import Database

MANY = 500
"""How many recipes one transaction adds: short enough that no window waits for it."""
_COPY = message("{name} (copy)")
_LISTED = f"id, recipe, number, name, saved, base, {', '.join(SUMMARY_COLUMNS)}"


class Recipes:
    """The recipes of a store. Every method raises DesignerError where the world says no."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(
        self, document: str, summary: Summary, *, name: str = "", tags: Iterable[str] = ()
    ) -> Version:
        """Keep a new recipe with its first version, which may have a name."""
        kept, values = accepted(document)
        wanted = tuple(tags)

        def work(db: Database) -> int:
            recipe = recipe_rows.new_recipe(db, name_of(values))
            version = recipe_rows.new_version(db, recipe, kept, values, summary, name)
            recipe_rows.put_tags(db, recipe, wanted)
            return version

        return self.version(self._connection.write(work))

    def add_many(self, many: Iterable[tuple[str, Summary, Sequence[str]]]) -> list[int]:
        """Keep many new recipes (document, summary, tags); return their numbers, in order.

        Each 500 are one transaction; a refused document keeps its 500 out, not those before.
        """
        found: list[int] = []
        batch: list[tuple[str, dict[str, Any], Summary, Sequence[str]]] = []
        for document, summary, tags in many:
            batch.append((*accepted(document), summary, tags))
            if len(batch) == MANY:
                found += self._add_batch(tuple(batch))
                batch.clear()
        return found + self._add_batch(tuple(batch))

    def _add_batch(
        self, batch: Sequence[tuple[str, dict[str, Any], Summary, Sequence[str]]]
    ) -> list[int]:
        def work(db: Database) -> list[int]:
            made = []
            for document, values, summary, tags in batch:
                recipe = recipe_rows.new_recipe(db, name_of(values))
                recipe_rows.new_version(db, recipe, document, values, summary, "")
                recipe_rows.put_tags(db, recipe, tags)
                made.append(recipe)
            return made

        return self._connection.write(work) if batch else []

    def save(
        self,
        recipe: int,
        document: str,
        summary: Summary,
        *,
        base: int,
        name: str = "",
        seen: int = 0,
    ) -> Version | Conflict:
        """Keep a new version, made from the version `base`; a Conflict if that is not the newest.

        Nor is it one if the newest is `seen`, a version that the brewer knew of while changing an
        older one.

        Saving what the newest version already says adds none (saving again after a doubt is
        safe), it only takes the name. A recipe that another window deleted for good is kept anew,
        and so is one whose `base` is no version of it: the box was replaced by a backup meanwhile,
        and what has its number now is another recipe. One in the trash comes out of it: nothing
        that is saved is lost. An example stays as it was: what was made of it is kept as a recipe
        of one's own.
        """
        kept, values = accepted(document)

        def work(db: Database) -> tuple[int, int]:
            newest = recipe_rows.newest_of(db, recipe)
            if newest is None or (base and not recipe_rows.is_version_of(db, base, recipe)):
                anew = recipe_rows.new_recipe(db, name_of(values))
                return recipe_rows.new_version(db, anew, kept, values, summary, name), 0
            if newest["example"] and newest["document"] != kept:
                own = recipe_rows.new_recipe(db, name_of(values), branched_from=newest["id"])
                return recipe_rows.new_version(db, own, kept, values, summary, name), 0
            recipe_rows.set_trashed(db, recipe, None)
            if newest["document"] == kept:
                recipe_rows.name_version(db, newest, name)
                return newest["id"], 0
            theirs = newest["id"] if newest["id"] not in (base, seen) else 0
            made = recipe_rows.new_version(db, recipe, kept, values, summary, name, base=base)
            return made, theirs

        mine, theirs = self._connection.write(work)
        if theirs:
            return Conflict(self.version(mine), self.version(theirs))
        return self.version(mine)

    def version(self, version: int) -> Version:
        """Return one version. Raises NotInStoreError, or StoreDamagedError if its text changed."""
        row = self._connection.row("select * from versions where id = ?", (version,))
        if row is None:
            raise NotInStoreError(
                say(
                    "version-gone",
                    "That version is not in the Recipe box any more: its recipe was deleted for "
                    "good. A backup may still hold it.",
                )
            )
        if not is_whole(row):
            raise StoreDamagedError(
                say(
                    "version-damaged",
                    "Version {number} of this recipe was damaged on the disk and is not shown. "
                    "Open another version, or restore it from a backup.",
                    number=row["number"],
                )
            )
        return from_row(Version, row, summary=from_row(Summary, row))

    def holding(self, document: str) -> Version | None:
        """Return the version, the newest of several, that is this document; None for none."""
        kept, _ = accepted(document)
        row = self._connection.row(
            "select id from versions where document = ? order by id desc limit 1", (kept,)
        )
        return None if row is None else self.version(row["id"])

    def has(self, recipe: int, version: int) -> bool:
        """Tell whether there is such a version of such a recipe."""
        connection = self._connection
        return connection.patiently(
            lambda: recipe_rows.is_version_of(connection.db, version, recipe)
        )

    def newest(self, recipe: int) -> Version:
        """Return the newest version of a recipe."""
        row = self._connection.row("select newest from recipes where id = ?", (recipe,))
        if row is None:
            raise _no_recipe()
        return self.version(row["newest"])

    def versions(self, recipe: int) -> list[VersionRow]:
        """Return all versions of a recipe, the newest first, without their documents."""
        found = self._connection.rows(
            f"select {_LISTED} from versions where recipe = ? order by number desc", (recipe,)
        )
        return [from_row(VersionRow, row, summary=from_row(Summary, row)) for row in found]

    def name_version(self, version: int, name: str) -> None:
        """Give a version a name; "" takes it away."""
        found = self.version(version)

        def work(db: Database) -> None:
            db.table("versions").update(version, {"name": name})
            note(db, "recipe", found.recipe)

        self._connection.write(work)

    def bring_back(self, version: int, name: str = "") -> Version:
        """Make an older version the newest again, as a new version; return that."""
        old = self.version(version)
        base = self.newest(old.recipe).id
        done = self.save(old.recipe, old.document, old.summary, base=base, name=name)
        return done.mine if isinstance(done, Conflict) else done

    def branch(self, version: int, name: str) -> Version:
        """Keep a new recipe called `name` that begins with a version of another, tags included.

        Raises RefusedInputError for a name that no recipe can have.
        """
        refuse_long_words("Name", name)
        old = self.version(version)
        kept, values = accepted(renamed(old.document, name))

        def work(db: Database) -> int:
            recipe = recipe_rows.new_recipe(db, name_of(values), branched_from=version)
            made = recipe_rows.new_version(db, recipe, kept, values, old.summary, "")
            recipe_rows.put_tags(db, recipe, recipe_rows.tags_of(db, old.recipe))
            return made

        return self.version(self._connection.write(work))

    def duplicate(self, recipe: int, name: str = "") -> Version:
        """Keep a copy of a recipe's newest version as a recipe of its own."""
        newest = self.newest(recipe)
        old = name_of(accepted(newest.document)[1])
        longest = LONGEST_WORDS - len(tr(_COPY, name=""))
        return self.branch(newest.id, name or tr(_COPY, name=old[:longest]))

    def row(self, recipe: int) -> RecipeRow:
        """Return what the list shows of a recipe."""
        found = recipe_rows.listed(self._connection, [recipe])
        if not found:
            raise _no_recipe()
        return found[0]

    def count(self, *, trashed: bool = False) -> int:
        """Return how many recipes there are, in the box or in the trash."""
        where = "is not null" if trashed else "is null"
        row = self._connection.row(f"select count(*) as n from recipes where trashed {where}")
        return int(row["n"]) if row else 0


def _no_recipe() -> NotInStoreError:
    return NotInStoreError(
        say(
            "recipe-gone",
            "That recipe is not in the Recipe box any more: it was deleted for good. A backup may "
            "still hold it.",
        )
    )
