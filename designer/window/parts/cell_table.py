"""One rule for all tables that are typed in.

A press chooses a cell. A second press (double click; with a finger at any later time), F2, Return
or the space bar opens it with its text chosen; a typed sign opens it with that sign in place of the
text. Nothing waits, so that no sign is lost; nothing jumps to a row that begins with the sign. A
cell that cannot be typed in takes no sign and says why. Headings choose nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    Qt,
    QTimer,
)
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QComboBox,
    QTableView,
    QWidget,
)

from designer.window.parts.cell_editors import CellEditors
from designer.window.parts.notes import Notes
from designer.window.parts.scrolling import bring_into_view, own_viewport, show_changed
from designer.window.parts.typed_keys import is_typed
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.parts.deeds import Deeds

Index = QModelIndex | QPersistentModelIndex
_Trigger = QAbstractItemView.EditTrigger
_Hint = QAbstractItemDelegate.EndEditHint
_Mod = Qt.KeyboardModifier
_OPENING = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_F2, Qt.Key.Key_Space)


class CellTable(QTableView):
    """A table whose cells are typed in; its delegate is a `CellEditors`."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        own_viewport(self)
        self.setEditTriggers(
            _Trigger.DoubleClicked | _Trigger.EditKeyPressed | _Trigger.AnyKeyPressed
        )
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAutoScroll(False)  # Qt's comes half a second after a press, wherever one is by then
        self._pressing = False
        self._tapped_again = QPersistentModelIndex()
        self._waiting: QComboBox | None = None
        self._added: QPersistentModelIndex | None = None
        self._lists_open = True
        self._to_show = (-1, -1)
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._show_now)
        header = self.horizontalHeader()
        header.setSectionsClickable(False)
        header.setHighlightSections(False)
        self.verticalHeader().hide()

    def setModel(self, model: QAbstractItemModel | None) -> None:
        super().setModel(model)
        if model is not None:
            model.rowsInserted.connect(self._note_added)
            model.rowsInserted.connect(self._show_rows)
            model.layoutChanged.connect(lambda: self.scrollTo(self.currentIndex()))

    def keyboardSearch(self, search: str) -> None:
        """Go nowhere: what is typed belongs to the cell that one is in."""

    def editors(self) -> CellEditors:
        """Return what makes the editors of this table."""
        return cast(CellEditors, self.itemDelegate())

    @property
    def is_editing(self) -> bool:
        """Whether an editor is open."""
        return self.state() is QAbstractItemView.State.EditingState

    # opening

    def edit(self, index: Index, trigger: Any = None, event: QEvent | None = None) -> bool:  # type: ignore[override]
        """Open the editor of a cell, as Qt does, and show the list of a choice at once."""
        if trigger is None:
            trigger = _Trigger.AllEditTriggers
        opened = bool(super().edit(index, trigger, cast(QEvent, event)))
        if opened and self.is_editing:
            editor = self.indexWidget(index)
            if isinstance(editor, QComboBox):
                if isinstance(event, QMouseEvent):
                    self._waiting = editor  # till the button is let go, which would choose
                elif not isinstance(event, QKeyEvent) and self._lists_open:
                    editor.showPopup()
            if editor is not None:
                self.editors().opened(editor, index)
        return opened

    def cell_typed_in(self, index: QModelIndex) -> QModelIndex:
        """Return the cell that is typed in when one types in a cell: itself."""
        return index

    def open_cell(self, cell: QModelIndex, typed: QKeyEvent | None = None) -> None:
        """Open the editor of a cell with its text chosen, or say why it has none.

        A sign that was `typed` takes the place of the text.
        """
        index = self.cell_typed_in(cell)
        if not index.isValid():
            return
        if index != self.currentIndex():
            self.setCurrentIndex(index)
        self.scrollTo(index)
        if not index.flags() & Qt.ItemFlag.ItemIsEditable:
            self._say_closed(index)
        elif typed is not None:
            self.edit(index, _Trigger.AnyKeyPressed, typed)
        else:
            self.edit(index)

    def _say_closed(self, index: Index) -> None:
        why = getattr(self.model(), "why_closed", lambda _: "")(index)
        if why:
            Notes(self).say(self.viewport(), why, rect=self.visualRect(index), lingers=True)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._pressing = True
        at = self.indexAt(event.position().toPoint())
        by_finger = event.source() != Qt.MouseEventSource.MouseEventNotSynthesized
        is_again = by_finger and at == self.currentIndex() and not self.is_editing
        self._tapped_again = QPersistentModelIndex(at if is_again else QModelIndex())
        super().mousePressEvent(event)
        self._pressing = False

    def currentChanged(self, current: Index, previous: Index) -> None:
        """Show the cell that the keyboard has come to; a press is on one that is seen."""
        super().currentChanged(current, previous)
        if current.isValid() and not self._pressing:
            self.scrollTo(current)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        waiting, self._waiting = self._waiting, None
        again, self._tapped_again = self._tapped_again, QPersistentModelIndex()
        if waiting is not None:
            waiting.showPopup()
        elif again.isValid() and not self.is_editing:
            self.open_cell(self.model().index(again.row(), again.column()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.is_editing:
            super().keyPressEvent(event)  # what the editor has no use for
        elif event.key() in _OPENING and not event.modifiers() & ~_Mod.KeypadModifier:
            self.open_cell(self.currentIndex())
        elif event.key() == Qt.Key.Key_Escape and self.take_back_text():
            event.accept()
        elif is_typed(event):
            self.open_cell(self.currentIndex(), event)
        else:
            super().keyPressEvent(event)

    def take_back_text(self) -> bool:
        """Show the old value of the current cell, where what was typed is not taken."""
        editors, index = self.editors(), self.currentIndex()
        if not editors.not_taken or not editors.not_taken.drop(index):
            return False
        Notes(editors).withdraw(self)
        return True

    def deeds(self) -> Deeds:
        """Return what the Edit menu can do here just now."""
        from designer.window.parts.deeds import of_table  # no start asks

        found, index = of_table(self), self.currentIndex()
        if index.isValid() and self.cell_typed_in(index).flags() & Qt.ItemFlag.ItemIsEditable:
            found[keys.OPEN_OR_EDIT] = lambda: self.open_cell(self.currentIndex())
        return found

    # going on

    def closeEditor(self, editor: QWidget, hint: _Hint) -> None:
        """Close an editor; Tab goes on to the next cell that can be typed in, or out."""
        by = {_Hint.EditNextItem: 1, _Hint.EditPreviousItem: -1}.get(hint, 0)
        super().closeEditor(editor, _Hint.NoHint if by else hint)
        added, self._added = self._added, None
        if added is not None and added.isValid():
            self.go_on_from_new(self.model().index(added.row(), added.column()), by)
        elif by:
            self._go_on(by, self.currentIndex())

    def go_on_from_new(self, added: QModelIndex, by: int) -> None:
        """Go on after the row that takes a new one has given one; `by` is 1 after Tab."""
        if by:
            self._go_on(by, added)

    def _note_added(self, parent: QModelIndex, first: int, last: int) -> None:
        """Remember the row that comes from what is typed in the last one."""
        index = self.currentIndex()
        if self.is_editing and first == last and index.row() == last + 1:
            self._added = QPersistentModelIndex(self.model().index(first, index.column()))

    def _go_on(self, by: int, here: QModelIndex) -> None:
        model = self.model()
        columns = model.columnCount()
        number = here.row() * columns + here.column() + by
        while 0 <= number < model.rowCount() * columns:
            index = model.index(number // columns, number % columns)
            number += by
            seen = not self.isColumnHidden(index.column())
            if seen and index.flags() & Qt.ItemFlag.ItemIsEditable:
                self.setCurrentIndex(index)
                self.scrollTo(index)
                self._lists_open = False
                self.edit(index)
                self._lists_open = True
                return
        if by > 0:
            self.focusNextChild()
        else:
            self.focusPreviousChild()

    # being seen

    def scrollTo(
        self,
        index: Index,
        hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible,
    ) -> None:
        super().scrollTo(index, hint)
        if index.isValid() and self.isVisible():
            bring_into_view(self.viewport(), self.visualRect(index))

    def show_cell(self, row: int, column: int = -1) -> None:
        """Show and mark a cell that has changed, or a whole row of them."""
        self._to_show = (row, column)
        self._soon.start()

    def _show_now(self) -> None:
        """Show what is to be shown: by now the page has made room for new rows."""
        (row, column), self._to_show = self._to_show, (-1, -1)
        if not 0 <= row < self.model().rowCount() or not self.isVisible():
            return
        index = self.model().index(row, max(column, 0))
        super().scrollTo(index)
        rect = self.visualRect(index)
        if column < 0:
            rect = rect.united(self.visualRect(self.model().index(row, self._last_seen_column())))
        show_changed(self.viewport(), rect)

    def _last_seen_column(self) -> int:
        columns = range(self.model().columnCount() - 1, -1, -1)
        return next((each for each in columns if not self.isColumnHidden(each)), 0)

    def _show_rows(self, parent: QModelIndex, first: int, last: int) -> None:
        """Show rows that have come to others; a whole table that is filled shows its head."""
        others = self.model().rowCount() - (last - first + 1)
        if self.isVisible() and (others > 1 or first == last):
            self.show_cell(last)

    def place_typed_in(self) -> QRect:
        """Return where the current cell is, for those who keep clear of it."""
        rect = self.visualRect(self.currentIndex())
        return rect.translated(self.viewport().pos())
