"""Brew logs: what was read and done on a brew day, one line at a time, never rewritten.

A log keeps the document that was brewed, and so outlives changes to the recipe and its deletion.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from designer.library.store.changes import note
from designer.library.store.connection import Connection, inserted
from designer.library.store.documents import accepted, name_of
from designer.library.store.faults import NotInStoreError
from designer.library.store.values import Version, from_row, now_text
from designer.recipe.message import say

if TYPE_CHECKING:
    from sqlite_utils import Database


@dataclass(frozen=True, slots=True)
class Brew:
    """One brewing of a recipe's version; `started` and `finished` are ISO 8601 ("" not yet)."""

    id: int
    recipe: int
    version: int
    name: str
    started: str
    finished: str
    document: str


@dataclass(frozen=True, slots=True)
class BrewLine:
    """One line of a log: when it was written (UTC), and the plain values that were."""

    at: str
    entry: dict[str, Any]


class Brews:
    """The brew logs of a store. Writing raises DesignerError."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def start(self, version: Version, *, started: str = "") -> Brew:
        """Begin a log for a version; its recipe counts as brewed on that day."""
        name, when = name_of(accepted(version.document)[1]), started or now_text()

        def work(db: Database) -> int:
            facts = {
                "recipe": version.recipe,
                "version": version.id,
                "name": name,
                "document": version.document,
                "started": when,
            }
            brew = inserted(db, "brews", facts)
            # by hand: the recipe may be gone, and an earlier day does not hide a later one
            db.conn.execute(
                "update recipes set last_brewed = max(coalesce(last_brewed, ''), ?) where id = ?",
                (when[:10], version.recipe),
            )
            note(db, "recipe", version.recipe)
            note(db, "brew", brew)
            return brew

        return self.get(self._connection.write(work))

    def append(self, brew: int, entry: Mapping[str, Any]) -> None:
        """Write a line of plain values into a log."""
        text = json.dumps(dict(entry))

        def work(db: Database) -> None:
            _look_for(db, brew)
            inserted(db, "brew_lines", {"brew": brew, "at": now_text(), "entry": text})
            note(db, "brew", brew)

        self._connection.write(work)

    def finish(self, brew: int, *, finished: str = "") -> Brew:
        """Close a log; lines can still be added (bottling comes weeks later)."""

        def work(db: Database) -> None:
            _look_for(db, brew)
            db.table("brews").update(brew, {"finished": finished or now_text()})
            note(db, "brew", brew)

        self._connection.write(work)
        return self.get(brew)

    def get(self, brew: int) -> Brew:
        """Return a log's head. Raises NotInStoreError."""
        row = self._connection.row("select * from brews where id = ?", (brew,))
        if row is None:
            raise _no_brew()
        return from_row(Brew, row)

    def all(self, recipe: int | None = None) -> list[Brew]:
        """Return all logs, or those of a recipe, the last begun first."""
        where, values = ("where recipe = ?", (recipe,)) if recipe is not None else ("", ())
        found = self._connection.rows(f"select * from brews {where} order by id desc", values)
        return [from_row(Brew, row) for row in found]

    def lines(self, brew: int) -> list[BrewLine]:
        """Return the lines of a log in the order they were written."""
        found = self._connection.rows(
            "select at, entry from brew_lines where brew = ? order by id", (brew,)
        )
        return [BrewLine(row["at"], _entry(row["entry"])) for row in found]

    def as_text(self, brew: int) -> str:
        """Return a log as JSON lines, one object a line with its time under "at"."""
        lines = [{"at": line.at, **line.entry} for line in self.lines(brew)]
        return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in lines)

    def delete(self, brew: int) -> None:
        """Delete a log for good."""

        def work(db: Database) -> None:
            db.table("brews").delete_where("id = ?", (brew,))
            note(db, "brew", brew)

        self._connection.write(work)


def _entry(text: str) -> dict[str, Any]:
    """Return the values of a line; one that cannot be read is shown as it stands."""
    try:
        found = json.loads(text)
    except (ValueError, TypeError):
        found = None
    return found if isinstance(found, dict) else {"text": str(text)}


def _look_for(db: Database, brew: int) -> None:
    """Raise NotInStoreError for a log that is not there."""
    if not db.table("brews").count_where("id = ?", (brew,)):
        raise _no_brew()


def _no_brew() -> NotInStoreError:
    return NotInStoreError(
        say("brew-log-gone", "That brew log is not in the Recipe box any more; it was deleted.")
    )
