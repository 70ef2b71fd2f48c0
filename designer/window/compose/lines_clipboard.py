"""Lines of a recipe on the clipboard: exactly, for another window, and as text, for a spreadsheet.

As text a line is a row with tabs between its cells, in the order of the table. Text that comes from
elsewhere is read as people write a bill; where anything in it is not certain, the brewer is asked.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QMimeData

from designer.errors import RefusedInputError
from designer.library.formula_guard import guarded, unguarded
from designer.library.new_lines import is_known, new_line
from designer.library.recipe_file import document_text, read_document
from designer.library.table_text import rows_of
from designer.recipe.document import Recipe
from designer.recipe.edits import LISTS, PASTE, Together, lines_added
from designer.recipe.named import Line, lines_of
from designer.translation import message, tr
from designer.units import ShownUnits
from designer.window.compose.lines_columns import (
    EXTRAS,
    FERMENTABLES,
    HOPS,
    LINES_MIME,
    LinesSpec,
)
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat

if TYPE_CHECKING:
    from designer.library.pasted import PastedTable

LONGEST_AMOUNT = 60
"""Signs; more are no amount alone."""
NOT_READ = message(
    "Nothing is taken from the clipboard: {fault}. Copy lines here, or rows of a spreadsheet with "
    "an amount and a name."
)
NOTHING = message(
    "Nothing on the clipboard looks like a line. Copy lines here, or rows of a spreadsheet with "
    "an amount and a name."
)


def lines_mime(spec: LinesSpec, lines: list[Line], display: DisplayFormat) -> QMimeData:
    """Return lines as they go to the clipboard, exactly and as text."""
    held: dict[str, Any] = {spec.lines: tuple(lines)}
    mime = QMimeData()
    mime.setData(LINES_MIME, document_text(Recipe(**held)).encode("utf-8"))
    mime.setText(lines_text(spec, lines, display))
    return mime


def lines_text(spec: LinesSpec, lines: list[Line], display: DisplayFormat) -> str:
    """Return lines as rows of a spreadsheet."""
    columns = [each for each in spec.columns if each.editable]
    out = io.StringIO()
    rows = csv.writer(out, delimiter="\t", lineterminator="\n")  # quotes only where it must
    rows.writerows([_cell(each, line, display) for each in columns] for line in lines)
    return out.getvalue()


def _cell(column: Column, line: Line, display: DisplayFormat) -> str:
    text = column.edit_text(line, display)
    return text if column.facts is not None else guarded(" ".join(text.split()))


def pasting(mime: QMimeData, spec: LinesSpec, display: DisplayFormat) -> Together | PastedTable:
    """Return the edit that adds what is on the clipboard, or what is to be asked about it.

    Raises RefusedInputError where there is nothing that could be a line.
    """
    if mime.hasFormat(LINES_MIME):
        return _together(_exact_lines(mime))
    from designer.library.pasted import pasted_table  # loaded when there is text to be read

    text = mime.text() if mime.hasText() else ""
    own = _own_lines(text, spec, display) or _amount_alone(text, spec, display)
    if own:
        return _together(own)
    comma, us = display.settings.decimal_comma, display.one_system is ShownUnits.US
    try:
        table = pasted_table(text, spec.lines, comma=comma, us=us)
    except RefusedInputError as fault:
        raise RefusedInputError(tr(NOT_READ, fault=fault)) from None
    return _together(table.found) if table.certain else table


def _together(found: Sequence[tuple[str, Line]]) -> Together:
    if not found:
        raise RefusedInputError(tr(NOTHING))
    return lines_added(found, PASTE)


def _exact_lines(mime: QMimeData) -> list[tuple[str, Line]]:
    text = bytes(mime.data(LINES_MIME).data()).decode("utf-8", errors="replace")
    recipe = read_document(text, tr("clipboard"))
    return [(name, line) for name in LISTS for line in lines_of(recipe, name)]


def _amount_alone(text: str, spec: LinesSpec, display: DisplayFormat) -> list[tuple[str, Line]]:
    """Return the line, still without a name, of a text that is an amount and nothing else."""
    line = spec.begin(text, display) if 0 < len(text.strip()) < LONGEST_AMOUNT else None
    return [(spec.lines, line)] if line is not None and not line.name else []


def _own_lines(text: str, spec: LinesSpec, display: DisplayFormat) -> list[tuple[str, Line]]:
    """Return the lines of a text that has the very columns of `lines_text`; none of another."""
    if "\t" not in text:
        return []
    with suppress(RefusedInputError):
        rows = [row for row in rows_of(text, "\t") if any(row)]
        for each in (spec, *(other for other in (FERMENTABLES, HOPS) if other is not spec)):
            with suppress(RefusedInputError):
                return [(each.lines, _own_line(row, each, display)) for row in rows]
    return []


def _own_line(row: list[str], spec: LinesSpec, display: DisplayFormat) -> Line:
    columns = [column for column in spec.columns if column.editable]
    cells = dict(zip((column.key for column in columns), map(unguarded, row), strict=False))
    name = cells.get("name", "")
    foreign = spec is EXTRAS and (is_known("hops", name) or is_known("fermentables", name))
    if len(row) != len(columns) or foreign:
        raise RefusedInputError([])  # nobody is told
    line = new_line(spec.lines, name)
    changes: dict[str, Any] = {"name": name}
    for column in columns:
        if column.choices and cells[column.key] not in column.choices:
            raise RefusedInputError([])
        if column.key != "name":
            changes[column.key] = column.value(line, cells[column.key], display)
    return replace(line, **changes)
