"""What was typed into the cells of a table and could not be taken: kept and marked until mended."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor, QFont

from designer.recipe.severity import Severity
from designer.translation import tr
from designer.window.parts.inks import Inks

Index = QModelIndex | QPersistentModelIndex
_Role = Qt.ItemDataRole


class Untaken(NamedTuple):
    """A text that was not taken, in its cell, with the reason; `stood` is what the cell holds."""

    cell: QPersistentModelIndex
    text: str
    why: str
    stood: str


class NotTaken:
    """The texts of one model that were not taken; `changed` hears of each that comes or goes.

    A text goes when its cell is mended, emptied by Escape, or holds another value than it did.
    """

    def __init__(
        self,
        model: QAbstractItemModel,
        inks: Callable[[], Inks],
        changed: Callable[[], None] | None = None,
    ) -> None:
        self._model, self._inks, self._changed = model, inks, changed
        self._texts: list[Untaken] = []

    def __bool__(self) -> bool:
        return bool(self._texts)

    def texts(self) -> list[Untaken]:
        """Return what is not taken, in the order it was typed."""
        return [each for each in self._texts if each.cell.isValid()]

    def at(self, index: Index) -> Untaken | None:
        """Return what is not taken in a cell."""
        here = (index.row(), index.column())
        for each in self._texts:
            if each.cell.isValid() and (each.cell.row(), each.cell.column()) == here:
                return each
        return None

    def note(self, index: Index, text: str, why: str, stood: str) -> None:
        """Keep a text that a cell does not take."""
        cell = QPersistentModelIndex(index)
        before = self.at(index)
        self._texts = [each for each in self._texts if each is not before]
        self._texts.append(Untaken(cell, text, why, stood))
        self._tell(cell)

    def drop(self, index: Index) -> bool:
        """Forget what was typed into a cell; False if there is nothing."""
        found = self.at(index)
        if found is None:
            return False
        self._texts.remove(found)
        self._tell(found.cell)
        return True

    def clear(self) -> None:
        """Forget everything: another recipe is open."""
        self.prune(lambda _: "\0")

    def prune(self, stands: Callable[[Index], str]) -> None:
        """Forget what belongs to cells that are gone or hold another value; `stands` tells it."""
        for each in list(self._texts):
            if not each.cell.isValid() or stands(each.cell) != each.stood:
                self._texts.remove(each)
                self._tell(each.cell)

    def _tell(self, cell: QPersistentModelIndex) -> None:
        if cell.isValid():
            index = self._model.index(cell.row(), cell.column())
            self._model.dataChanged.emit(index, index)
        if self._changed is not None:
            self._changed()

    def data(self, index: Index, role: int) -> Any:
        """Return how a cell looks in which something was not taken; None to show it as ever."""
        found = self.at(index)
        if found is None:
            return None
        if role in (_Role.DisplayRole, _Role.EditRole):
            return found.text
        if role == _Role.ToolTipRole:
            return tr("Not taken: {why}", why=found.why)
        if role == _Role.ForegroundRole:
            return QColor(self._inks().stop)
        if role == _Role.FontRole:
            font = QFont()
            font.setBold(True)
            font.setUnderline(True)
            return font
        if role == _Role.DecorationRole:
            # No start has anything that was not taken.
            from designer.window.parts.icons import finding_icon

            return finding_icon(Severity.STOP, self._inks())
        if role == _Role.AccessibleTextRole:
            return tr("Not taken: {typed}. {why}", typed=found.text, why=found.why)
        return None
