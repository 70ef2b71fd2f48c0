"""The bill of ingredients as a table: CSV for a spreadsheet, both ways, and plain text to read.

Columns: list, amount, name, kind, goes in, figure. The figure is the colour of a fermentable and
the alpha acid of a hop. Quantities are as they were typed, and names come back exactly. What a
spreadsheet would take for a formula is guarded, see `designer.library.formula_guard`.
"""

from __future__ import annotations

import csv
import io
import re
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity, none_of
from designer.library.figures import with_figures
from designer.library.file_bytes import bytes_of
from designer.library.formula_guard import guarded, unguarded
from designer.library.pasted import PastedTable, pasted_table
from designer.library.table_text import FIGURE_FIELD, KIND_FIELD, KINDS, decoded, rows_of
from designer.recipe.document import LINE_TYPES, Recipe
from designer.recipe.fields import facts_of
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.recipe.message import say
from designer.recipe.named import Line, lines_of, value_of
from designer.translation import tr
from designer.units import read, read_when

LONGEST_HEADINGS = 200
MOST_FAULTS = 20
COLUMNS = ("list", "amount", "name", "kind", "goes in", "figure")
_BREAK = re.compile(r"[\t\r\n\v\f]+")


def bill_rows(recipe: Recipe) -> list[tuple[str, ...]]:
    """Return the bill as rows of text under `COLUMNS`."""
    rows: list[tuple[str, ...]] = []
    for name in LINE_TYPES:
        for line in lines_of(recipe, name):
            amount = line.amount.text if line.amount is not None else ""
            figure = value_of(line, FIGURE_FIELD[name]) if name in FIGURE_FIELD else None
            told = figure.text if figure is not None else ""
            kind = value_of(line, KIND_FIELD[name])
            rows.append((name, amount, line.name, kind, line.when.text, told))
    return rows


def bill_csv(recipe: Recipe) -> str:
    """Return the bill as CSV with a row of headings, as RFC 4180 has it."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    writer.writerows([guarded(cell) for cell in row] for row in bill_rows(recipe))
    return out.getvalue()


def bill_text(recipe: Recipe) -> str:
    """Return the bill as lines to read, one ingredient each."""
    lines = [_told(recipe.name), ""]
    for _, amount, name, kind, when, figure in bill_rows(recipe):
        beside = ", ".join(part for part in (kind, figure, when) if part)
        lines.append(
            _told(f"{amount:>10}  {name} ({beside})" if beside else f"{amount:>10}  {name}")
        )
    if recipe.yeast.name:
        amount = recipe.yeast.amount.text if recipe.yeast.amount is not None else ""
        lines.append(_told(f"{amount:>10}  {recipe.yeast.name}"))
    return "\n".join(lines) + "\n"


def _told(line: str) -> str:
    """One line, and no formula, wherever it is pasted."""
    return guarded(_BREAK.sub(" ", line))


def read_bill(text: str) -> tuple[tuple[str, Line], ...]:
    """Return the lines of a CSV bill, each with the name of its list, figures from the catalogue.

    Commas, semicolons or tabs part the cells. Raises RefusedInputError with one line for each row
    that cannot be taken.
    """
    first = re.split(r"[\r\n]", text.removeprefix("\ufeff")[:LONGEST_HEADINGS], maxsplit=1)[0]
    rows = rows_of(text, max(",;\t", key=first.count))
    if not rows or tuple(cell.strip().lower() for cell in rows[0]) != COLUMNS:
        raise RefusedInputError(
            say("bill-headings", "line 1: the headings are {columns}", columns=", ".join(COLUMNS))
        )
    faults: list[str] = []
    found = []
    for number, row in enumerate(rows[1:], 2):
        if not any(cell.strip() for cell in row):
            continue
        try:
            found.append(_line([unguarded(cell) for cell in row]))
        except RefusedInputError as fault:
            faults.append(tr("line {number}: {fault}", number=number, fault=fault))
    if len(faults) > MOST_FAULTS:
        faults = [*faults[:MOST_FAULTS], f"and {len(faults) - MOST_FAULTS} lines more"]
    if faults:
        raise RefusedInputError(faults)
    return tuple(found)


def bill_or_table(
    path: Path, *, comma: bool = False, us: bool = False
) -> tuple[tuple[str, Line], ...] | PastedTable:
    """Return the lines of a table in a file; the table itself where it is not certain.

    `comma` and `us` say how figures are usually written here. Raises DesignerError for a file that
    cannot be read, or in which nothing could be a line.
    """
    raw = bytes_of(path, LARGEST_DOCUMENT_BYTES)
    try:
        text = decoded(raw)
        with suppress(RefusedInputError):  # it is none of ours, or was changed since
            return read_bill(text)
        table = pasted_table(text, None, comma=comma, us=us)
        if not any(row.likely for row in table.rows):
            raise RefusedInputError(
                say(
                    "no-row-with-an-amount",
                    "no row of it has an amount and a name; the headings of a bill are {columns}",
                    columns=", ".join(COLUMNS),
                )
            )
    except RefusedInputError as fault:
        raise RefusedInputError(say("of-file", "{path}: {fault}", path=path, fault=fault)) from None
    return tuple(table.found) if table.certain else table


def _line(cells: list[str]) -> tuple[str, Line]:
    if len(cells) != len(COLUMNS):
        raise RefusedInputError(
            say(
                "cells-and-headings",
                "{cells} cells, but {columns} headings",
                cells=len(cells),
                columns=len(COLUMNS),
            )
        )
    name, amount, called, kind, when, figure = cells
    name, amount, when, figure = name.strip(), amount.strip(), when.strip(), figure.strip()
    if name not in LINE_TYPES:
        raise none_of(name, LINE_TYPES)
    values: dict[str, Any] = {"name": called}
    of = LINE_TYPES[name]
    if amount:
        values["amount"] = _quantity(of, "amount", amount)
    if when:
        values["when"] = read_when(when)
    if figure and name in FIGURE_FIELD:
        values[FIGURE_FIELD[name]] = _quantity(of, FIGURE_FIELD[name], figure)
    if kind:
        values[KIND_FIELD[name]] = _kind(name, kind)
    line = of(**values)
    held: dict[str, Any] = {name: (line,)}
    completed = lines_of(with_figures(Recipe(**held)), name)
    return name, replace(completed[0], line_id=0)


def _quantity(of: type, field: str, text: str) -> Any:
    facts = facts_of(of, field)
    return checked_quantity(facts, read(facts.kind, text))


def _kind(name: str, text: str) -> str:
    choices = KINDS[name]
    if not choices:
        return text
    if text.strip() not in choices:
        raise none_of(text, choices)
    return text.strip()
