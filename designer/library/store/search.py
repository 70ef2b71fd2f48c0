"""Finding recipes among very many, with each key that is typed.

Ranking all that a short word matches would take longer than a key (about 100 ms in 100,000
recipes). So up to `MOST` matches are taken, names that match first and then the latest recipes, and
only those are put in order; `Found.more` tells that there were others. Figures are looked up in one
index that holds them all. Where even that would take too long (a common word with a range that few
recipes meet), the search ends after `hurry_s` with what it has; without hurry it goes on. A list
that shows all takes the numbers of all that match (`every`), and their rows as they come to be
seen.
"""

from __future__ import annotations

import json
import sqlite3
import time
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from designer.library.store.connection import Connection
from designer.library.store.recipe_rows import key_of, listed
from designer.library.store.search_words import FittingPot, Search, read_search
from designer.library.store.steps import BEER_DAYS
from designer.library.store.values import LONGEST_FERMENTING_DAYS, RecipeRow

PAGE = 50
MOST, NO_END = 500, -1
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
    "fermenting": "fermenting",
    "packaged": "packaged",
    "ready": "ready",
    "changed": "touched",
}
"""The orders a list can have, and their columns; "closest": matching names, then the latest."""
DAYS = ("brewed", *BEER_DAYS)
"""The orders by a day that not every recipe has."""


@dataclass(frozen=True, slots=True)
class Found:
    """A page of recipes; `more` tells that there are others, `problems` what was not understood.

    `hurried` tells that the search ended for want of time: ask again without hurry for the rest.
    `pots` are the pots that were asked for, with the room for foam that they leave; `days` those of
    `DAYS` that any recipe of the box has.
    """

    rows: tuple[RecipeRow, ...]
    more: bool = False
    problems: tuple[str, ...] = ()
    hurried: bool = False
    pots: tuple[FittingPot, ...] = ()
    days: frozenset[str] = frozenset()


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
        `hurry_s` None all matches are put in order: ask so for further pages, and after an answer
        that was `hurried`. Raises DesignerError for a store that cannot be read,
        KeyError for an unknown order.
        """
        search = read_search(typed)
        column, down = _ordering(order, descending)
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
            pots=search.pots,
            days=self._days(),
        )

    def every(
        self,
        typed: str = "",
        *,
        order: str = "closest",
        descending: bool | None = None,
        trashed: bool = False,
    ) -> tuple[int, ...]:
        """Return the numbers of all recipes that match, in the order of `find` without hurry.

        Takes a tenth of a second or two among 100,000 recipes: not to be asked with each key.
        Raises DesignerError, and KeyError for an unknown order.
        """
        search = read_search(typed)
        column, down = _ordering(order, descending)
        if search.is_empty:
            return tuple(self._all(column, down, trashed, NO_END, 0))
        taken = self._taken(search, trashed, None)
        named = taken.ids[: taken.named] if order == "closest" else []
        return tuple(self._ordered(taken.ids, named, column, down))

    def rows(self, recipes: Sequence[int]) -> list[RecipeRow]:
        """Return what the list shows of these recipes, in this order, but for those that are gone.

        Raises DesignerError.
        """
        return listed(self._connection, recipes)

    def _all(self, column: str, down: bool, trashed: bool, limit: int, offset: int) -> list[int]:
        way = "desc" if down else "asc"
        return self._ids(
            f"select id from recipes where {_state(trashed)}"
            f" order by {column} {way} nulls last, id {way} limit ? offset ?",
            (limit, offset),
        )

    def _days(self) -> frozenset[str]:
        """Return which days there are to tell; each is looked up in its index."""
        since = (date.today() - timedelta(days=LONGEST_FERMENTING_DAYS)).isoformat()
        ends = {"fermenting": since}
        asked = ", ".join(
            f"exists (select 1 from recipes where trashed is null and {ORDERS[day]} >= ?)"
            for day in DAYS
        )
        [found] = self._connection.tuples(f"select {asked}", [ends.get(day, "") for day in DAYS])
        return frozenset(day for day, is_there in zip(DAYS, found, strict=True) if is_there)

    def _ids(self, sql: str, values: Sequence[object]) -> list[int]:
        """Return the first column of a query."""
        return [row[0] for row in self._connection.tuples(sql, values)]

    def _ordered(self, ids: list[int], named: list[int], column: str, down: bool) -> list[int]:
        if not ids:
            return []
        way = "desc" if down else "asc"
        first = f"id in ({', '.join('?' * len(named))}) desc, " if named else ""
        return self._ids(
            # As JSON they are one value: SQLite takes some thousands of those at most.
            "select id from recipes where id in (select value from json_each(?))"
            f" order by {first}{column} {way} nulls last, id desc",
            (json.dumps(ids), *named),
        )

    def _taken(self, search: Search, trashed: bool, hurry_s: float | None) -> _Taken:
        """Gather up to `MOST` matching recipes, those whose names match first."""
        with _Hurry(self._connection.db.conn, hurry_s) as hurry:
            taken = _Taken([])
            if search.names:
                taken.ids += self._matching(search, search.names, trashed, PAGE * 4, hurry)
                taken.named = len(taken.ids)
            seen = set(taken.ids)
            most = MOST if hurry_s is not None else NO_END
            others = self._matching(search, search.match, trashed, most, hurry)
            taken.ids += [each for each in others if each not in seen]
            taken.hurried = hurry.ended
            taken.whole = (most == NO_END or len(others) < most) and not hurry.ended
        return taken

    def _matching(
        self, search: Search, match: str | None, trashed: bool, limit: int, hurry: _Hurry
    ) -> list[int]:
        conditions, values = _conditions(search)
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


def _ordering(order: str, descending: bool | None) -> tuple[str, bool]:
    """Return the column of an order, and whether the largest comes first."""
    column = ORDERS[order]
    return column, column == "touched" if descending is None else descending


def _state(trashed: bool) -> str:
    return "trashed is not null" if trashed else "trashed is null"


def _conditions(search: Search) -> tuple[list[str], list[Any]]:
    """Return SQL conditions for tags and for ranges of figures, and their values."""
    has_tag = "id in (select recipe from tags where tag_key = ?)"
    conditions: list[str] = [has_tag] * len(search.tags)
    values: list[Any] = [key_of(each) for each in search.tags]
    for each in search.within:
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
        found: list[int] = []
        try:
            for row in self._conn.execute(sql, tuple(values)):
                found.append(row[0])
        except sqlite3.OperationalError as fault:
            if fault.sqlite_errorcode != sqlite3.SQLITE_INTERRUPT:
                raise
            self.ended = True
        return found
