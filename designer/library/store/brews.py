"""Brew logs: what was read and done on a brew day, one line at a time, never rewritten.

A log keeps the document that was brewed, and so outlives changes to the recipe and its deletion. A
brew has a name of its own that lasts, `uid`, and each entry has an `id`: what is written twice is
there once. So a log that could not be written for a while is written whole when it can be.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from designer.library.store.brew_lines import head_of, in_effect
from designer.library.store.changes import note
from designer.library.store.connection import Connection, inserted
from designer.library.store.documents import accepted, name_of
from designer.library.store.faults import NotInStoreError
from designer.library.store.values import Version, from_row, now_text
from designer.recipe.message import say

if TYPE_CHECKING:
    from sqlite_utils import Database

TOLD = ("finished", "packaged", "tasted", "takes back", "corrects")
"""What the head of a brew is told by, besides what it began with."""


@dataclass(frozen=True, slots=True)
class Brew:
    """One brewing of a recipe's version; `started` and `finished` are ISO 8601 ("" not yet).

    `id` is its number in the store (0: not there yet), `uid` the name that lasts, `file` where the
    recipe's file lay ("" for none). `mark` is what the last tasting gave it, 1 to 5 (0: not
    tasted), `packaged` is when the beer went into bottles or keg and `ready` the day from which it
    is ready to drink (both "" where not known), `is_under_way` tells that its log was begun at the
    stove and is not finished. `recipe` and `version` are 0 for a recipe that is not in the store.
    """

    id: int
    recipe: int
    version: int
    name: str
    started: str
    finished: str
    document: str
    uid: str = ""
    file: str = ""
    mark: int = 0
    packaged: str = ""
    ready: str = ""
    is_under_way: bool = False


@dataclass(frozen=True, slots=True)
class BrewLine:
    """One line of a log: when it was written (UTC), and the plain values that were."""

    at: str
    entry: dict[str, Any]


def new_uid() -> str:
    """Return a name that no brew and no entry ever had."""
    return secrets.token_hex(16)


def new_brew(
    document: str, *, recipe: int = 0, version: int = 0, file: str = "", started: str = ""
) -> Brew:
    """Return the head of a brew that begins. Raises DesignerError for a text that is no recipe."""
    text, values = accepted(document)
    when = started or now_text()
    return Brew(0, recipe, version, name_of(values), when, "", text, new_uid(), file)


class Brews:
    """The brew logs of a store. Writing raises DesignerError."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def start(self, version: Version, *, started: str = "") -> Brew:
        """Begin a log for a version; its recipe counts as brewed on that day."""
        brew = new_brew(
            version.document, recipe=version.recipe, version=version.id, started=started
        )
        return self.put(brew)

    def put(self, brew: Brew, entries: Iterable[Mapping[str, Any]] = ()) -> Brew:
        """Write a brew that is not there yet, and those of its entries that are not.

        A brew that began before its version was kept is put to its recipe once it says which. All
        of it or nothing. Returns the brew as it is in the store then.
        """
        lines = [dict(entry) for entry in entries]

        def work(db: Database) -> int:
            found = db.conn.execute("select id from brews where uid = ?", (brew.uid,)).fetchone()
            number = int(found[0]) if found else _begun(db, brew)
            if found and brew.recipe:
                _link(db, number, brew)
            _write(db, number, lines)
            return number

        return self.get(self._connection.write(work))

    def append(self, brew: int, entry: Mapping[str, Any]) -> None:
        """Write a line of plain values into a log, unless one of its "id" is there."""

        def work(db: Database) -> None:
            _look_for(db, brew)
            _write(db, brew, [dict(entry)])

        self._connection.write(work)

    def get(self, brew: int) -> Brew:
        """Return a log's head. Raises NotInStoreError."""
        found = self._heads("where b.id = ?", (brew,))
        if not found:
            raise _no_brew()
        return found[0]

    def by_uid(self, uid: str) -> Brew:
        """Return the head of the brew of that lasting name. Raises NotInStoreError."""
        found = self._heads("where b.uid = ?", (uid,))
        if not found:
            raise _no_brew()
        return found[0]

    def all(self, recipe: int | None = None) -> list[Brew]:
        """Return all logs, or those of a recipe, the last begun first."""
        where, values = ("where b.recipe = ?", (recipe,)) if recipe is not None else ("", ())
        return self._heads(where, values)

    def under_way(self) -> list[Brew]:
        """Return the brews that were begun at the stove and are not finished, the last first."""
        return [each for each in self._heads("where b.finished is null") if each.is_under_way]

    def finished_since(self, when: str) -> list[Brew]:
        """Return the brews whose day was over at that time or later, ISO 8601; the last first."""
        return self._heads("where b.finished >= ?", (when,))

    def afterwards(self, most: int) -> list[Brew]:
        """Return the brews whose yeast is in or that are to be remembered, the last first."""
        return self._heads(
            "where b.finished is not null or exists (select 1 from brew_lines l where"
            " l.brew = b.id and l.what = 'reminder')"
        )[:most]

    def _heads(self, where: str, values: tuple[object, ...] = ()) -> list[Brew]:
        found = self._connection.rows(
            "select b.*, b.finished is null and exists (select 1 from brew_lines l where"
            f" l.brew = b.id and l.what = 'began') as is_under_way from brews b {where}"
            " order by b.started desc, b.id desc",
            values,
        )
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
            found = db.conn.execute("select recipe from brews where id = ?", (brew,)).fetchone()
            db.table("brews").delete_where("id = ?", (brew,))
            if found:
                _date(db, found[0])
            note(db, "brew", brew)

        self._connection.write(work)


def _begun(db: Database, brew: Brew) -> int:
    """Put the head of a brew in; return its number."""
    is_here = _has_version(db, brew)
    facts: dict[str, Any] = {
        "recipe": brew.recipe if is_here else None,
        "version": brew.version if is_here else None,
        "name": brew.name,
        "document": brew.document,
        "started": brew.started,
        "uid": brew.uid,
        "file": brew.file,
    }
    number = inserted(db, "brews", facts)
    _date(db, facts["recipe"])
    note(db, "brew", number)
    return number


def _has_version(db: Database, brew: Brew) -> bool:
    """Whether the version that was brewed is one of this store: its log may come from another."""
    found = db.conn.execute(
        "select document from versions where id = ? and recipe = ?", (brew.version, brew.recipe)
    ).fetchone()
    return found is not None and name_of(accepted(found[0])[1]) == brew.name


def _link(db: Database, number: int, brew: Brew) -> None:
    """Put a brew without a recipe to the one that it says."""
    if not _has_version(db, brew):
        return
    # by hand: one statement looks and writes
    done = db.conn.execute(
        "update brews set recipe = ?, version = ? where id = ? and recipe is null",
        (brew.recipe, brew.version, number),
    )
    if done.rowcount:
        _date(db, brew.recipe)
        note(db, "brew", number)


def _write(db: Database, brew: int, lines: list[dict[str, Any]]) -> None:
    """Write the lines that are not there yet, in order, and what the log tells by them."""
    now, told = now_text(), False
    for line in lines:
        what = str(line.get("what", ""))
        # by hand: one statement looks and writes
        db.conn.execute(
            "insert or ignore into brew_lines (brew, at, entry, entry_id, what)"
            " values (?, ?, ?, ?, ?)",
            (brew, now, json.dumps(line), str(line.get("id", "")), what),
        )
        told = told or what in TOLD
    if told:
        _tell_head(db, brew)
    if lines:
        note(db, "brew", brew)


def _tell_head(db: Database, brew: int) -> None:
    """Let a brew's row say what its log says by now: when it was, and what it was like."""
    marks = ", ".join("?" * len(TOLD))
    found = db.conn.execute(
        f"select entry from brew_lines where brew = ? and what in ({marks}) order by entry_id, id",
        (brew, *TOLD),
    )
    head = head_of(in_effect(_entry(text) for (text,) in found.fetchall()))
    db.table("brews").update(brew, head)
    _date(db, db.conn.execute("select recipe from brews where id = ?", (brew,)).fetchone()[0])


def _date(db: Database, recipe: int | None) -> None:
    """Let a recipe say when it was brewed last, and the days of its beers.

    An earlier day does not hide a later one. A beer is in the fermenter until it is packaged, or
    tasted without a word of that.
    """
    if not recipe:
        return
    # by hand: the recipe may be gone
    db.conn.execute(
        "update recipes set (last_brewed, fermenting, packaged, ready) = (select"
        " max(substr(started, 1, 10)),"
        " max(case when packaged is null and mark = 0 then substr(finished, 1, 10) end),"
        " max(substr(packaged, 1, 10)), max(ready) from brews where recipe = recipes.id)"
        " where id = ?",
        (recipe,),
    )
    note(db, "recipe", recipe)


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
