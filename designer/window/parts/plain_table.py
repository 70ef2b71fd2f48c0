"""What the tables of the kitchen share: columns known by name, editors, keys, a kept place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Protocol

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QWidget

from designer.window.parts.cell_editors import CellEditors
from designer.window.parts.cell_table import CellTable
from designer.window.parts.inks import LIGHT, Inks, inks_for
from designer.window.parts.not_taken import NotTaken

if TYPE_CHECKING:
    from designer.window.parts.second_reading import Other

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
    """The model: every cell can be typed in, and a row taken out.

    What was typed into a cell and could not be taken stays in `not_taken`, and is shown there.
    """

    may_be_blank = False
    """Whether a column of choices may be left empty."""

    def __init__(self, columns: Sequence[PlainColumn], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.plain_columns = tuple(columns)
        self.inks: Inks = LIGHT
        self.not_taken = NotTaken(self, lambda: self.inks)

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

    def fault_of(self, index: Index, text: str) -> str:
        """Return why a text cannot stand in a cell; "" if it can."""
        raise NotImplementedError

    def otherwise(self, index: Index, text: str) -> Other | None:
        """Return what may have been meant by a text instead; None if there is no doubt."""
        return None

    def text_to_edit(self, index: Index) -> str:
        """Return the text of what a cell holds, whatever was typed and not taken."""
        raise NotImplementedError

    def follow_rows(
        self, old: Sequence[object], new: Sequence[object], put: Callable[[], None]
    ) -> None:
        """Go from rows known as `old` to rows known as `new`, which `put` does.

        The cell that one is in, an open editor and its text stay with their row.
        """
        same = _common(old, new)
        behind = _common(old[same:][::-1], new[same:][::-1])
        gone, come = len(old) - same - behind, len(new) - same - behind
        if come and not gone:
            self.beginInsertRows(ROOT, same, same + come - 1)
            put()
            self.endInsertRows()
        elif gone and not come:
            self.beginRemoveRows(ROOT, same, same + gone - 1)
            put()
            self.endRemoveRows()
        elif (rows := _where_to(list(old), list(new))) is not None:
            self._move_rows(rows, put)
        else:
            self.beginResetModel()
            put()
            self.endResetModel()
        self.not_taken.prune(self.text_to_edit)

    def _move_rows(self, rows: list[int], put: Callable[[], None]) -> None:
        """Put the rows where they now belong: the one that was in row n into row `rows[n]`."""
        moved = rows != sorted(rows)
        if moved:
            self.layoutAboutToBeChanged.emit()
        kept = self.persistentIndexList() if moved else []
        put()
        if moved:
            to = [
                self.createIndex(rows[i.row()] if i.row() < len(rows) else i.row(), i.column())
                for i in kept
            ]
            self.changePersistentIndexList(kept, to)
            self.layoutChanged.emit()
        if rows:
            self.dataChanged.emit(
                self.index(0, 0), self.index(len(rows) - 1, self.columnCount() - 1)
            )


def _common(one: Sequence[object], other: Sequence[object]) -> int:
    """Return how many members two rows of things have in common from their beginning."""
    number = 0
    for a, b in zip(one, other, strict=False):
        if a != b:
            break
        number += 1
    return number


def _where_to(old: list[object], new: list[object]) -> list[int] | None:
    """Return where each old row is among the new; None if more than one was changed."""
    if len(old) != len(new):
        return None
    free = list(range(len(new)))
    rows: list[int] = []
    changed = -1
    for number, each in enumerate(old):
        found = next((place for place in free if new[place] == each), -1)
        if found >= 0:
            free.remove(found)
        elif changed >= 0:
            return None
        else:
            changed = number
        rows.append(found)
    if changed >= 0:
        rows[changed] = free[0]
    return rows


class _Editors(CellEditors):
    """Editors: a choice where there are some words to choose from, else a line."""

    def __init__(self, model: PlainTable, parent: QWidget) -> None:
        super().__init__(parent)
        self._model = model

    def column(self, index: Index) -> PlainColumn:
        return self._model.plain_columns[index.column()]

    def words(self, index: Index) -> tuple[str, ...]:
        choices = self.column(index).choices
        return ("", *choices) if choices and self._model.may_be_blank else choices

    @property
    def not_taken(self) -> NotTaken:
        return self._model.not_taken

    def fault(self, index: Index, text: str) -> str:
        return self._model.fault_of(index, text)

    def take(self, index: Index, text: str) -> None:
        self._model.setData(index, text)

    def stood(self, index: Index) -> str:
        return self._model.text_to_edit(index)

    def otherwise(self, index: Index, text: str) -> Other | None:
        return self._model.otherwise(index, text)


class PlainTableView(CellTable):
    """The table: Return edits, Delete takes out; the keyboard stays where it was."""

    def __init__(self, model: PlainTable, name: str) -> None:
        super().__init__()
        self._plain = model
        self.setModel(model)
        self.setItemDelegate(_Editors(model, self))
        self.setAccessibleName(name)
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + ROW_PADDING)
        self.horizontalHeader().setStretchLastSection(True)
        for number, column in enumerate(model.plain_columns):
            self.setColumnWidth(number, column.width)
        self._was_at = (-1, 0)
        model.modelAboutToBeReset.connect(self._note_where)
        model.modelReset.connect(self._go_there)
        self._follow_inks()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._follow_inks()

    def _follow_inks(self) -> None:
        self._plain.inks = inks_for(self.palette())

    def go_on_from_new(self, added: QModelIndex, by: int) -> None:
        """Be in the new row: the rest of it is typed next."""
        self.setCurrentIndex(added)
        super().go_on_from_new(added, by)

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
        if event.key() == Qt.Key.Key_Delete and not self.is_editing:
            self.remove_chosen()
        else:
            super().keyPressEvent(event)

    def remove_chosen(self) -> None:
        """Take the chosen row out."""
        self._plain.remove(self.currentIndex().row())
