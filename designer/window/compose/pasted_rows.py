"""The rows of a pasted text as a Qt table: what each would become, ticked or not."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor

from designer.errors import RefusedInputError
from designer.library.holding import as_held
from designer.library.pasted import PastedTable, Row
from designer.recipe.document import Recipe
from designer.recipe.edits import BRING_IN, PASTE, Together, lines_added
from designer.window.compose.lines_columns import ALL, shown_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.icons import finding_icon
from designer.window.parts.inks import LIGHT

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()
ADD, READ_AS, GOES_TO, FIRST_CELL = range(4)
HEADINGS = ("Add", "Read as", "Goes to")
LIST_NAMES = {spec.lines: spec.heading for spec in ALL}
_Role = Qt.ItemDataRole
_Flag = Qt.ItemFlag


class PastedRows(QAbstractTableModel):
    """The rows; `table` is put anew by `show`, `changed` tells of that and of every tick."""

    changed = Signal()

    def __init__(
        self,
        table: PastedTable,
        recipe: Recipe,
        display: DisplayFormat,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.table, self.inks = table, LIGHT
        self._recipe, self._display = recipe, display
        self._ticks: dict[int, bool] = {}

    # what is chosen

    def show(self, table: PastedTable) -> None:
        """Show the text read another way; ticks stay as long as the rows are the same."""
        same = len(table.cells) == len(self.table.cells) and table.parting is self.table.parting
        if not same:
            self._ticks = {}
        if same and len(table.uses) == len(self.table.uses):
            self.table = table
            last = self.index(self.rowCount() - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, 0), last)
        else:
            self.beginResetModel()
            self.table = table
            self.endResetModel()
        self.changed.emit()

    def is_ticked(self, row: int) -> bool:
        """Whether a row is to be added."""
        read = self.table.rows[row]
        return read.line is not None and self._ticks.get(row, read.likely)

    def tick(self, rows: list[int]) -> None:
        """Tick rows, or take their ticks away where all that can be ticked are."""
        free = [row for row in rows if self.table.rows[row].line is not None]
        wanted = not all(self.is_ticked(row) for row in free)
        for row in free:
            self._ticks[row] = wanted
            self.dataChanged.emit(self.index(row, 0), self.index(row, self.columnCount() - 1))
        if free:
            self.changed.emit()

    def edit(self) -> Together:
        """Return the edit that adds what is ticked."""
        ticked = [row for at, row in enumerate(self.table.rows) if self.is_ticked(at)]
        found = [(row.lines, row.line) for row in ticked if row.line is not None]
        return lines_added(found, PASTE if self.table.asked_for else BRING_IN)

    def refusal(self) -> str:
        """Return why the recipe cannot hold what is ticked; "" if it can."""
        try:
            as_held(self._recipe, self.edit().apply(self._recipe))
        except RefusedInputError as fault:
            return str(fault)
        return ""

    def said(self, row: int) -> str:
        """Return what a row is read as, or why it is not, and what is in doubt about it."""
        read = self.table.rows[row]
        if read.line is None:
            return f"{'Not read' if read.likely else 'Left out'}: {read.fault}"
        spec = next(spec for spec in ALL if spec.lines == read.lines)
        texts = [
            shown_text(column, read.line, None, self._display)
            for column in spec.columns
            if column.field
        ]
        said = ", ".join(text for text in texts if text)
        return f"{said} – {read.doubt}" if read.doubt else said

    # what Qt asks

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.table.cells)

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else FIRST_CELL + len(self.table.uses)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == _Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        return HEADINGS[section] if role == _Role.DisplayRole and section < FIRST_CELL else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return _Flag.NoItemFlags
        flags = _Flag.ItemIsSelectable | _Flag.ItemIsEnabled
        if index.column() == ADD:
            can = self.table.rows[index.row()].line is not None
            return flags | _Flag.ItemIsUserCheckable if can else flags
        return flags if index.column() == READ_AS else flags | _Flag.ItemIsEditable

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row, read = index.row(), self.table.rows[index.row()]
        if role in (_Role.DisplayRole, _Role.EditRole):
            return self._text(row, index.column())
        if role == _Role.CheckStateRole and index.column() == ADD and read.line is not None:
            return Qt.CheckState.Checked if self.is_ticked(row) else Qt.CheckState.Unchecked
        if role == _Role.ForegroundRole:
            return None if self.is_ticked(row) else QColor(self.inks.ink_soft)
        if role == _Role.DecorationRole and index.column() == READ_AS:
            return self._sign(read)
        if role == _Role.AccessibleTextRole:
            return self._spoken(row, index.column())
        return None

    def setData(self, index: Index, value: Any, role: int = _Role.EditRole) -> bool:
        row, column = index.row(), index.column()
        if role == _Role.CheckStateRole and column == ADD:
            self.tick([row])
            return True
        if role != _Role.EditRole or value == self._text(row, column):
            return False
        if column == GOES_TO:
            lines = next(key for key, name in LIST_NAMES.items() if name == value)
            self.show(self.table.with_list(row, lines))
        else:
            self.show(self.table.with_cell(row, column - FIRST_CELL, str(value)))
        return True

    def _text(self, row: int, column: int) -> str:
        if column == READ_AS:
            return self.said(row)
        if column == GOES_TO:
            read = self.table.rows[row]
            return LIST_NAMES.get(read.lines, "") if read.line is not None or read.likely else ""
        return self.table.cells[row][column - FIRST_CELL] if column >= FIRST_CELL else ""

    def _sign(self, read: Row) -> Any:
        if read.line is None and read.likely:
            return finding_icon("stop", self.inks)
        return finding_icon("care", self.inks) if read.line is not None and read.doubt else None

    def _spoken(self, row: int, column: int) -> str:
        if column == ADD:
            said = "to be added" if self.is_ticked(row) else "not to be added"
            return f"Row {row + 1}: {said}"
        heading = HEADINGS[column] if column < FIRST_CELL else "Text"
        return f"{heading}, row {row + 1}: {self._text(row, column) or 'empty'}"
