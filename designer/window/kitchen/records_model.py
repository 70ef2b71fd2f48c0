"""Pots, fermenters and the cupboard as Qt tables: typed in any unit, kept as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor

from designer.errors import RefusedInputError
from designer.recipe.document import FERMENTER_KINDS, STOVES
from designer.recipe.quantity import Kind
from designer.units.marks import without_marks
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_table import ROOT, Index, PlainTable
from designer.window.session.autosave import Autosave
from designer.workbench.cupboard import read_price

if TYPE_CHECKING:
    from collections.abc import Callable

    from designer.library.store import Store
    from designer.library.store.kitchen import Records
    from designer.window.parts.second_reading import Other

_Role = Qt.ItemDataRole


@dataclass(frozen=True, slots=True)
class RecordColumn:
    """One column: the record's field, its heading, what it takes."""

    field: str
    heading: str
    kind: Kind | None = None
    choices: tuple[str, ...] = ()
    is_date: bool = False
    is_flag: bool = False
    price: bool = False
    suggests: str = ""
    tip: str = ""
    width: int = 96


POTS = (
    RecordColumn("name", "Pot", width=130),
    RecordColumn("volume", "Volume", Kind.VOLUME, width=70),
    RecordColumn("diameter", "Diameter", Kind.LENGTH, width=74),
    RecordColumn("stove", "Stove", choices=STOVES, width=74),
    RecordColumn("power", "Power", Kind.POWER, width=70),
    RecordColumn(
        "evaporation", "Evaporation", Kind.EVAPORATION, tip="As measured; see below", width=90
    ),
    RecordColumn("coil", "Coil", Kind.VOLUME, tip="What the cooling coil displaces", width=58),
    RecordColumn("cooling_constant", "Cooling", Kind.RATE, tip="As measured; see below", width=80),
    RecordColumn("notes", "Notes", width=80),
)
FERMENTERS = (
    RecordColumn("name", "Fermenter", width=130),
    RecordColumn("volume", "Volume", Kind.VOLUME, width=70),
    RecordColumn("graduation", "Marks every", Kind.VOLUME, width=90),
    RecordColumn("kind", "Kind", choices=FERMENTER_KINDS, width=110),
    RecordColumn("notes", "Notes", width=80),
)
CUPBOARD = (
    RecordColumn("name", "On hand", suggests="all", width=180),
    RecordColumn("amount", "Amount", Kind.DOSE, tip="500 g, 1 kg, 1 1/2 oz, 2 packets", width=80),
    RecordColumn("price", "Price", price=True, tip="9.50 / kg, or 4.20 for all", width=84),
    RecordColumn("alpha", "Alpha acid", Kind.FRACTION, tip="As the bag says, for hops", width=84),
    RecordColumn("lot", "Lot", width=66),
    RecordColumn("bought", "Bought", is_date=True, tip="2026-03-28", width=88),
    RecordColumn("best_before", "Best before", is_date=True, tip="2027-03-28", width=92),
    RecordColumn("open_bag", "Open", is_flag=True, tip="yes or no", width=56),
    RecordColumn("notes", "Notes", width=110),
)
YES = ("yes", "y", "true", "1", "open", "x")
NO = ("", "no", "n", "false", "0", "closed")


class RecordsModel(PlainTable):
    """Records of one kind; the last row takes a new one.

    `removed` says what was taken out, and carries what brings it back.
    """

    may_be_blank = True

    refused = Signal(str)
    removed = Signal(str, object)
    records_changed = Signal()

    def __init__(
        self,
        autosave: Autosave,
        in_store: Callable[[Store], Records[Any]],
        of: type[Any],
        columns: tuple[RecordColumn, ...],
        display: DisplayFormat,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(columns, parent)
        self._autosave, self._in_store, self._of = autosave, in_store, of
        self.columns, self._display = columns, display
        self.records: tuple[Any, ...] = ()
        self._numbers: dict[int, int] = {}  # what a new record is known by here: its number there
        self._waiting = 0

    def load(self) -> None:
        """Read the records anew."""
        in_store = self._in_store
        self._autosave.store.ask(
            lambda store: tuple(in_store(store).all()), self._read_anew, self.refused.emit,
            key=f"load {self._of.__name__}",
        )  # fmt: skip

    def _read_anew(self, records: tuple[Any, ...]) -> None:
        """Show what the store holds, unless it has yet to hear of changes shown already."""
        if not self._waiting:
            self._show(records)

    def _show(self, records: tuple[Any, ...]) -> None:
        if records == self.records:
            return

        def put() -> None:
            self.records = records

        old = [self._numbers.get(each.id, each.id) for each in self.records]
        self.follow_rows(old, [self._numbers.get(each.id, each.id) for each in records], put)
        if records:
            last = self.index(len(records) - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, 0), last)
        self.records_changed.emit()

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.records) + 1

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        is_new = index.row() >= len(self.records)
        return flags if is_new and index.column() else flags | Qt.ItemFlag.ItemIsEditable

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid():
            return None
        if self.not_taken and (said := self.not_taken.data(index, role)) is not None:
            return said
        column = self.columns[index.column()]
        if index.row() >= len(self.records):
            return self._invitation(index.column(), role)
        record = self.records[index.row()]
        if role in (_Role.DisplayRole, _Role.EditRole):
            return self._text(column, record)
        if role == _Role.AccessibleTextRole:
            return f"{column.heading} of {record.name}: {self._text(column, record) or 'not given'}"
        if role == _Role.ToolTipRole:
            return column.tip or None
        return None

    def _invitation(self, column: int, role: int) -> Any:
        if column == 0 and role == _Role.DisplayRole:
            return "Type a name …"
        if role == _Role.EditRole:
            return ""
        if role == _Role.ForegroundRole:
            return QColor(self.inks.ink_soft)
        return None

    def _text(self, column: RecordColumn, record: Any) -> str:
        value = getattr(record, column.field)
        if column.is_flag:
            return "yes" if value else ""
        if column.is_date:
            return value.isoformat() if value is not None else ""
        if column.kind is not None:
            return self._display.kept_text(column.kind, str(value))
        return str(value)

    def text_to_edit(self, index: Index) -> str:
        if index.row() >= len(self.records):
            return ""
        return self._text(self.columns[index.column()], self.records[index.row()])

    def fault_of(self, index: Index, text: str) -> str:
        typed = text.strip()
        if index.row() >= len(self.records) or typed == self.text_to_edit(index):
            return ""
        try:
            self._read(self.columns[index.column()], typed, self.text_to_edit(index))
        except RefusedInputError as fault:
            return str(fault)
        return ""

    def setData(self, index: Index, value: Any, role: int = _Role.EditRole) -> bool:
        if role != _Role.EditRole or not index.isValid():
            return False
        column, text = self.columns[index.column()], str(value).strip()
        if index.row() >= len(self.records):
            return self._add(text)
        before = self.records[index.row()]
        if text == self._text(column, before):
            return True
        try:
            after = replace(
                before, **{column.field: self._read(column, text, self._text(column, before))}
            )
        except RefusedInputError as fault:
            self.refused.emit(f"{column.heading} of {before.name}: {fault}")
            return False
        self._show(tuple(after if each is before else each for each in self.records))
        self._change(lambda records: records.update(self._numbered(before), self._numbered(after)))
        return True

    def _read(self, column: RecordColumn, text: str, before: str = "") -> Any:
        """Return what a cell's text is kept as; `before` is what it showed.

        Raises RefusedInputError.
        """
        if column.is_flag:
            return _flag(text)
        if column.is_date:
            return _date(text)
        if column.field == "name" and not text:
            raise RefusedInputError("a name is wanted; Delete takes the line out")
        if column.choices and text and text not in column.choices:
            raise RefusedInputError(f"one of: {', '.join(column.choices)}")
        if column.price and text:
            money = text.partition("/")[0].strip()
            text = text.replace(money, self._display.read(Kind.MONEY, money).text, 1)
            read_price(text)
        elif column.kind is not None and text:
            return self._display.read(column.kind, text, before).text
        return without_marks(text)

    def otherwise(self, index: Index, text: str) -> Other | None:
        """Return what may have been meant by a text of a cell; None if it is likely as it is."""
        column = self.columns[index.column()]
        if column.kind is None or index.row() >= len(self.records):
            return None
        from math import inf

        from designer.recipe.fields import FieldFacts
        from designer.window.parts.second_reading import otherwise

        sacks = (0.0, 60_000.0) if column.kind is Kind.DOSE else None
        facts = FieldFacts(column.heading, column.kind, -inf, inf, likely=sacks)
        before = self._text(column, self.records[index.row()])
        return otherwise(self._display, facts, self._display.with_unit(column.kind, text, before))

    def _add(self, name: str) -> bool:
        if not name:
            return False
        self.keep(self._of(name=name))
        return True

    def remove(self, row: int) -> None:
        """Take a record out."""
        if row < len(self.records):
            gone = self.records[row]
            self._show((*self.records[:row], *self.records[row + 1 :]))
            self._change(lambda records: records.delete(self._numbered(gone).id))
            self.removed.emit(f"{gone.name} taken out.", lambda: self._bring_back(gone, row))

    def _bring_back(self, gone: Any, row: int) -> None:
        """Put back what was taken out, under its old number."""
        self._show((*self.records[:row], gone, *self.records[row:]))
        self._change(lambda records: records.insert(self._numbered(gone)))

    def keep(self, record: Any) -> None:
        """Keep a new record; it is shown at once, however late the store answers."""
        passing = min((each.id for each in self.records), default=0)
        known = replace(record, id=min(passing, -len(self._numbers)) - 1)
        self._show((*self.records, known))

        def work(records: Records[Any]) -> None:
            self._numbers[known.id] = records.insert(record).id

        self._change(work)

    def _numbered(self, record: Any) -> Any:
        """Return a record under its number in the store; called there, after it was kept."""
        return replace(record, id=self._numbers.get(record.id, record.id))

    def _change(self, work: Callable[[Records[Any]], object]) -> None:
        self._waiting += 1
        in_store = self._in_store

        def answered() -> None:
            self._waiting -= 1
            if not self._waiting:
                self.load()

        def fail(text: str) -> None:
            self.refused.emit(text)
            answered()  # what was shown at once is not so

        self._autosave.store.ask(lambda store: work(in_store(store)), lambda _: answered(), fail)


def _flag(text: str) -> bool:
    word = text.casefold()
    if word in YES:
        return True
    if word in NO:
        return False
    raise RefusedInputError("yes or no")


def _date(text: str) -> date | None:
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise RefusedInputError(f"“{text[:40]}” is not a date like 2026-03-28") from None
