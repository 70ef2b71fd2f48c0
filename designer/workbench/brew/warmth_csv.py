"""Temperatures of a beer out of a table that a thermometer wrote, whatever its form.

What parts the cells, which column holds the times and which the beer, the unit, and the order of
day and month are found from the table itself. Rows without a figure are passed over; one whose time
cannot be read is refused with its line. Thousands of rows are drawn together: what a log keeps is
the mean of each stretch of time.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from statistics import median
from typing import NamedTuple

from designer.library.file_bytes import bytes_of
from designer.library.table_text import decoded
from designer.recipe.message import Message, refused, say
from designer.recipe.quantity import Kind
from designer.units.quoting import quoted
from designer.workbench.brew.warmth_times import (
    TimeForm,
    form_of,
    is_date_alone,
    is_time_of_day,
)

LARGEST_FILE = 20_000_000
MOST_KEPT = 400
"""So many stretches tell a fermentation of weeks, one every hour or two."""
COLDEST_C, WARMEST_C = -10.0, 60.0
"""What no beer is: a probe that lies open or is broken."""
_MOSTLY = 0.6
_LOOKED_AT = 200
_LARGEST_HEAD = 30
_FAHRENHEIT_ABOVE = 45.0
"""A table whose middle is above it and says no unit is in °F: no beer ferments at 45 °C."""
_PARTED_BY = (";", "\t", "|", ",")
_NOTHING = {"", "-", "--", "nan", "null", "none", "n/a", "na", "unavailable", "unknown"}
_NUMBER = re.compile(r"([-+]?\d+(?:[.,]\d+)?)\s*(°?\s*[CF])?", re.IGNORECASE)
_WARMTH = re.compile(r"temp|°\s?[cf]\b|celsius|fahrenheit|grad|\bdeg", re.IGNORECASE)
_BEER = re.compile(r"beer|wort|probe|ferment|bier|würze|bi[èe]re|mo[ûu]t", re.IGNORECASE)
_NOT_BEER = re.compile(
    r"target|set ?-?point|\bset\b|soll|consigne|ambient|room|raum|outside|fridge|heater|cooler",
    re.IGNORECASE,
)
_IN_F = re.compile(r"°\s?f\b|fahrenheit|\bdeg\.? ?f\b|[(\[_ ]f[)\]]?$", re.IGNORECASE)
_IN_C = re.compile(r"°\s?c\b|celsius|\bdeg\.? ?c\b|[(\[_ ]c[)\]]?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class WarmthTable:
    """Temperatures of a table: seconds since 1970 and °C, in order of time.

    `rows` is how many were read, `left_out` how many said what no beer is.
    """

    temperatures: tuple[tuple[float, float], ...]
    rows: int
    left_out: int

    @property
    def words(self) -> Message:
        """What was read, in a line."""
        degrees = [each for _, each in self.temperatures]
        first, last = (self.temperatures[at][0] for at in (0, -1))
        return say(
            "warmth-table",
            "{0} to {1} from {first} to {last}, of {rows} lines",
            (Kind.TEMPERATURE, min(degrees)),
            (Kind.TEMPERATURE, max(degrees)),
            first=f"{datetime.fromtimestamp(first):%Y-%m-%d}",
            last=f"{datetime.fromtimestamp(last):%Y-%m-%d}",
            rows=self.rows,
        )


class _Row(NamedTuple):
    line: int
    cells: list[str]


class _Columns(NamedTuple):
    """Which columns hold what; `clock` is that of the time of day beside a date, else None."""

    time: int
    clock: int | None
    warmth: int

    def time_text(self, row: _Row) -> str:
        told = row.cells[self.time] if self.time < len(row.cells) else ""
        if self.clock is None or self.clock >= len(row.cells):
            return told.strip()
        return f"{told.strip()} {row.cells[self.clock].strip()}"


def warmth_in_file(path: Path) -> WarmthTable:
    """Return the temperatures of a file. Raises DesignerError, which names file or line."""
    return warmth_in(decoded(bytes_of(path, LARGEST_FILE)))


def warmth_in(text: str) -> WarmthTable:
    """Return the temperatures of a table. Raises RefusedInputError, naming the line."""
    rows, columns = _parted(text)
    start = _first_of_data(rows, columns)
    heads = [row.cells for row in rows[:start]]
    data = rows[start:]
    form = form_of([columns.time_text(row) for row in data[:: max(len(data) // 500, 1)]])
    told = list(_told(data, columns, form))
    in_f = _in_fahrenheit(heads, data, columns, [value for _, value in told])
    temperatures = [(wall, (each - 32.0) / 1.8 if in_f else each) for wall, each in told]
    kept = [each for each in temperatures if COLDEST_C <= each[1] <= WARMEST_C]
    if not kept:
        raise refused(
            "warmth-none",
            "No line of the table has a time and a temperature that beer can have. Wanted are "
            "columns such as 2026-03-28 11:43 and 19.5.",
        )
    drawn = drawn_together(sorted(kept))
    return WarmthTable(drawn, len(told), len(temperatures) - len(kept))


def _parted(text: str) -> tuple[list[_Row], _Columns]:
    """Return the rows as cells and what their columns hold, by the sign that explains most."""
    best: tuple[int, list[_Row], _Columns] | None = None
    for sign in _PARTED_BY:
        if sign not in text:
            continue
        rows = _rows(text, sign)
        columns = _columns(rows)
        if columns is None:
            continue
        good = sum(1 for row in rows[: _LOOKED_AT + _LARGEST_HEAD] if _is_data(row, columns))
        if best is None or good > best[0]:
            best = good, rows, columns
    if best is None:
        raise refused(
            "warmth-no-table",
            "This is no table of times and temperatures: wanted are lines such as 2026-03-28 "
            "11:43;19.5, parted by semicolons, commas or tabs.",
        )
    return best[1], best[2]


def _rows(text: str, sign: str) -> list[_Row]:
    """Return the rows that are not blank; a decimal comma between commas is put together again."""
    reader = csv.reader(io.StringIO(text.replace("\0", ""), newline=""), delimiter=sign)
    found: list[_Row] = []
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                found.append(_Row(reader.line_num, cells))
    except csv.Error:
        found = [
            _Row(at, line.split(sign))
            for at, line in enumerate(text.splitlines(), 1)
            if line.strip()
        ]
    return found


def _columns(rows: Sequence[_Row]) -> _Columns | None:
    """Return which columns hold time and beer; None where no such are found."""
    start = next((at for at, row in enumerate(rows) if any(map(_is_time, row.cells))), len(rows))
    looked_at = rows[start : start + _LOOKED_AT]
    wide = max((len(row.cells) for row in looked_at), default=0)
    time = next((at for at in range(wide) if _mostly(looked_at, at, _is_time)), None)
    if time is None:
        return None
    clock = None
    if _mostly(looked_at, time, is_date_alone):
        beside = (at for at in range(wide) if at != time)
        clock = next((at for at in beside if _mostly(looked_at, at, is_time_of_day)), None)
    others = [at for at in range(wide) if at not in (time, clock)]
    numbers = [at for at in others if _mostly(looked_at, at, _is_warmth)]
    if not numbers:
        return None
    heads = [row.cells for row in rows[:start]]
    return _Columns(time, clock, max(numbers, key=lambda at: (_named(heads, at), -at)))


def _named(heads: Sequence[list[str]], at: int) -> int:
    """Return how much the heading of a column says that it is the beer's temperature."""
    told = " ".join(cells[at] for cells in heads if at < len(cells))
    good = 2 * bool(_WARMTH.search(told)) + bool(_BEER.search(told))
    return good - 3 * bool(_NOT_BEER.search(told))


def _mostly(rows: Sequence[_Row], at: int, what: Callable[[str], bool]) -> bool:
    filled = [row.cells[at] for row in rows if at < len(row.cells) and row.cells[at].strip()]
    return sum(1 for each in filled if what(each)) > _MOSTLY * max(len(filled), 1)


def _is_in(row: _Row, at: int, what: Callable[[str], bool]) -> bool:
    return at < len(row.cells) and bool(what(row.cells[at]))


def _is_time(text: str) -> bool:
    return TimeForm(True).wall_of(text) is not None or TimeForm(False).wall_of(text) is not None


def _is_warmth(text: str) -> bool:
    return text.strip().lower() in _NOTHING or _number(text) is not None


def _number(text: str) -> float | None:
    found = _NUMBER.fullmatch(text.strip())
    return None if found is None else float(found[1].replace(",", "."))


def _is_data(row: _Row, columns: _Columns) -> bool:
    return (
        _is_in(row, columns.time, _is_time)
        and columns.warmth < len(row.cells)
        and _number(row.cells[columns.warmth]) is not None
    )


def _first_of_data(rows: Sequence[_Row], columns: _Columns) -> int:
    return next((at for at, row in enumerate(rows) if _is_in(row, columns.time, _is_time)), 0)


def _told(rows: Sequence[_Row], columns: _Columns, form: TimeForm) -> Iterator[tuple[float, float]]:
    for row in rows:
        cell = row.cells[columns.warmth].strip() if columns.warmth < len(row.cells) else ""
        if cell.lower() in _NOTHING:
            continue
        text = columns.time_text(row)
        wall, value = form.wall_of(text), _number(cell)
        if wall is None:
            raise refused(
                "warmth-no-time",
                "Line {line}: {text} is no time such as 2026-03-28 11:43. Set it right or take "
                "the line out.",
                line=row.line,
                text=quoted(text),
            )
        if value is None:
            raise refused(
                "warmth-no-figure",
                "Line {line}: {text} is no temperature such as 19.5. Set it right or take the "
                "line out.",
                line=row.line,
                text=quoted(cell),
            )
        yield wall, value


def _in_fahrenheit(
    heads: Sequence[list[str]], rows: Sequence[_Row], columns: _Columns, values: Sequence[float]
) -> bool:
    at = columns.warmth
    head = " ".join(cells[at] for cells in heads if at < len(cells))
    cells = [row.cells[at] for row in rows[:_LOOKED_AT] if at < len(row.cells)]
    units = [found[2].strip("° ").upper() for c in cells if (found := _of_unit(c)) is not None]
    if units:
        return units.count("F") > len(units) / 2
    if _IN_F.search(head) or _IN_C.search(head):
        return _IN_F.search(head) is not None and _IN_C.search(head) is None
    return bool(values) and median(values) > _FAHRENHEIT_ABOVE


def _of_unit(cell: str) -> re.Match[str] | None:
    found = _NUMBER.fullmatch(cell.strip())
    return found if found is not None and found[2] else None


def drawn_together(found: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Return no more temperatures than a log is to keep, each the mean of its stretch of time."""
    if len(found) <= MOST_KEPT:
        return tuple((wall, round(each, 2)) for wall, each in found)
    first, last = found[0][0], found[-1][0]
    step = max((last - first) / (MOST_KEPT - 1), 1e-6)
    stretches: dict[int, list[tuple[float, float]]] = {}
    for wall, each in found:
        stretches.setdefault(int((wall - first) / step), []).append((wall, each))
    return tuple(
        (
            round(sum(wall for wall, _ in each) / len(each), 1),
            round(sum(degrees for _, degrees in each) / len(each), 2),
        )
        for each in stretches.values()
    )
