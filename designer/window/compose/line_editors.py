"""The editors of the lines of a recipe: it follows each key."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from designer.window.compose.lines_model import LinesModel
from designer.window.parts.cell_editors import CellEditors, Index
from designer.window.parts.not_taken import NotTaken

if TYPE_CHECKING:
    from designer.window.parts.second_reading import Other


class LineEditors(CellEditors):
    """Editors of a `LinesModel`: the recipe follows each key."""

    def __init__(self, model: LinesModel, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self._merge_key = ""

    def column(self, index: Index) -> Any:
        return self._model.spec.columns[index.column()]

    @property
    def not_taken(self) -> NotTaken:
        return self._model.not_taken

    def begin(self) -> None:
        self._merge_key = self._model.opened.start_typing()

    def fault(self, index: Index, text: str) -> str:
        return self._model.fault_of(index, text)

    def take(self, index: Index, text: str) -> None:
        self._model.type_in(index, text, self._merge_key)

    def take_late(self, index: Index, text: str) -> None:
        self._model.type_in(index, text, "")

    def try_text(self, index: Index, text: str) -> bool:
        if self._model.line_at(index.row()) is None:
            return True
        taken = self._model.type_in(index, text, self._merge_key, trying=True)
        if not taken and not self._model.is_half_typed(index, text):
            self.give_up()
        return taken

    def give_up(self) -> None:
        self._model.opened.take_back(self._merge_key)

    def stood(self, index: Index) -> str:
        return self._model.text_to_edit(index)

    def otherwise(self, index: Index, text: str) -> Other | None:
        return self._model.otherwise(index, text)

    def amount_of(self, index: Index) -> Index | None:
        is_new = self._model.line_at(index.row()) is None
        return self._model.amount_of(index) if is_new else None
