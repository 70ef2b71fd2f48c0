"""Finding recipes among very many, with each key that is typed.

Ranking all that a short word matches would take longer than a key (about 100 ms in 100,000
recipes). So up to `MOST` matches are taken, names that match first and then the latest recipes, and
only those are put in order; `Found.more` tells that there were others. Figures are looked up in one
index that holds them all. Where even that would take too long (a common word with a range that few
recipes meet), the search ends after `hurry_s` with what it has; without hurry it goes on.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from designer.library.store.connection import Connection
from designer.library.store.rows import listed
from designer.library.store.search_words import Search, Within, read_search
from designer.library.store.values import RecipeRow

if TYPE_CHECKING:
    import sqlite3

PAGE = 50
MOST, MOST_WITHOUT_HURRY = 500, 30_000
HURRY_S = 0.008
STEPS_BETWEEN_LOOKS = 1000
ORDERS = {
    "closest": "touched",
    "name": "name_key",
    "style": "style",
    "og": "og",
    "abv": "abv",
    "ibu": "ibu",
    "colour": "srm",
    "size": "batch_l",
    "brewed": "last_brewed",
    "changed": "touched",
}
"""The orders a list can have, and their columns; "closest": matching names, then the latest."""


@dataclass(frozen=True, slots=True)
class Found:
    """A page of recipes; `more` tells that there are others, `problems` what was not understood.

    `hurried` tells that the search ended for want of time: ask again without hurry for the rest.
    """

    rows: tuple[RecipeRow, ...]
    more: bool = False
    problems: tuple[str, ...] = ()
    hurried: bool = False


@dataclass(slots=True)
class _Taken:
    """Recipes found so far, in the order they were found; `whole` if there are no others."""

    ids: list[int]
    named: int = 0
    whole: bool = True
    hurried: bool = False


class Finder:
    """The search of a store."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def find(
        self,
        typed: str = "",
        *,
        order: str = "closest",
        descending: bool | None = None,
        trashed: bool = False,
        limit: int = PAGE,
        offset: int = 0,
        hurry_s: float | None = HURRY_S,
    ) -> Found:
        """Return a page of the recipes that match what was typed; all for "".

        `order` is a key of `ORDERS`; `descending` None takes the order's own direction. With
        `hurry_s` None all matches are put in order (up to 30,000): ask so for further pages, and
        after an answer that was `hurried`. Raises DesignerError for a store that cannot be read,
        KeyError for an unknown order.
        """
        search = read_search(typed)
        column = ORDERS[order]
        down = column == "touched" if descending is None else descending
        taken = _Taken([])
        if search.is_empty:
            ids = self._all(column, down, trashed, limit + 1, offset)
        else:
            taken = self._taken(search, trashed, hurry_s)
            named = taken.ids[: taken.named] if order == "closest" else []
            ids = self._ordered(taken.ids, named, column, down)[offset : offset + limit + 1]
        return Found(
            tuple(listed(self._connection, ids[:limit])),
            more=len(ids) > limit or not taken.whole,
            problems=search.problems,
            hurried=taken.hurried,
        )

    def _all(self, column: str, down: bool, trashed: bool, limit: int, offset: int) -> list[int]:
        way = "desc" if down else "asc"
        found = self._connection.rows(
            f"select id from recipes where {_state(trashed)}"
            f" order by {column} {way} nulls last, id {way} limit ? offset ?",
            (limit, offset),
        )
        return [row["id"] for row in found]

    def _ordered(self, ids: list[int], named: list[int], column: str, down: bool) -> list[int]:
        if not ids:
            return []
        marks = ", ".join("?" * len(ids))
        first = ", ".join("?" * len(named))
        way = "desc" if down else "asc"
        found = self._connection.rows(
            f"select id from recipes where id in ({marks})"
            f" order by id in ({first}) desc, {column} {way} nulls last, id desc",
            (*ids, *named),
        )
        return [row["id"] for row in found]

    def _taken(self, search: Search, trashed: bool, hurry_s: float | None) -> _Taken:
        """Gather up to `MOST` matching recipes, those whose names match first."""
        with _Hurry(self._connection.db.conn, hurry_s) as hurry:
            taken = _Taken([])
            if search.names:
                taken.ids += self._matching(search, search.names, trashed, PAGE * 4, hurry)
                taken.named = len(taken.ids)
            seen = set(taken.ids)
            most = MOST if hurry_s is not None else MOST_WITHOUT_HURRY
            others = self._matching(search, search.match, trashed, most, hurry)
            taken.ids += [each for each in others if each not in seen]
            taken.hurried = hurry.ended
            taken.whole = len(others) < most and not hurry.ended
        return taken

    def _matching(
        self, search: Search, match: str | None, trashed: bool, limit: int, hurry: _Hurry
    ) -> list[int]:
        conditions, values = _conditions(search.within)
        where = " and ".join([_state(trashed), *conditions])
        if match is None:
            sql = f"select id from recipes indexed by recipes_by_figures where {where} limit ?"
        else:
            sql = (
                "select r.id from words w cross join recipes r on r.id = w.rowid"
                f" where w.words match ? and {where} order by w.rowid desc limit ?"
            )
            values = [match, *values]
        return self._connection.patiently(lambda: hurry.first_of(sql, (*values, limit)))


def _state(trashed: bool) -> str:
    return "trashed is not null" if trashed else "trashed is null"


def _conditions(within: Sequence[Within]) -> tuple[list[str], list[Any]]:
    """Return SQL conditions for ranges of figures, and their values."""
    conditions, values = [], []
    for each in within:
        for sign, end in ((">=", each.low), ("<=", each.high)):
            if end is not None:
                conditions.append(f"{each.column} {sign} ?")
                values.append(end)
    return conditions, values


class _Hurry:
    """Ends queries of a connection when the time is up; what was read by then is kept."""

    def __init__(self, conn: sqlite3.Connection, seconds: float | None) -> None:
        self._conn, self._seconds = conn, seconds
        self.ended = False

    def __enter__(self) -> _Hurry:
        if self._seconds is not None:
            end = time.monotonic() + self._seconds
            self._conn.set_progress_handler(lambda: time.monotonic() > end, STEPS_BETWEEN_LOOKS)
        return self

    def __exit__(self, *fault: object) -> None:
        self._conn.set_progress_handler(None, 0)

    def first_of(self, sql: str, values: Sequence[object]) -> list[int]:
        """Return the first column of the rows that came in time."""
        import sqlite3

        found: list[int] = []
        try:
            for row in self._conn.execute(sql, tuple(values)):
                found.append(row[0])
        except sqlite3.OperationalError as fault:
            if fault.sqlite_errorcode != sqlite3.SQLITE_INTERRUPT:
                raise
            self.ended = True
        return found
