"""The view of a table outside the recipe: Delete takes out, the keyboard stays where it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QModelIndex, Qt
from PySide6.QtGui import QContextMenuEvent, QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QMenu

from designer.window.parts.cell_editors import CellEditors
from designer.window.parts.cell_table import CellTable
from designer.window.parts.column_widths import begin_with
from designer.window.parts.inks import inks_for
from designer.window.parts.targets import keep_rows_high
from designer.window.parts.typed_table import TypedTable
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.parts.deeds import Deeds

ROW_PADDING = 12


class PlainTableView(CellTable):
    """Any `TypedTable` that needs no more than that."""

    def __init__(self, model: TypedTable, name: str) -> None:
        super().__init__()
        self._plain = model
        self.setModel(model)
        self.setItemDelegate(CellEditors(model, self))
        self.setAccessibleName(name)
        keep_rows_high(self, ROW_PADDING)
        self.horizontalHeader().setStretchLastSection(True)
        begin_with(self, (column.width for column in model.columns))
        self._was_at = (-1, 0)
        model.modelAboutToBeReset.connect(self._note_where)
        model.modelReset.connect(self._go_there)
        self.beside: tuple[QAbstractButton, ...] = ()
        """Buttons beside the table for the row that one is in; its menu has them too."""
        self._follow_inks()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        from designer.window.parts.row_menu import open_row_menu, place_meant  # no start asks

        open_row_menu(self, self.fill_menu, place_meant(self, event))

    def fill_menu(self, menu: QMenu) -> None:
        """Add what can be done to the row that one is in."""
        from designer.window.parts.deeds import add_deeds
        from designer.window.parts.row_menu import add_buttons

        add_deeds(menu, self.deeds(), (keys.OPEN_OR_EDIT, keys.COPY, keys.DELETE))
        add_buttons(menu, self.beside)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._follow_inks()

    def _follow_inks(self) -> None:
        self._plain.inks = inks_for(self.palette())

    def cell_typed_in(self, index: QModelIndex) -> QModelIndex:
        """In the last row one types the name of a new one, wherever one is in it."""
        is_new = index.isValid() and self._plain.row_at(index.row()) is None
        return self._plain.index(index.row(), self._plain.column_of("name")) if is_new else index

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

    def deeds(self) -> Deeds:
        found = dict(super().deeds())
        if self._plain.row_at(self.currentIndex().row()) is not None:
            found[keys.DELETE] = self.remove_chosen
        return found

    def remove_chosen(self) -> None:
        """Take the current row out."""
        self._plain.remove([self.currentIndex().row()])
