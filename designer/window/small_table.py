"""A short list as a Qt table with an undo of its own: what is changed here is no recipe.

Every change is checked before it is taken; what is refused is told with its place, and the old
entry stays.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, cast

from PySide6.QtCore import QAbstractTableModel, QEvent, QModelIndex, QObject, Qt, Signal
from PySide6.QtCore import QPersistentModelIndex as Persistent
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.window.icons import Choice

Index = QModelIndex | Persistent
_ROOT = QModelIndex()
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
    tip: str = ""
    width: int = 110


def with_unit(text: str, unit: str) -> str:
    """Return what was typed, with a unit where it has none: `30`, `1 1/2`."""
    typed = text.strip()
    return f"{typed} {unit}" if typed and not any(each.isalpha() for each in typed) else typed


class SmallTable(QAbstractTableModel):
    """Rows of any kind; `check` raises RefusedInputError for rows that cannot stand together."""

    refused = Signal(str)
    rows_changed = Signal()

    def __init__(
        self,
        columns: tuple[SmallColumn, ...],
        name_of: Callable[[Any], str],
        check: Callable[[Rows], Rows] = lambda rows: rows,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
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
            self._show(self._past.pop())

    def redo(self) -> None:
        """Do the step again that was taken back last."""
        if self._future:
            self._past.append(self.rows)
            self._show(self._future.pop())

    def retell(self) -> None:
        """Show the same rows anew, in other units."""
        if self.rows:
            self.dataChanged.emit(
                self.index(0, 0), self.index(len(self.rows) - 1, len(self.columns) - 1)
            )

    def _show(self, rows: Rows) -> None:
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()
        self.rows_changed.emit()

    # the table

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(self.columns):
            return None
        if role == _Role.DisplayRole:
            return self.columns[section].heading
        if role == _Role.ToolTipRole:
            return self.columns[section].tip or None
        if role == _Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        chosen = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        return chosen | Qt.ItemFlag.ItemIsEditable

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid():
            return None
        column, row = self.columns[index.column()], self.rows[index.row()]
        if role in (_Role.DisplayRole, _Role.EditRole):
            return column.show(row)
        if role == _Role.AccessibleTextRole:
            return f"{column.heading} of {self._name_of(row)}: {column.show(row)}"
        if role == _Role.ToolTipRole:
            return column.tip or None
        return None

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


class _Delegate(QStyledItemDelegate):
    """Editors: a choice where there are some, else a line."""

    def __init__(self, model: SmallTable, parent: QWidget) -> None:
        super().__init__(parent)
        self._model = model

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        column = self._model.columns[index.column()]
        if column.choices:
            box = Choice(parent)
            box.addItems(list(column.choices))
            box.setAccessibleName(column.heading)
            return box
        edit = QLineEdit(parent)
        edit.setFrame(False)
        edit.setAccessibleName(column.heading)
        return edit

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        text = str(index.data(_Role.EditRole) or "")
        if isinstance(editor, Choice):
            editor.setCurrentText(text)
        elif isinstance(editor, QLineEdit):
            editor.setText(text)

    def setModelData(self, editor: QWidget, model: Any, index: Index) -> None:
        if isinstance(editor, Choice):
            self._model.setData(index, editor.currentText())
        elif isinstance(editor, QLineEdit):
            self._model.setData(index, editor.text())


class SmallTableView(QTableView):
    """The table: Return edits, Delete takes out, Undo and Redo are the table's own."""

    def __init__(self, model: SmallTable, name: str) -> None:
        super().__init__()
        self._table = model
        self.setModel(model)
        self.setItemDelegate(_Delegate(model, self))
        self.setAccessibleName(name)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 12)
        self.horizontalHeader().setStretchLastSection(True)
        self.horizontalHeader().setHighlightSections(False)
        for number, column in enumerate(model.columns):
            self.setColumnWidth(number, column.width)
        self._was_at = (-1, 0)
        model.modelAboutToBeReset.connect(self._note_where)
        model.modelReset.connect(self._go_there)

    def _note_where(self) -> None:
        index = self.currentIndex()
        self._was_at = (index.row(), index.column())

    def _go_there(self) -> None:
        row, column = self._was_at
        if (row >= 0 or self.hasFocus()) and self._table.rows:
            row = max(row, 0)
            self.setCurrentIndex(
                self._table.index(min(row, len(self._table.rows) - 1), max(column, 0))
            )

    def show_rows(self, count: int) -> None:
        """Be just as high as so many rows."""
        rows = count * self.verticalHeader().defaultSectionSize()
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + rows + 6)

    def remove_chosen(self) -> None:
        """Take the chosen row out."""
        self._table.remove(self.currentIndex().row())

    def focusInEvent(self, event: QFocusEvent) -> None:
        if not self.currentIndex().isValid():
            self.setCurrentIndex(self._table.index(0, 0))
        super().focusInEvent(event)

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
        index, own = self.currentIndex(), self._own(event)
        if self.state() == QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)
        elif own is not None:
            own()
        elif event.key() == Qt.Key.Key_Delete:
            self.remove_chosen()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and index.isValid():
            self.edit(index)
        else:
            super().keyPressEvent(event)
