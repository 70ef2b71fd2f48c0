"""The rows of a pasted text as a Qt table: what each would become, ticked or not."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor

from designer.errors import RefusedInputError
from designer.library.pasted import Means, PastedTable
from designer.library.round_trip import as_held
from designer.recipe.document import Recipe
from designer.recipe.edits import BRING_IN, PASTE, Together, lines_added
from designer.recipe.named import value_of
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.translation import message, tr
from designer.window.compose.lines_columns import ALL
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.icons import finding_icon
from designer.window.parts.inks import LIGHT
from designer.window.parts.table_model import Index, Role, TableModel

ADD, READ_AS, GOES_TO, FIRST_CELL = range(4)
LIST_NAMES = {spec.lines: spec.words.heading for spec in ALL}
_Flag = Qt.ItemFlag


class PastedRows(TableModel):
    """The rows, by their numbers; `changed` tells of a `table` put by `show` and of every tick."""

    changed = Signal()

    def __init__(
        self,
        table: PastedTable,
        recipe: Recipe,
        display: DisplayFormat,
        parent: QObject | None = None,
    ) -> None:
        super().__init__((), display, parent)
        self.inks, self._recipe = LIGHT, recipe
        self._ticks: dict[int, bool] = {}
        self._put(table)
        self.answers |= {
            Role.CheckStateRole: self._tick_of,
            Role.ForegroundRole: self._foreground,
            Role.DecorationRole: self._sign,
        }

    def _put(self, table: PastedTable) -> None:
        self.table = table
        self.rows = range(len(table.cells))
        self.columns = (
            Column("add", message("Add"), text=lambda row, _: ""),
            Column("read", message("Read as"), text=lambda row, _: self.said(row)),
            Column("list", message("Goes to"), text=lambda row, _: self._list_name(row)),
            *(self._cells(number) for number in range(len(table.uses))),
        )

    def _cells(self, number: int) -> Column:
        return Column("", "", text=lambda row, _: self.table.cells[row][number])

    # what is chosen

    def show(self, table: PastedTable) -> None:
        """Show the text read another way; ticks stay as long as the rows are the same."""
        same = len(table.cells) == len(self.table.cells) and table.parting is self.table.parting
        if not same:
            self._ticks = {}
        if same and len(table.uses) == len(self.table.uses):
            self.table = table
            self.tell_rows(0, self.rowCount() - 1)
        else:
            self.beginResetModel()
            self._put(table)
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
            self.tell_row(row)
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
            if read.likely:
                return tr("Not read: {fault}", fault=read.fault)
            return tr("Left out: {fault}", fault=read.fault)
        spec = next(spec for spec in ALL if spec.lines == read.lines)
        texts = [
            column.text_of(read.line, self.display) for column in spec.columns if column.editable
        ]
        if any(use.means is Means.YIELD for use in self.table.uses):  # it has no column
            texts.append(self.display.quantity(Kind.EXTRACT_YIELD, value_of(read.line, "extract")))
        said = ", ".join(text for text in texts if text)
        return f"{said} – {read.doubt}" if read.doubt else said

    def _list_name(self, row: int) -> str:
        read = self.table.rows[row]
        shown = read.line is not None or read.likely
        return tr(LIST_NAMES.get(read.lines, "")) if shown else ""

    # what Qt asks

    def _tick_of(self, column: Column, row: int) -> Qt.CheckState | None:
        if column.key != "add" or self.table.rows[row].line is None:
            return None
        return Qt.CheckState.Checked if self.is_ticked(row) else Qt.CheckState.Unchecked

    def _foreground(self, column: Column, row: int) -> QColor | None:
        return None if self.is_ticked(row) else QColor(self.inks.ink_soft)

    def _sign(self, column: Column, row: int) -> Any:
        read = self.table.rows[row]
        if column.key != "read":
            return None
        if read.line is None and read.likely:
            return finding_icon(Severity.STOP, self.inks)
        return (
            finding_icon(Severity.CARE, self.inks) if read.line is not None and read.doubt else None
        )

    def spoken(self, column: Column, row: int) -> str:
        if column.key == "add":
            ticked = self.is_ticked(row)
            said = tr("to be added") if ticked else tr("not to be added")
            return tr("Row {number}: {said}", number=row + 1, said=said)
        return tr(
            "{column}, row {number}: {said}",
            column=tr(column.heading) or tr("Text"),
            number=row + 1,
            said=self.text(column, row) or tr("empty"),
        )

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> Any:
        if role == Role.AccessibleTextRole and section >= FIRST_CELL:
            return tr("Text column {number}", number=section - FIRST_CELL + 1)
        return super().headerData(section, orientation, role)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return _Flag.NoItemFlags
        flags = _Flag.ItemIsSelectable | _Flag.ItemIsEnabled
        if index.column() == ADD:
            can = self.table.rows[index.row()].line is not None
            return flags | _Flag.ItemIsUserCheckable if can else flags
        return flags if index.column() == READ_AS else flags | _Flag.ItemIsEditable

    def setData(self, index: Index, value: Any, role: int = Role.EditRole) -> bool:
        row, column = index.row(), index.column()
        if role == Role.CheckStateRole and column == ADD:
            self.tick([row])
            return True
        if role != Role.EditRole:
            return False
        typed = tr(LIST_NAMES[value]) if column == GOES_TO else value
        if typed == self.text(self.columns[column], row):
            return False
        if column == GOES_TO:
            self.show(self.table.with_list(row, value))
        else:
            self.show(self.table.with_cell(row, column - FIRST_CELL, str(value)))
        return True
