"""The ingredient list as a table: CSV for a spreadsheet, both ways, and plain text to read.

It is the bill of the recipe as it is written: a plan by which it is brewed is no part of it, and
lines that come back from a table leave the plan as it is.

Columns: list, amount, name, kind, goes in, figure, and what other fields of ingredients declare.
The figure is the colour of a fermentable and the alpha acid of a hop. Quantities are as they were
typed, and names come back exactly. What a spreadsheet would take for a formula is guarded, see
`designer.library.formula_guard`.
"""

from __future__ import annotations

import csv
import io
import re
from contextlib import suppress
from dataclasses import Field, replace
from pathlib import Path
from typing import Any

from designer.errors import RefusedInputError
from designer.library.catalogue_figures import with_figures
from designer.library.document_reading import checked_quantity, none_of
from designer.library.file_bytes import bytes_of
from designer.library.formula_guard import guarded, unguarded
from designer.library.pasted import PastedTable, pasted_table
from designer.library.table_text import FIELDS, decoded, rows_of
from designer.recipe.document import LINE_TYPES, Recipe
from designer.recipe.fields import FieldFacts
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.recipe.message import refused
from designer.recipe.named import Line, lines_of, value_of
from designer.recipe.quantity import Quantity, When
from designer.translation import tr, trn
from designer.units import read, read_when

LONGEST_HEADINGS = 200
MOST_FAULTS = 20
_USUAL = ("list", "amount", "name", "kind", "goes in", "figure")
COLUMNS = (
    *_USUAL,
    *dict.fromkeys(name for known in FIELDS.values() for name in known if name not in _USUAL),
)
_BREAK = re.compile(r"[\t\r\n\v\f]+")


def bill_rows(recipe: Recipe) -> list[tuple[str, ...]]:
    """Return the bill as rows of text under `COLUMNS`."""
    rows: list[tuple[str, ...]] = []
    for name in LINE_TYPES:
        for line in lines_of(recipe, name):
            cells = {column: _cell(line, each) for column, each in FIELDS[name].items()}
            rows.append((name, *(cells.get(column, "") for column in COLUMNS[1:])))
    return rows


def _cell(line: Line, each: Field[Any]) -> str:
    value = value_of(line, each.name)
    if isinstance(value, Quantity | When):
        return value.text
    return value or ""


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
    for _, amount, name, kind, when, *figures in bill_rows(recipe):
        beside = ", ".join(part for part in (kind, *figures, when) if part)
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
    headings = tuple(cell.strip().lower() for cell in rows[0]) if rows else ()
    if headings[: len(_USUAL)] != _USUAL or not set(headings) <= set(COLUMNS):
        raise refused(
            "bill-headings", "line 1: the headings are {columns}", columns=", ".join(COLUMNS)
        )
    faults: list[str] = []
    found = []
    for number, row in enumerate(rows[1:], 2):
        if not any(cell.strip() for cell in row):
            continue
        try:
            found.append(_line(headings, [unguarded(cell) for cell in row]))
        except RefusedInputError as fault:
            faults.append(tr("line {number}: {fault}", number=number, fault=fault))
    if len(faults) > MOST_FAULTS:
        faults = [*faults[:MOST_FAULTS], _more(len(faults) - MOST_FAULTS)]
    if faults:
        raise RefusedInputError(faults)
    return tuple(found)


def _more(count: int) -> str:
    return trn("and {number} lines more", "and {number} lines more", count)


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
            raise refused(
                "no-row-with-an-amount",
                "no row of it has an amount and a name; the headings of an ingredient list are "
                "{columns}",
                columns=", ".join(COLUMNS),
            )
    except RefusedInputError as fault:
        raise refused("of-file", "{path}: {fault}", path=path, fault=fault) from None
    return tuple(table.found) if table.certain else table


def _line(headings: tuple[str, ...], cells: list[str]) -> tuple[str, Line]:
    if len(cells) != len(headings):
        raise refused(
            "cells-and-headings",
            "{cells} cells, but {columns} headings",
            cells=len(cells),
            columns=len(headings),
        )
    row = dict(zip(headings, cells, strict=True))
    name = row.pop("list").strip()
    if name not in LINE_TYPES:
        raise none_of(name, LINE_TYPES)
    known = FIELDS[name]
    values = {
        known[column].name: _value(known[column], text)
        for column, text in row.items()
        if column in known and (text.strip() or _is_words(known[column]))
    }
    held: dict[str, Any] = {name: (LINE_TYPES[name](**values),)}
    completed = lines_of(with_figures(Recipe(**held)), name)
    return name, replace(completed[0], line_id=0)


def _is_words(each: Field[Any]) -> bool:
    """Whether a field holds free text, which is kept as it is, blanks too."""
    return each.metadata.get("choices") == ()


def _value(each: Field[Any], text: str) -> Any:
    """Return what a cell says of a field. Raises RefusedInputError."""
    facts: FieldFacts | None = each.metadata.get("facts")
    if facts is not None:
        return checked_quantity(facts, read(facts.kind, text.strip()))
    if each.name == "when":
        return read_when(text.strip())
    choices: tuple[str, ...] = each.metadata["choices"]
    if choices and text.strip() not in choices:
        raise none_of(text, choices)
    return text.strip() if choices else text
