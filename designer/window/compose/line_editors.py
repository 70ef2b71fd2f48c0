"""The editors of the lines of a recipe: it follows each key."""

from __future__ import annotations

from PySide6.QtCore import QObject

from designer.window.compose.lines_model import LinesModel
from designer.window.parts.cell_editors import CellEditors
from designer.window.parts.table_model import Index


class LineEditors(CellEditors):
    """Editors of a `LinesModel`: the recipe follows each key."""

    def __init__(self, model: LinesModel, parent: QObject | None = None) -> None:
        super().__init__(model, parent)
        self._lines = model
        self._merge_key = ""

    def begin(self) -> None:
        self._merge_key = self._lines.opened.start_typing()

    def take(self, index: Index, text: str) -> None:
        self._lines.type_in(index, text, self._merge_key)

    def take_late(self, index: Index, text: str) -> None:
        self._lines.type_in(index, text)

    def try_text(self, index: Index, text: str) -> bool:
        if self._lines.row_at(index.row()) is None:
            return True
        taken = self._lines.type_in(index, text, self._merge_key, trying=True)
        if not taken and not self._lines.is_half_typed(index, text):
            self.give_up()
        return taken

    def give_up(self) -> None:
        self._lines.opened.take_back(self._merge_key)

    def amount_of(self, index: Index) -> Index | None:
        is_new = self._lines.row_at(index.row()) is None
        return self._lines.index(index.row(), self._lines.column_of("amount")) if is_new else None
