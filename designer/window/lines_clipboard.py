"""Lines of a recipe on the clipboard: exactly, for another window, and as text, for a spreadsheet.

As text a line is a row with tabs between its cells, in the order of the table. Text that comes from
elsewhere is read cell by cell: what reads as an amount, a time or a kind is taken for it, the first
cell that reads as nothing of the sort is the name; all else is left.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QMimeData

from designer.errors import RefusedInputError
from designer.library.formula_guard import guarded, unguarded
from designer.library.recipe_file import document_text, read_document
from designer.library.table_text import rows_of
from designer.recipe.document import Recipe
from designer.recipe.edits import LISTS, AddLine, Edit, Line, Together
from designer.window.lines_columns import Column, LinesSpec, parsed
from designer.window.shown import Shown

MIME = "application/x-hobwort-lines"


def lines_mime(spec: LinesSpec, lines: list[Line], shown: Shown) -> QMimeData:
    """Return lines as they go to the clipboard, exactly and as text."""
    held: dict[str, Any] = {spec.lines: tuple(lines)}
    mime = QMimeData()
    mime.setData(MIME, document_text(Recipe(**held)).encode("utf-8"))
    mime.setText(lines_text(spec, lines, shown))
    return mime


def lines_text(spec: LinesSpec, lines: list[Line], shown: Shown) -> str:
    """Return lines as rows of a spreadsheet."""
    columns = [each for each in spec.columns if each.field]
    rows = ["\t".join(_cell(each, line, shown) for each in columns) for line in lines]
    return "\n".join(rows) + "\n"


def _cell(column: Column, line: Line, shown: Shown) -> str:
    value = getattr(line, column.field)
    if column.facts is not None:
        return shown.to_edit(column.facts.kind, value)
    text = value if isinstance(value, str) else value.text
    return guarded(" ".join(text.split()))


def pasting(mime: QMimeData, spec: LinesSpec, shown: Shown) -> Edit:
    """Return the edit that adds what is on the clipboard.

    Raises RefusedInputError where there is nothing that could be a line.
    """
    if mime.hasFormat(MIME):
        text = bytes(mime.data(MIME).data()).decode("utf-8", errors="replace")
        recipe = read_document(text, "clipboard")
        adding = [AddLine(name, line, "paste") for name in LISTS for line in getattr(recipe, name)]
    else:
        adding = [AddLine(spec.lines, line, "paste") for line in _lines_of(mime, spec, shown)]
    if not adding:
        raise RefusedInputError(
            "There is nothing on the clipboard that could be a line. Copy lines here, or rows of a "
            "spreadsheet with an amount and a name."
        )
    what = adding[0].line.name if len(adding) == 1 else f"{len(adding)} lines"
    return Together(tuple(adding), f"paste {what}")


def _lines_of(mime: QMimeData, spec: LinesSpec, shown: Shown) -> list[Line]:
    text = mime.text() if mime.hasText() else ""
    delimiter = "\t" if "\t" in text else ";" if ";" in text else "\t"
    rows = ([unguarded(cell).strip() for cell in row] for row in rows_of(text, delimiter))
    found = (_line_of([cell for cell in row if cell], spec, shown) for row in rows)
    return [line for line in found if line is not None]


def _line_of(cells: list[str], spec: LinesSpec, shown: Shown) -> Line | None:
    """Return the line of one row; None for an empty row or one without a name."""
    if not cells:
        return None
    if len(cells) == 1:
        return spec.begin(cells[0], shown)
    taken: dict[str, Any] = {}
    name = ""
    blank = spec.begin("", shown)
    for cell in cells:
        changes = _first_reading(cell, spec, blank, taken, shown)
        if changes is not None:
            taken |= changes
        elif not name:
            name = cell
    if not name:
        return None
    return replace(spec.begin(name, shown), **taken)


def _first_reading(
    cell: str, spec: LinesSpec, blank: Line, taken: dict[str, Any], shown: Shown
) -> dict[str, Any] | None:
    """What a cell says: the first field, not yet taken, that it can be; None for none."""
    for column in spec.columns:
        if not column.field or column.field in taken or column.field in ("name", "purpose"):
            continue
        if column.choices:
            if cell in column.choices:
                return {column.field: cell}
            continue
        if column.facts is not None and not any(sign.isalpha() or sign in "%°" for sign in cell):
            continue  # a bare number could be anything
        try:
            return dict(parsed(column, blank, cell, shown))
        except RefusedInputError:
            continue
    return None
