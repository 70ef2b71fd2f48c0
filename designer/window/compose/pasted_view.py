"""The table of pasted rows: ticks, choices above the columns, cells that can be mended."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    Qt,
)
from PySide6.QtGui import QColor, QKeyEvent, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLineEdit,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from designer.translation import tr
from designer.window.compose.pasted_rows import (
    ADD,
    FIRST_CELL,
    GOES_TO,
    LIST_NAMES,
    READ_AS,
    PastedRows,
)
from designer.window.compose.use_header import UseHeader
from designer.window.parts.icons import SIZE, Choice, draw_tick
from designer.window.parts.inks import inks_for
from designer.window.parts.targets import keep_rows_high

Index = QModelIndex | QPersistentModelIndex
_Trigger = QAbstractItemView.EditTrigger
WIDEST_CELL, WIDEST_READING = 240, 420
MEASURED_ROWS = 100


class _Cells(QStyledItemDelegate):
    """Draws the ticks; edits by a choice of lists, or a line for a cell of the text."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        if index.column() != ADD:
            super().paint(painter, option, index)
            return
        inks = inks_for(option.palette)
        rect, state = option.rect, option.state
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        painter.save()
        if chosen:
            painter.fillRect(rect, QColor(inks.chosen))
        ticked = index.data(Qt.ItemDataRole.CheckStateRole)
        if ticked is not None:
            place = QPointF(rect.left() + 6.5, rect.center().y() - SIZE / 2.0 + 1.0)
            draw_tick(painter, place, inks, ticked=ticked == Qt.CheckState.Checked)
        painter.restore()

    def editorEvent(
        self,
        event: QEvent,
        model: QAbstractItemModel,
        option: QStyleOptionViewItem,
        index: Index,
    ) -> bool:
        """A press anywhere in the first column ticks."""
        if index.column() == ADD and event.type() == QEvent.Type.MouseButtonRelease:
            return model.setData(index, None, Qt.ItemDataRole.CheckStateRole)
        return index.column() == ADD

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        if index.column() == GOES_TO:
            choice = Choice(parent)
            for lines, name in LIST_NAMES.items():
                choice.addItem(tr(name), lines)
            choice.setAccessibleName(tr("List that the row goes to"))
            choice.activated.connect(lambda: self.commitData.emit(choice))
            return choice
        edit = QLineEdit(parent)
        edit.setFrame(False)
        edit.setAccessibleName(tr("Text of the row"))
        return edit

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        text = str(index.data(Qt.ItemDataRole.EditRole) or "")
        if isinstance(editor, Choice):
            editor.setCurrentText(text)
        elif isinstance(editor, QLineEdit):
            editor.setText(text)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, Choice):
            model.setData(index, editor.currentData())
        elif isinstance(editor, QLineEdit):
            model.setData(index, editor.text())


class PastedView(QTableView):
    """The rows: Space ticks them, Return or a typed sign mends a cell."""

    def __init__(self, model: PastedRows) -> None:
        super().__init__()
        self._pasted = model
        self.heading = UseHeader(self)
        self.setHorizontalHeader(self.heading)
        self.setModel(model)
        self.setItemDelegate(_Cells(self))
        self.setAccessibleName(tr("Rows of the text"))
        self.setAccessibleDescription(tr("Space ticks a row, Return mends a cell."))
        self.setEditTriggers(
            _Trigger.DoubleClicked | _Trigger.EditKeyPressed | _Trigger.AnyKeyPressed
        )
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        keep_rows_high(self, 12)
        model.changed.connect(self.follow)
        self.heading.use_chosen.connect(
            lambda column, use: model.show(model.table.with_use(column, use))
        )
        self.follow()

    def follow(self) -> None:
        """Show the uses of the columns, each column as wide as its choice and its text want."""
        self.heading.show_uses(self._pasted.table.uses)
        metrics = self.fontMetrics()
        self.setColumnWidth(ADD, metrics.horizontalAdvance(tr("Add")) + 26)
        readings = [
            self._pasted.said(row) for row in range(min(self._pasted.rowCount(), MEASURED_ROWS))
        ]
        widest = max((metrics.horizontalAdvance(text) for text in readings), default=0)
        self.setColumnWidth(READ_AS, min(max(widest + 40, 160), WIDEST_READING))
        lists = max(metrics.horizontalAdvance(tr(name)) for name in LIST_NAMES.values())
        self.setColumnWidth(GOES_TO, lists + 44)
        for number in range(len(self._pasted.table.uses)):
            texts = [row[number][:60] for row in self._pasted.table.cells[:MEASURED_ROWS]]
            widest = max((metrics.horizontalAdvance(text) for text in texts), default=0)
            width = max(self.heading.width_of(number), min(widest + 20, WIDEST_CELL))
            self.setColumnWidth(FIRST_CELL + number, width)
        self.heading.place()

    def keyboardSearch(self, search: str) -> None:
        """Go nowhere: what is typed belongs to the cell that one is in."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        editing = self.state() is QAbstractItemView.State.EditingState
        if not editing and event.key() == Qt.Key.Key_Space:
            self._pasted.tick(sorted({each.row() for each in self.selectedIndexes()}))
        elif not editing and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self.currentIndex().flags() & Qt.ItemFlag.ItemIsEditable:
                self.edit(self.currentIndex())
        else:
            super().keyPressEvent(event)
