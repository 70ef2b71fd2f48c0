"""A table whose cells are typed in: what is asked of a text, and rows that come, go and move.

What was typed into a cell and could not be taken stays in `not_taken`, and is shown there.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor

from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.translation import message, tr
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import LIGHT, Inks
from designer.window.parts.not_taken import NotTaken
from designer.window.parts.row_changes import in_common, where_to
from designer.window.parts.table_model import ROOT, Index, Role, TableModel

if TYPE_CHECKING:
    from designer.window.parts.doubtful_number import Other

_Flag = Qt.ItemFlag
_CLOSED = _Flag.ItemIsSelectable | _Flag.ItemIsEnabled
_OPEN = _CLOSED | _Flag.ItemIsEditable


class TypedTable(TableModel):
    """The model: cells can be typed in, and a row taken out. `refused` says why not."""

    refused = Signal(str)
    invitation = ""
    """What stands in the row that takes a new one, where its name is typed."""
    may_be_blank = False
    """Whether a column of choices may be left empty."""
    refusal = message("{place}: {fault}")
    """What is said where a text is refused."""

    def __init__(
        self, columns: Sequence[Column], display: DisplayFormat, parent: QObject | None = None
    ) -> None:
        super().__init__(columns, display, parent)
        self.inks: Inks = LIGHT
        self.not_taken = self.marks = NotTaken(self, lambda: self.inks, self.tell_not_taken)

    # what a table says of itself

    def put_row(self, number: int, row: Any, place: str) -> bool:
        """Put a row that was typed in in the place of another; False if it is refused."""
        raise NotImplementedError

    def add(self, text: str) -> bool:
        """Begin a new row with what was typed; False if there is nothing to begin it with."""
        raise NotImplementedError

    def remove(self, rows: Sequence[int]) -> None:
        """Take rows out."""
        raise NotImplementedError

    def changed(self, column: Column, row: Any, text: str) -> Any:
        """Return a row with a text in one of its cells; raises RefusedInputError."""
        return replace(row, **{column.key: column.value(row, text, self.display)})

    def try_out(self, column: Column, number: int, text: str) -> None:
        """Raise RefusedInputError for a text that cannot stand in a cell of a row."""
        row = self.row_at(number)
        if row is not None:
            self.changed(column, row, text)

    def is_open(self, column: Column, row: Any) -> bool:
        """Whether a cell can be typed in; in the row that takes a new one, its name."""
        return column.editable if row is not None else column.key == "name"

    def words(self, column: Column) -> tuple[str, ...]:
        """Return the only words that a column takes; none if anything may be typed."""
        return ("", *column.choices) if column.choices and self.may_be_blank else column.choices

    def recipe(self) -> Recipe | None:
        """Return the recipe that the figures are of, if they are of one."""
        return None

    def tell_not_taken(self) -> None:
        """Hear that a text which is not taken has come or gone."""

    # what is asked of a text

    def text_to_edit(self, index: Index) -> str:
        """Return the text of what a cell holds, whatever was typed and not taken."""
        row = self.row_at(index.row())
        return self.edit_text(self.columns[index.column()], row) if row is not None else ""

    def fault_of(self, index: Index, text: str) -> str:
        """Return why a text cannot stand in a cell; "" if it can."""
        typed = text.strip()
        if typed == self.text_to_edit(index):
            return ""
        try:
            self.try_out(self.columns[index.column()], index.row(), typed)
        except RefusedInputError as fault:
            return str(fault)
        return ""

    def otherwise(self, index: Index, text: str) -> Other | None:
        """Return what may have been meant by a text instead; None if there is no doubt."""
        column, row = self.columns[index.column()], self.row_at(index.row())
        if column.facts is None or row is None:
            return None
        # No start asks.
        from designer.window.parts.doubtful_number import otherwise

        before, bare = self.edit_text(column, row), column.bare_in(self.display)
        spelled = self.display.with_unit(column.facts.kind, text, before, bare)
        return otherwise(self.display, column.facts, spelled, row, self.recipe())

    def type_in(self, index: Index, text: str) -> bool:
        """Put what was typed into the table; False if it is refused."""
        column, row, typed = self.columns[index.column()], self.row_at(index.row()), text.strip()
        if row is None:
            return self.add(typed)
        if typed == self.edit_text(column, row):
            return True
        place = tr("{column} of {row}", column=tr(column.heading), row=self.name_of(row))
        try:
            return self.put_row(index.row(), self.changed(column, row, typed), place)
        except RefusedInputError as fault:
            self.refused.emit(tr(self.refusal, place=place, fault=fault))
            return False

    # what Qt asks

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return _Flag.NoItemFlags
        is_open = self.is_open(self.columns[index.column()], self.row_at(index.row()))
        return _OPEN if is_open else _CLOSED

    def setData(self, index: Index, value: Any, role: int = Role.EditRole) -> bool:
        return role == Role.EditRole and index.isValid() and self.type_in(index, str(value))

    def without_row(self, column: Column, role: int) -> Any:
        if role == Role.DisplayRole and column.key == "name":
            return tr(self.invitation)
        if role == Role.EditRole:
            return ""
        return QColor(self.inks.ink_soft) if role == Role.ForegroundRole else None

    # rows that come, go and move

    def follow_rows(
        self,
        old: Sequence[object],
        new: Sequence[object],
        put: Callable[[], None],
        *,
        one_may_differ: bool = True,
    ) -> None:
        """Go from rows known as `old` to rows known as `new`, which `put` does.

        The cell that one is in, an open editor and its text stay with their row. With
        `one_may_differ` a single row that is known as another than before is taken for the same.
        """
        same = in_common(old, new)
        behind = in_common(old[same:][::-1], new[same:][::-1])
        gone, come = len(old) - same - behind, len(new) - same - behind
        if come and not gone:
            self.beginInsertRows(ROOT, same, same + come - 1)
            put()
            self.endInsertRows()
        elif gone and not come:
            self.beginRemoveRows(ROOT, same, same + gone - 1)
            put()
            self.endRemoveRows()
        elif (rows := where_to(list(old), list(new), one_may_differ)) is not None:
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
        self.tell_rows(0, len(rows) - 1)
