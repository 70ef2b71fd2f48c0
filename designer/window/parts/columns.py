"""The columns of a table, each declared once: what heads it, what it shows, how it is typed.

Columns are data, so that one model, one delegate and one view serve every table.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from PySide6.QtCore import Qt

from designer.library.document_reading import checked_quantity
from designer.recipe.fields import FieldFacts
from designer.translation import named, tr
from designer.units import ShownUnits
from designer.window.parts.display_format import DisplayFormat

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class Typed(NamedTuple):
    """What was typed into a cell of a row; `before` is the text that the cell then held."""

    text: str
    row: Any
    before: str
    display: DisplayFormat


class Column(NamedTuple):
    """One column; `key` is the field of a row that it shows.

    `heading`, `tip`, `label` and `choices` are looked up where they are shown, not here.
    `facts` are those of a quantity, `label` what the field is called. `text` is what a cell shows
    where that is not the field as it stands, and `read` what the field becomes by what is typed: it
    raises RefusedInputError. `bare` is the unit of a bare number in an empty cell, metric and US,
    where it is no usual one.
    """

    key: str
    heading: str
    facts: FieldFacts | None = None
    text: Callable[[Any, DisplayFormat], str] | None = None
    read: Callable[[Typed], Any] | None = None
    choices: tuple[str, ...] = ()
    suggests: str = ""
    bare: tuple[str, str] = ("", "")
    tip: str = ""
    right: bool = False
    width: int = 90
    editable: bool = True
    label: str = ""

    @property
    def alignment(self) -> Qt.AlignmentFlag:
        """How what stands in it is aligned."""
        return _RIGHT if self.right else _LEFT

    def text_of(self, row: Any, display: DisplayFormat) -> str:
        """Return what its cell of a row shows."""
        if self.text is not None:
            return self.text(row, display)
        value = getattr(row, self.key)
        if self.facts is not None:
            return display.quantity(self.facts.kind, value)
        return tr(value) if self.choices else named(str(value))

    def edit_text(self, row: Any, display: DisplayFormat) -> str:
        """Return the text that an editor of its cell begins with."""
        if self.text is not None:
            return self.text(row, display)
        if self.facts is None:
            return named(str(getattr(row, self.key)))
        return display.to_edit(self.facts.kind, getattr(row, self.key))

    def value(self, row: Any, text: str, display: DisplayFormat, before: str = "") -> Any:
        """Return what its field becomes by a typed text; raises RefusedInputError.

        `before` is what the cell showed when typing began, if that is not what it shows now.
        """
        before = before or self.edit_text(row, display)
        if self.read is not None:
            return self.read(Typed(text, row, before, display))
        if self.facts is None:
            return text.strip()
        if not text.strip():
            return None
        found = display.read(self.facts.kind, text, before, self.bare_in(display))
        return checked_quantity(self.facts, found)

    def bare_in(self, display: DisplayFormat) -> str:
        """Return the unit of a bare number in an empty cell, where it is no usual one."""
        return self.bare[display.one_system is ShownUnits.US]
