"""The base of every table: rows under columns, and what Qt asks of a cell, answered once.

A subclass holds the rows and says what is its own about them: what a row is called, signs, tips.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)

from designer.translation import isolated, message, named, tr
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.not_taken import NotTaken

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()
Role = Qt.ItemDataRole


class TableModel(QAbstractTableModel):
    """Rows that are seen; `answers` says what a cell of a row answers to each role of Qt's."""

    takes_new = False
    """Whether the last row takes a new one."""
    if_empty = message("not given")
    """What is spoken of a cell in which nothing stands."""

    def __init__(
        self, columns: Sequence[Column], display: DisplayFormat, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.columns, self.display = tuple(columns), display
        self.rows: Sequence[Any] = ()
        self.marks: NotTaken | None = None
        self.answers: dict[int, Callable[[Column, Any], Any]] = {
            Role.DisplayRole: self.text,
            Role.EditRole: self.edit_text,
            Role.TextAlignmentRole: lambda column, _: column.alignment,
            Role.ToolTipRole: self.tip,
            Role.AccessibleTextRole: self.spoken,
        }

    # what a table says of its rows

    def row_at(self, number: int) -> Any:
        """Return the row at a place; None where there is none (yet)."""
        return self.rows[number] if 0 <= number < len(self.rows) else None

    def name_of(self, row: Any) -> str:
        """Return what a row is called where a cell of it is spoken of."""
        return named(str(row.name))

    def text(self, column: Column, row: Any) -> str:
        """Return what a cell shows."""
        return column.text_of(row, self.display)

    def edit_text(self, column: Column, row: Any) -> str:
        """Return the text that an editor of a cell begins with."""
        return column.edit_text(row, self.display)

    def tip(self, column: Column, row: Any) -> str | None:
        """Return the tip of a cell."""
        return tr(column.tip) or None

    def spoken(self, column: Column, row: Any) -> str:
        """Return what a screen reader says of a cell."""
        return tr(
            "{column} of {row}: {text}",
            column=tr(column.heading),
            row=self.name_of(row),
            text=self.text(column, row) or tr(self.if_empty),
        )

    def without_row(self, column: Column, role: int) -> Any:
        """Return what a cell answers behind which no row stands (yet)."""
        return None

    def column_of(self, key: str) -> int:
        """Return the number of a column."""
        return next(number for number, each in enumerate(self.columns) if each.key == key)

    # what Qt asks

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows) + self.takes_new

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(self.columns):
            return None
        column = self.columns[section]
        if role == Role.DisplayRole:
            return tr(column.heading)
        if role == Role.ToolTipRole:
            return self._tip(column)
        return column.alignment if role == Role.TextAlignmentRole else None

    def _tip(self, column: Column) -> str | None:
        """The tip of a heading, and what its terms mean; None leaves those to the window."""
        from designer.window.parts.explained import with_meaning  # when a tip is first asked for

        return with_meaning(tr(column.tip), tr(column.heading)) if column.tip else None

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:
        if not index.isValid():
            return None
        if self.marks and (said := self.marks.data(index, role)) is not None:
            return said
        column, row = self.columns[index.column()], self.row_at(index.row())
        if row is None:
            return self.without_row(column, role)
        answer = self.answers.get(role)
        said = answer(column, row) if answer is not None else None
        if role == Role.DisplayRole and column.right and isinstance(said, str):
            return isolated(said)
        return said

    # telling of changes

    def tell_row(self, number: int) -> None:
        """Tell that all of a row may have changed."""
        self.tell_rows(number, number)

    def tell_rows(self, first: int, last: int) -> None:
        """Tell that rows may have changed, `last` included; nothing where there are none."""
        if last >= first:
            end = self.index(last, len(self.columns) - 1)
            self.dataChanged.emit(self.index(first, 0), end)

    def put_rows(self, rows: Sequence[Any]) -> None:
        """Show other rows in place of all."""
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()
