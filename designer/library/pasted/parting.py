"""How the cells of a text are parted: by a sign, by standing below each other, or not at all."""

from __future__ import annotations

import re
from collections import Counter
from enum import StrEnum
from itertools import pairwise

from designer.library.formula_guard import unguarded
from designer.library.table_text import MOST_CELLS, lines_of, rows_of
from designer.translation import message

LONGEST_LINE = 2_000
_DECIMAL_COMMA = re.compile(r"\d,\d")
_WORD = re.compile(r"\S+")
_WIDE = re.compile(r"\s{2,}")
_JOINERS = "\u200c\u200d"
_GAP = 2
"""So many blanks below each other part two columns; one stands between the words of a name."""


class Parting(StrEnum):
    """What stands between the cells of a row."""

    TABS = message("tabs")
    SEMICOLONS = message("semicolons")
    COMMAS = message("commas")
    BARS = message("upright bars")
    COLUMNS = message("blanks, in columns")
    LINES = message("nothing: one ingredient a line")


_SIGNS = {Parting.TABS: "\t", Parting.SEMICOLONS: ";", Parting.COMMAS: ",", Parting.BARS: "|"}
Cells = tuple[tuple[str, ...], ...]


def cells_of(text: str, parting: Parting) -> Cells:
    """Return the rows that hold anything, as cells, all rows as wide as the widest.

    Columns without content are left away, signs that cannot be seen dropped. Raises
    RefusedInputError for more text, rows or cells than are read at once.
    """
    if parting in _SIGNS:
        rows = rows_of(text, _SIGNS[parting])
    elif parting is Parting.COLUMNS:
        rows = _columns(lines_of(text))
    else:
        rows = [[line] for line in lines_of(text)]
    clean = [[_clean(cell) for cell in row] for row in rows]
    filled = [row for row in clean if any(row)]
    width = max(map(len, filled), default=0)
    kept = [at for at in range(width) if any(at < len(row) and row[at] for row in filled)]
    return tuple(tuple(row[at] if at < len(row) else "" for at in kept) for row in filled)


def _clean(cell: str) -> str:
    """One line of what can be seen, without the guard of a spreadsheet."""
    seen = cell if cell.isprintable() else "".join(map(_seen, cell))
    return " ".join(unguarded(seen.strip()).split())


def _seen(sign: str) -> str:
    if sign.isprintable() or sign in _JOINERS:
        return sign
    return " " if sign.isspace() else ""


def possible_partings(text: str) -> list[Parting]:
    """Return the ways that a text may be parted, the likeliest first.

    Raises RefusedInputError for more text or rows than are read at once.
    """
    lines = lines_of(text)
    half = (len(lines) + 1) // 2
    counted = {each: sum(sign in line for line in lines) for each, sign in _SIGNS.items()}
    if lines and counted[Parting.TABS] >= half:
        return [Parting.TABS]
    found = [
        each
        for each in (Parting.SEMICOLONS, Parting.BARS, Parting.COMMAS)
        if lines and counted[each] >= half
    ]
    if len(lines) > 1 and (_gaps(lines) or all(_WIDE.search(line.strip()) for line in lines)):
        found.append(Parting.COLUMNS)
    return [*found, Parting.LINES]


def is_doubtful(text: str, parting: Parting) -> bool:
    """Whether commas that part cells may be decimal commas."""
    return parting is Parting.COMMAS and _DECIMAL_COMMA.search(_unquoted(text)) is not None


def _unquoted(text: str) -> str:
    return "".join(text.split('"')[::2])


def most_usual_width(cells: Cells) -> int:
    """Return how many filled cells most rows have; 0 without rows."""
    counted = Counter(sum(1 for cell in row if cell) for row in cells)
    return counted.most_common(1)[0][0] if counted else 0


def _gaps(lines: list[str]) -> list[tuple[int, int]]:
    """Return where every line is blank, between columns: first place and the place after."""
    if any(len(line) > LONGEST_LINE or "\t" in line for line in lines):
        return []
    width = max(map(len, lines))
    begins = min(len(line) - len(line.lstrip()) for line in lines)
    blank = [True] * width
    for line in lines:
        for word in _WORD.finditer(line):
            blank[word.start() : word.end()] = [False] * len(word.group())
    gaps, start = [], begins
    for at in range(begins, width):
        if not blank[at]:
            if at - start >= _GAP:
                gaps.append((start, at))
            start = at + 1
    return gaps[: MOST_CELLS - 1]


def _columns(lines: list[str]) -> list[list[str]]:
    if not lines:
        return []
    by_gaps = [_WIDE.split(line.strip()) for line in lines]
    edges = [0, *(after for _, after in _gaps(lines)), max(map(len, lines))]
    if len({len(row) for row in by_gaps}) == 1 and len(by_gaps[0]) >= len(edges):
        return by_gaps  # columns that do not stand below each other everywhere
    return [[line[a:b] for a, b in pairwise(edges)] for line in lines]
