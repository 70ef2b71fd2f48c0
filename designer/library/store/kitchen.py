"""Kitchen things as records: pots, fermenters and what lies in the cupboard.

Quantities are the text that was typed ("9 L", "3.3 lb"), so that nothing drifts; the reader turns
them into numbers with `designer.units`.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from datetime import date
from typing import TYPE_CHECKING, Generic, TypeVar

from designer.library.store.changes import note
from designer.library.store.connection import Connection
from designer.library.store.values import from_row

if TYPE_CHECKING:
    from sqlite_utils import Database


@dataclass(frozen=True, slots=True)
class PotRecord:
    """A boiling pot with the stove it stands on and what was measured with it."""

    name: str
    volume: str = ""
    diameter: str = ""
    stove: str = ""
    power: str = ""
    evaporation: str = ""
    heat_loss: str = ""
    coil: str = ""
    cooling_constant: str = ""
    left_in_pot: str = ""
    notes: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class FermenterRecord:
    """A fermenting vessel; `graduation` is the step of its volume marks.

    `marks_hold` is what is really in it for each litre that a mark says, as a share.
    """

    name: str
    volume: str = ""
    graduation: str = ""
    kind: str = ""
    notes: str = ""
    marks_hold: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class CupboardRecord:
    """An ingredient on hand: how much is left, what it cost, what its bag says."""

    name: str
    kind: str = ""
    amount: str = ""
    price: str = ""
    alpha: str = ""
    lot: str = ""
    bought: date | None = None
    best_before: date | None = None
    open_bag: bool = False
    notes: str = ""
    id: int = 0


Record = TypeVar("Record", bound=PotRecord | FermenterRecord | CupboardRecord)


class Records(Generic[Record]):
    """The records of one table. Writing raises DesignerError where the world says no."""

    def __init__(self, connection: Connection, table: str, of: type[Record]) -> None:
        self._connection, self._table, self._of = connection, table, of

    def all(self) -> list[Record]:
        """Return all records in the order they were made."""
        found = self._connection.rows(f"select * from {self._table} order by id")
        return [from_row(self._of, row) for row in found]

    def get(self, number: int) -> Record | None:
        """Return one record, or None if there is none of that number."""
        row = self._connection.row(f"select * from {self._table} where id = ?", (number,))
        return from_row(self._of, row) if row else None

    def insert(self, record: Record) -> Record:
        """Keep a new record; return it with its number.

        A record that has a number keeps it if that is free: so a deleted one comes back.
        """

        def work(db: Database) -> int:
            row = asdict(record)
            if not record.id or self._is_there(db, record.id):
                del row["id"]
            number = int(db.table(self._table).insert(row).last_pk or 0)
            note(db, self._table, number)
            return number

        return replace(record, id=self._connection.write(work))

    def update(self, before: Record, after: Record) -> Record:
        """Keep what differs between `before` and `after`; return the record as it now stands.

        What another window changed in other fields stays changed; a record it deleted comes back.
        """
        was, now = asdict(before), asdict(after)
        changed = {key: now[key] for key in now if key != "id" and now[key] != was[key]}

        def work(db: Database) -> int:
            if not self._is_there(db, before.id):
                return self.insert(replace(after, id=before.id)).id
            if changed:
                db.table(self._table).update(before.id, changed)
                note(db, self._table, before.id)
            return before.id

        number = self._connection.write(work)
        return self.get(number) or replace(after, id=number)

    def delete(self, number: int) -> None:
        """Delete a record; `insert` with what was deleted brings it back."""

        def work(db: Database) -> None:
            db.table(self._table).delete_where("id = ?", (number,))
            note(db, self._table, number)

        self._connection.write(work)

    def _is_there(self, db: Database, number: int) -> bool:
        return db.table(self._table).count_where("id = ?", (number,)) > 0
