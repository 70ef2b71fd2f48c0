"""A short list as a Qt table with an undo of its own: what is changed here is no recipe.

Every change is checked before it is taken; what is refused is told with its place, and the old
entry stays.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, cast

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QUndoCommand, QUndoStack
from PySide6.QtWidgets import QAbstractItemView, QPushButton

from designer.errors import RefusedInputError
from designer.translation import message, tr
from designer.window.parts.buttons import button
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_table import PlainTableView
from designer.window.parts.typed_table import TypedTable

Rows = tuple[Any, ...]


class _Step(QUndoCommand):
    """One change of the list; what an undo or a redo of it changes is seen."""

    def __init__(self, table: SmallTable, after: Rows) -> None:
        super().__init__()
        self._table, self._before, self._after = table, table.rows, after
        self._is_new = True

    def redo(self) -> None:
        self._table.show_step(self._after, is_seen=not self._is_new)
        self._is_new = False

    def undo(self) -> None:
        self._table.show_step(self._before, is_seen=True)


class SmallTable(TypedTable):
    """Rows of any kind; `check` raises RefusedInputError for rows that cannot stand together.

    `stepped` tells the row in which an undo or a redo is seen.
    """

    if_empty = ""
    refusal = message("{place}: {fault}. The old entry stays.")
    rows_changed = Signal()
    stepped = Signal(int)

    def __init__(
        self,
        columns: Sequence[Column],
        display: DisplayFormat,
        check: Callable[[Rows], Rows] = lambda rows: rows,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(columns, display, parent)
        self._check = check
        self.rows: Rows = ()
        self.undo_stack = QUndoStack(self)

    def put(self, rows: Rows) -> None:
        """Show rows that come from elsewhere; there is nothing to undo before them."""
        self.undo_stack.clear()
        self._show(rows)

    def make(self, rows: Rows, place: str = "") -> bool:
        """Change to other rows as one step; False, and told why, for rows that are refused."""
        try:
            checked = self._check(rows)
        except RefusedInputError as fault:
            self.refused.emit(
                tr("{place}: {fault}", place=place, fault=fault) if place else str(fault)
            )
            return False
        if checked != self.rows:
            self.undo_stack.push(_Step(self, checked))
        return True

    def put_row(self, number: int, row: Any, place: str) -> bool:
        return self.make(self._with(number, row), place)

    def remove(self, rows: Sequence[int]) -> None:
        self.make(tuple(each for number, each in enumerate(self.rows) if number not in rows))

    def try_out(self, column: Column, number: int, text: str) -> None:
        self._check(self._with(number, self.changed(column, self.rows[number], text)))

    def _with(self, number: int, *instead: Any) -> Rows:
        """Return the rows with something in the place of one, or nothing."""
        return (*self.rows[:number], *instead, *self.rows[number + 1 :])

    def show_step(self, rows: Rows, *, is_seen: bool) -> None:
        """Show rows, and tell the first that is other than before if that is to be seen."""
        before = self.rows
        self._show(rows)
        if is_seen:
            others = (n for n, row in enumerate(self.rows) if before[n : n + 1] != (row,))
            self.stepped.emit(next(others, len(self.rows) - 1))

    def retell(self) -> None:
        """Show the same rows anew, in other units."""
        self.tell_rows(0, len(self.rows) - 1)

    def _show(self, rows: Rows) -> None:
        def put() -> None:
            self.rows = rows

        self.follow_rows(self.rows, rows, put)
        self.rows_changed.emit()


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

    def buttons(self, tip: str) -> tuple[QPushButton, QPushButton, QPushButton]:
        """Return buttons that take out the chosen row, which says so in `tip`, undo and redo."""
        stack = self._table.undo_stack
        undo = button(tr("Undo"), tr("Take the last change of this list back"), stack.undo)
        redo = button(tr("Redo"), tr("Do it again"), stack.redo)
        for each, able in ((undo, stack.canUndoChanged), (redo, stack.canRedoChanged)):
            each.setEnabled(False)
            able.connect(each.setEnabled)
        return button(tr("Remove"), tip, self.remove_chosen), undo, redo

    def event(self, event: QEvent) -> bool:
        """Keep Undo and Redo here: the recipe's would change what is not looked at."""
        if event.type() == QEvent.Type.ShortcutOverride and self._own(cast(QKeyEvent, event)):
            event.accept()
            return True
        return bool(super().event(event))

    def _own(self, event: QKeyEvent) -> Callable[[], None] | None:
        if event.matches(QKeySequence.StandardKey.Undo):
            return self._table.undo_stack.undo
        return self._table.undo_stack.redo if event.matches(QKeySequence.StandardKey.Redo) else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        own = self._own(event)
        if own is not None and not self.is_editing:
            own()
        else:
            super().keyPressEvent(event)
