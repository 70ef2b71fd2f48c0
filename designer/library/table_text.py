"""Tables from anywhere: bytes made text, rows and cells parted, the fields that columns speak of.

Spreadsheets write UTF-8 with or without a byte order mark, UTF-16, and on older systems the signs
of western Europe (Windows-1252); lines end in LF, CR LF or CR. Cells are quoted as RFC 4180 has it;
where quotation marks do not pair up so, they are signs like others.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from dataclasses import Field
from typing import Any

from designer.recipe.document import LINE_TYPES
from designer.recipe.fields import table_fields
from designer.recipe.message import refused

LONGEST_TEXT = 5_000_000
MOST_ROWS = 2_000
MOST_CELLS = 60
FIELDS: dict[str, dict[str, Field[Any]]] = {
    lines: {table.billed_as: each for each, table in table_fields(of)}
    for lines, of in LINE_TYPES.items()
}
"""The fields of a line that columns of a bill speak of, by its list and the column's heading."""
_LINE_END = re.compile(r"\r\n|\r|\n")
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)

# The csv module takes cells of 131,072 signs and no longer, for all of a process; what is too long
# is refused here in words, by `rows_of` and by the limits of the recipe.
csv.field_size_limit(LONGEST_TEXT)


def decoded(raw: bytes) -> str:
    """Return the text of a file. Raises RefusedInputError for what is no text."""
    for mark, coding in _MARKS:
        if raw.startswith(mark):
            return _decoded(raw, coding)
    nulls = raw[:4000].count(0)
    if nulls > len(raw[:4000]) // 4:  # UTF-16 without its mark: every other byte of plain words
        even = raw[:4000:2].count(0)
        return _decoded(raw, "utf-16-be" if even > nulls // 2 else "utf-16-le")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        return _decoded(raw, "cp1252")


def _decoded(raw: bytes, coding: str) -> str:
    try:
        return raw.decode(coding)
    except UnicodeDecodeError as fault:
        raise refused(
            "byte-not-text",
            "byte {number} is not readable text; save the table as CSV, UTF-8",
            number=fault.start,
        ) from None


def lines_of(text: str) -> list[str]:
    """Return the lines of a text that are not blank, whatever ends them.

    Raises RefusedInputError for more text or lines than a recipe could take.
    """
    lines = _LINE_END.split(_of_a_length(text))
    filled = [line for line in lines if line and not line.isspace()]
    _refuse_more(len(filled))
    return filled


def rows_of(text: str, parted_by: str) -> list[list[str]]:
    """Return the rows of a text as cells, parted by tab, semicolon or comma.

    Raises RefusedInputError for more text, rows or cells than a recipe could take.
    """
    try:
        quoted = io.StringIO(_of_a_length(text), newline="")
        rows = list(csv.reader(quoted, delimiter=parted_by, strict=True))
    except csv.Error:
        rows = [line.split(parted_by) for line in lines_of(text)]
    _refuse_more(sum(1 for row in rows if any(row)))
    widest = max(map(len, rows), default=0)
    if widest > MOST_CELLS:
        raise refused(
            "row-too-wide",
            "a row has {widest} cells, more than the {most_cells} that are read at once; take "
            "the columns of the ingredients only",
            widest=f"{widest:,}",
            most_cells=MOST_CELLS,
        )
    return rows


def _of_a_length(text: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise refused(
            "text-too-long",
            "this is {count} characters of text, more than the {longest_text} that are read at "
            "once; take the rows of one recipe",
            count=f"{len(text):,}",
            longest_text=f"{LONGEST_TEXT:,}",
        )
    return text.removeprefix("\ufeff")


def _refuse_more(rows: int) -> None:
    if rows > MOST_ROWS:
        raise refused(
            "text-too-many-lines",
            "this has {rows} lines, more than the {most_rows} that are read at once; take the "
            "rows of one recipe",
            rows=f"{rows:,}",
            most_rows=f"{MOST_ROWS:,}",
        )
