"""A short list as a Qt table with an undo of its own: what is changed here is no recipe.

Every change is checked before it is taken; what is refused is told with its place, and the old
entry stays.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, cast

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QAbstractItemView

from designer.errors import RefusedInputError
from designer.window.parts.plain_table import ROOT, Index, PlainTable, PlainTableView

_Role = Qt.ItemDataRole
Rows = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class SmallColumn:
    """A column: how a row shows in it, and the row that a typed text makes of one.

    `change` raises RefusedInputError for what it cannot take.
    """

    heading: str
    show: Callable[[Any], str]
    change: Callable[[Any, str], Any]
    choices: tuple[str, ...] = ()
    suggests: str = ""
    tip: str = ""
    width: int = 110


def with_unit(text: str, unit: str) -> str:
    """Return what was typed, with a unit where it has none: `30`, `1 1/2`."""
    typed = text.strip()
    return f"{typed} {unit}" if typed and not any(each.isalpha() for each in typed) else typed


class SmallTable(PlainTable):
    """Rows of any kind; `check` raises RefusedInputError for rows that cannot stand together.

    `stepped` tells the row in which an undo or a redo is seen.
    """

    refused = Signal(str)
    rows_changed = Signal()
    stepped = Signal(int)

    def __init__(
        self,
        columns: tuple[SmallColumn, ...],
        name_of: Callable[[Any], str],
        check: Callable[[Rows], Rows] = lambda rows: rows,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(columns, parent)
        self.columns = columns
        self._name_of, self._check = name_of, check
        self.rows: Rows = ()
        self._past: list[Rows] = []
        self._future: list[Rows] = []

    # rows

    def put(self, rows: Rows) -> None:
        """Show rows that come from elsewhere; there is nothing to undo before them."""
        self._past, self._future = [], []
        self._show(rows)

    def make(self, rows: Rows, place: str = "") -> bool:
        """Change to other rows as one step; False, and told why, for rows that are refused."""
        try:
            checked = self._check(rows)
        except RefusedInputError as fault:
            self.refused.emit(f"{place}: {fault}" if place else str(fault))
            return False
        if checked != self.rows:
            self._past.append(self.rows)
            self._future = []
            self._show(checked)
        return True

    def remove(self, row: int) -> None:
        """Take a row out."""
        if 0 <= row < len(self.rows):
            self.make((*self.rows[:row], *self.rows[row + 1 :]))

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to take back."""
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        """Whether there is a step to do again."""
        return bool(self._future)

    def undo(self) -> None:
        """Take the last step back."""
        if self._past:
            self._future.append(self.rows)
            self._step_to(self._past.pop())

    def redo(self) -> None:
        """Do the step again that was taken back last."""
        if self._future:
            self._past.append(self.rows)
            self._step_to(self._future.pop())

    def _step_to(self, rows: Rows) -> None:
        """Show rows, and tell the first that is other than before."""
        before = self.rows
        self._show(rows)
        self.stepped.emit(
            next((n for n, row in enumerate(rows) if before[n : n + 1] != (row,)), len(rows) - 1)
        )

    def retell(self) -> None:
        """Show the same rows anew, in other units."""
        if self.rows:
            self.dataChanged.emit(
                self.index(0, 0), self.index(len(self.rows) - 1, len(self.columns) - 1)
            )

    def _show(self, rows: Rows) -> None:
        def put() -> None:
            self.rows = rows

        self.follow_rows(self.rows, rows, put)
        self.rows_changed.emit()

    # the table

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        chosen = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        return chosen | Qt.ItemFlag.ItemIsEditable

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid():
            return None
        if self.not_taken and (said := self.not_taken.data(index, role)) is not None:
            return said
        column, row = self.columns[index.column()], self.rows[index.row()]
        if role in (_Role.DisplayRole, _Role.EditRole):
            return column.show(row)
        if role == _Role.AccessibleTextRole:
            return f"{column.heading} of {self._name_of(row)}: {column.show(row)}"
        if role == _Role.ToolTipRole:
            return column.tip or None
        return None

    def text_to_edit(self, index: Index) -> str:
        return self.columns[index.column()].show(self.rows[index.row()])

    def fault_of(self, index: Index, text: str) -> str:
        number, column = index.row(), self.columns[index.column()]
        row = self.rows[number]
        if text.strip() == column.show(row):
            return ""
        try:
            changed = column.change(row, text.strip())
            self._check((*self.rows[:number], changed, *self.rows[number + 1 :]))
        except RefusedInputError as fault:
            return str(fault)
        return ""

    def setData(self, index: Index, value: Any, role: int = _Role.EditRole) -> bool:
        if role != _Role.EditRole or not index.isValid():
            return False
        number, column, text = index.row(), self.columns[index.column()], str(value).strip()
        row = self.rows[number]
        if text == column.show(row):
            return True
        place = f"{column.heading} of {self._name_of(row)}"
        try:
            changed = column.change(row, text)
        except RefusedInputError as fault:
            self.refused.emit(f"{place}: {fault}. The old entry stays.")
            return False
        return self.make((*self.rows[:number], changed, *self.rows[number + 1 :]), place)


class SmallTableView(PlainTableView):
    """The table, one cell at a time; Undo and Redo are the table's own."""

    def __init__(self, model: SmallTable, name: str) -> None:
        super().__init__(model, name)
        self._table = model
        model.stepped.connect(self.show_cell)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)

    def show_rows(self, count: int) -> None:
        """Be just as high as so many rows."""
        rows = count * self.verticalHeader().defaultSectionSize()
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + rows + 6)

    def event(self, event: QEvent) -> bool:
        """Keep Undo and Redo here: the recipe's would change what is not looked at."""
        if event.type() == QEvent.Type.ShortcutOverride and self._own(cast(QKeyEvent, event)):
            event.accept()
            return True
        return bool(super().event(event))

    def _own(self, event: QKeyEvent) -> Callable[[], None] | None:
        if event.matches(QKeySequence.StandardKey.Undo):
            return self._table.undo
        return self._table.redo if event.matches(QKeySequence.StandardKey.Redo) else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        own = self._own(event)
        if own is not None and not self.is_editing:
            own()
        else:
            super().keyPressEvent(event)
