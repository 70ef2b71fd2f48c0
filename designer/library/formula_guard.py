"""Cells that a spreadsheet would take for a formula: guarded by an apostrophe, read back exactly.

A cell that begins with one of `= + - @`, a tab or a line end is reckoned when a table is opened or
pasted, and can call programs and send data away. An apostrophe before it makes it text. Source:
OWASP, "CSV Injection" (the characters, their full-width forms, and the apostrophe). Spaces before
the sign are skipped by spreadsheets and so here ("common practice, no source"). A number with its
sign stays a number.
"""

from __future__ import annotations

import re

GUARD = "'"
_FORMULA = re.compile(r"[\s']*[=+\-@\uff1d\uff0b\uff0d\uff20]|'*[\t\r\n]")
_NUMBER = re.compile(r"[+-]?\d+(?:[.,]\d+)?\s?%?")


def guarded(cell: str) -> str:
    """Return the cell as a spreadsheet takes it for text; most cells stay as they are."""
    if _FORMULA.match(cell) is None or _NUMBER.fullmatch(cell) is not None:
        return cell
    return GUARD + cell


def guarded_text(text: str) -> str:
    """Return a text of several lines, none of which begins a formula where it is pasted."""
    return "\n".join(guarded(line.replace("\t", " ")) for line in text.split("\n"))


def unguarded(cell: str) -> str:
    """Return what `guarded` was given; a cell that it would not have guarded stays as it is."""
    if cell.startswith(GUARD) and _FORMULA.match(cell, 1) is not None:
        return cell[1:]
    return cell
