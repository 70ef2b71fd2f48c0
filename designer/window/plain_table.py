"""What the tables of the kitchen share: columns known by name, editors, keys, a kept place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol

from PySide6.QtCore import (
    QAbstractItemModel,
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from designer.window.delegates import attach_suggestions
from designer.window.icons import Choice

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()
_Role = Qt.ItemDataRole
ROW_PADDING = 12


class PlainColumn(Protocol):
    """A column: its heading, the words it takes (none: free text), what is offered in it."""

    @property
    def heading(self) -> str:
        """What stands above it."""

    @property
    def tip(self) -> str:
        """What may be typed in it."""

    @property
    def choices(self) -> tuple[str, ...]:
        """The only words it takes; none, if anything may be typed."""

    @property
    def suggests(self) -> str:
        """The part of the catalogue offered while one types; "" for none."""

    @property
    def width(self) -> int:
        """Its width in pixels."""


class PlainTable(QAbstractTableModel):
    """The model: every cell can be typed in, and a row taken out."""

    may_be_blank = False
    """Whether a column of choices may be left empty."""

    def __init__(self, columns: Sequence[PlainColumn], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.plain_columns = tuple(columns)

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.plain_columns)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> Any:
        known = 0 <= section < len(self.plain_columns)
        if orientation is not Qt.Orientation.Horizontal or not known:
            return None
        column = self.plain_columns[section]
        if role == _Role.DisplayRole:
            return column.heading
        if role == _Role.ToolTipRole:
            return column.tip or None
        if role == _Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        return None

    def remove(self, row: int) -> None:
        """Take a row out."""
        raise NotImplementedError


class _Editors(QStyledItemDelegate):
    """Editors: a choice where there are some words to choose from, else a line."""

    def __init__(self, model: PlainTable, parent: QWidget) -> None:
        super().__init__(parent)
        self._model = model

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        column = self._model.plain_columns[index.column()]
        if column.choices:
            box = Choice(parent)
            box.addItems([*([""] if self._model.may_be_blank else []), *column.choices])
            box.setAccessibleName(column.heading)
            return box
        edit = QLineEdit(parent)
        edit.setFrame(False)
        edit.setAccessibleName(column.heading)
        if column.suggests:
            attach_suggestions(edit, column.suggests)
        return edit

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        text = str(index.data(_Role.EditRole) or "")
        if isinstance(editor, Choice):
            editor.setCurrentText(text)
        elif isinstance(editor, QLineEdit):
            editor.setText(text)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, Choice):
            self._model.setData(index, editor.currentText())
        elif isinstance(editor, QLineEdit):
            self._model.setData(index, editor.text())


class PlainTableView(QTableView):
    """The table: Return edits, Delete takes out; the keyboard stays where it was."""

    def __init__(self, model: PlainTable, name: str) -> None:
        super().__init__()
        self._plain = model
        self.setModel(model)
        self.setItemDelegate(_Editors(model, self))
        self.setAccessibleName(name)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + ROW_PADDING)
        self.horizontalHeader().setStretchLastSection(True)
        self.horizontalHeader().setHighlightSections(False)
        for number, column in enumerate(model.plain_columns):
            self.setColumnWidth(number, column.width)
        self._was_at = (-1, 0)
        model.modelAboutToBeReset.connect(self._note_where)
        model.modelReset.connect(self._go_there)

    def _note_where(self) -> None:
        index = self.currentIndex()
        self._was_at = (index.row(), index.column())

    def _go_there(self) -> None:
        """Stay where one was, though a line was added or taken out."""
        (row, column), rows = self._was_at, self._plain.rowCount()
        if (row >= 0 or self.hasFocus()) and rows:
            place = self._plain.index(min(max(row, 0), rows - 1), max(column, 0))
            self.setCurrentIndex(place)

    def focusInEvent(self, event: QFocusEvent) -> None:
        if not self.currentIndex().isValid():
            self.setCurrentIndex(self._plain.index(0, 0))
        super().focusInEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        index = self.currentIndex()
        if self.state() == QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)  # what the editor has no use for, such as its own Return
        elif event.key() == Qt.Key.Key_Delete:
            self.remove_chosen()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and index.isValid():
            self.edit(index)
        else:
            super().keyPressEvent(event)

    def remove_chosen(self) -> None:
        """Take the chosen row out."""
        self._plain.remove(self.currentIndex().row())
