"""Pots, fermenters and the cupboard as Qt tables: shown at once, kept in the Recipe box."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QIcon

from designer.translation import message, tr
from designer.window.kitchen.records_order import in_order
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.drawn_icons import drawn_icon, no_icon
from designer.window.parts.ordering import Order
from designer.window.parts.table_model import Role
from designer.window.parts.typed_table import TypedTable
from designer.window.session.autosave import Autosave

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.kitchen import Records


class RecordsModel(TypedTable):
    """Records of one kind; the last row takes a new one.

    `removed` says what was taken out, `typed` what was typed, and both carry the way back.
    """

    takes_new = True
    invitation = message("Type a name …")
    may_be_blank = True
    removed = Signal(str, object)
    typed = Signal(str, object)
    records_changed = Signal()

    def __init__(
        self,
        autosave: Autosave,
        in_store: Callable[[Store], Records[Any]],
        of: type[Any],
        columns: Sequence[Column],
        display: DisplayFormat,
        drawing: Callable[[Any], str],
        parent: QObject | None = None,
    ) -> None:
        """`drawing` names the drawing that stands for a record beside its name; "" for none."""
        super().__init__(columns, display, parent)
        self._drawing = drawing
        self.answers[Role.DecorationRole] = self._icon
        self._autosave, self._in_store, self._of = autosave, in_store, of
        self.rows: tuple[Any, ...] = ()
        self._numbers: dict[int, int] = {}  # what a new record is known by here: its number there
        self._waiting = 0
        self.order: Order | None = None
        """None for as they were added."""

    def order_by(self, order: Order | None) -> None:
        """Show the records in another order; new ones and changed ones come into it when kept."""
        self.order = order
        if order is None:
            self.load()
        else:
            self._show(self._ordered(self.rows))

    def _ordered(self, records: tuple[Any, ...]) -> tuple[Any, ...]:
        if self.order is None:
            return records
        return in_order(records, self.columns, self.order, self.display)

    def _icon(self, column: Column, row: Any) -> QIcon | None:
        """Return what a record is, beside its name."""
        if column.key != "name":
            return None
        name = self._drawing(row)
        return drawn_icon(name) if name else no_icon()

    def load(self) -> None:
        """Read the records anew."""
        in_store = self._in_store
        self._autosave.store.ask(
            lambda store: tuple(in_store(store).all()),
            self._read_anew,
            self.refused.emit,
            key=f"load {self._of.__name__}",
        )

    def _read_anew(self, records: tuple[Any, ...]) -> None:
        """Show what the store holds, unless it has yet to hear of changes shown already."""
        if not self._waiting:
            self._show(self._ordered(records))

    def _show(self, records: tuple[Any, ...]) -> None:
        if records == self.rows:
            return

        def put() -> None:
            self.rows = records

        old = [self._numbers.get(each.id, each.id) for each in self.rows]
        self.follow_rows(old, [self._numbers.get(each.id, each.id) for each in records], put)
        self.tell_rows(0, len(records) - 1)
        self.records_changed.emit()

    def put_row(self, number: int, row: Any, place: str) -> bool:
        before = self.rows[number]
        self._put(number, row)
        if row != before:
            self.typed.emit(tr("{name} changed.", name=row.name), partial(self._put_back, before))
        return True

    def _put(self, number: int, row: Any) -> None:
        before = self.rows[number]
        self._show((*self.rows[:number], row, *self.rows[number + 1 :]))
        self._change(lambda records: records.update(self._numbered(before), self._numbered(row)))

    def _put_back(self, before: Any) -> None:
        """Put a record back as it was, wherever it stands now; one that is gone stays so."""
        number = self._place_of(before)
        if number is not None:
            self._put(number, replace(before, id=self.rows[number].id))

    def _place_of(self, record: Any) -> int | None:
        """Return the row of a record, which may have been numbered by the store since."""
        wanted = self._numbered(record).id
        rows = enumerate(self.rows)
        return next((place for place, each in rows if self._numbered(each).id == wanted), None)

    def add(self, text: str) -> bool:
        if text:
            self.keep(self._of(name=text))
        return bool(text)

    def remove(self, rows: Sequence[int]) -> None:
        for number in sorted(rows, reverse=True):
            if 0 <= number < len(self.rows):
                self._take_out(number)

    def _take_out(self, number: int) -> None:
        gone = self.rows[number]
        self._leave_out(number)
        self.removed.emit(
            tr("{name} taken out.", name=gone.name), lambda: self._bring_back(gone, number)
        )

    def _leave_out(self, number: int) -> None:
        gone = self.rows[number]
        self._show((*self.rows[:number], *self.rows[number + 1 :]))
        self._change(lambda records: records.delete(self._numbered(gone).id))

    def _take_back(self, kept: Any) -> None:
        """Leave a new record out again."""
        number = self._place_of(kept)
        if number is not None:
            self._leave_out(number)

    def _bring_back(self, gone: Any, row: int) -> None:
        """Put back what was taken out, under its old number."""
        self._show((*self.rows[:row], gone, *self.rows[row:]))
        self._change(lambda records: records.insert(self._numbered(gone)))

    def keep(self, record: Any) -> None:
        """Keep a new record; it is shown at once, however late the store answers."""
        passing = min((each.id for each in self.rows), default=0)
        known = replace(record, id=min(passing, -len(self._numbers)) - 1)
        self._show((*self.rows, known))

        def work(records: Records[Any]) -> None:
            self._numbers[known.id] = records.insert(record).id

        self._change(work)
        self.typed.emit(tr("{name} added.", name=record.name), partial(self._take_back, known))

    def _numbered(self, record: Any) -> Any:
        """Return a record under its number in the store; called there, after it was kept."""
        return replace(record, id=self._numbers.get(record.id, record.id))

    def _change(self, work: Callable[[Records[Any]], object]) -> None:
        in_store = self._in_store
        self._waiting += 1

        def answered() -> None:
            self._waiting -= 1
            if not self._waiting:
                self.load()

        def fail(text: str) -> None:
            self.refused.emit(text)
            answered()  # what was shown at once is not so

        self._autosave.store.ask(lambda store: work(in_store(store)), lambda _: answered(), fail)
