"""What the brewer did with figures that the kitchen taught: a list that only grows.

The last line of a figure of a subject counts. What was taken is written into the vessel's own
record in the same step, and put back with it; figures of yeasts and of the brewer stand here alone.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Any, NamedTuple

from designer.library.store.changes import note
from designer.library.store.connection import Connection, inserted
from designer.library.store.values import from_row, now_text

if TYPE_CHECKING:
    from sqlite_utils import Database


class Does(StrEnum):
    """What was done with a figure; the words are those of the store and never change."""

    TOOK = "took"
    LET_BE = "let be"
    GAVE_BACK = "gave back"


class OfVessel(NamedTuple):
    """Where a figure stands in the record of a vessel: the table and its column."""

    table: str
    column: str


@dataclass(frozen=True, slots=True)
class TaughtRow:
    """What was done with a figure of a subject, and when (UTC).

    `value` is the figure with its ± as text, `before` what stood there ("" for nothing), `brews`
    the lasting names of the brews that it rests on, as JSON.
    """

    figure: str
    subject: str
    does: str
    value: str = ""
    before: str = ""
    at: str = ""
    brews: str = "[]"
    id: int = 0

    @property
    def rests_on(self) -> tuple[str, ...]:
        """The lasting names of its brews; none where they cannot be read."""
        try:
            found = json.loads(self.brews)
        except ValueError:
            return ()
        return tuple(str(each) for each in found) if isinstance(found, list) else ()


class TaughtFigures:
    """The figures of a store that were taught. Writing raises DesignerError."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> list[TaughtRow]:
        """Return all that was done, in the order in which it was."""
        found = self._connection.rows("select * from taught order by id")
        return [from_row(TaughtRow, row) for row in found]

    def last(self) -> dict[tuple[str, str], TaughtRow]:
        """Return what was done last with each figure of each subject."""
        return {(each.figure, each.subject): each for each in self.all()}

    def write(
        self,
        row: TaughtRow,
        of_vessel: OfVessel | None = None,
        brews: Iterable[str] = (),
        *,
        again: bool = False,
    ) -> TaughtRow:
        """Note what is done with a figure, and write its value into the record of the vessel.

        All of it or nothing. A vessel of that name that is not there is no fault. `before` of what
        is returned is what stood in the vessel; without one, or where the figure is taken `again`,
        it is that of `row`.
        """
        rests_on = json.dumps(list(brews)) if brews else row.brews
        told = replace(row, at=row.at or now_text(), brews=rests_on)

        def work(db: Database) -> TaughtRow:
            before = row.before
            if of_vessel is not None:
                stood = _into_vessel(db, of_vessel, row.subject, row.value)
                before = row.before if again else stood
            values: dict[str, Any] = {
                "figure": told.figure,
                "subject": told.subject,
                "does": str(told.does),
                "value": told.value,
                "before": before,
                "at": told.at,
                "brews": told.brews,
            }
            number = inserted(db, "taught", values)
            note(db, "taught", number)
            return replace(told, before=before, id=number)

        return self._connection.write(work)


def _into_vessel(db: Database, of: OfVessel, name: str, value: str) -> str:
    """Write a figure into the vessels of that name; return what stood in the first of them."""
    vessels = list(db.table(of.table).rows_where("name = ?", [name], order_by="id"))
    for each in vessels:
        db.table(of.table).update(each["id"], {of.column: value})
        note(db, of.table, each["id"])
    return str(vessels[0][of.column]) if vessels else ""
