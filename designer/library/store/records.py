"""The rows that stand on a file's pages, found without SQLite and without its schema.

A page of rows lists where each begins; the end of a long one lies on a chain of pages of its own
(https://www.sqlite.org/fileformat2.html, 1.6 and 2.1). On a page whose list is lost, rows are found
by what the head of a record must look like, kind by kind of column. Which table a row is of follows
from its shape: no two kept tables have records of one shape.
"""

from __future__ import annotations

import re
import struct
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from designer.library.store.file_pages import (
    FIRST_HEADER,
    INDEX_INNER,
    INDEX_LEAF,
    TABLE_INNER,
    TABLE_LEAF,
    Pages,
    local_part,
    varint,
)
from designer.library.store.recipe_rows import KEPT, TRASHED
from designer.library.store.table_shapes import Column, shapes

LARGEST_RECORD = 50_000_000
NOT_KEPT = ("life", "tables")
"""Keys of the table `about`, whose rows have the shape of preferences."""
_WIDTHS = (0, 1, 2, 3, 4, 6, 8, 8, 0, 0)


@dataclass(slots=True)
class Found:
    """Rows of each table, the newest state of each first; and how many could not be read."""

    rows: dict[str, list[dict[str, Any]]] = field(default_factory=dict)
    unreadable: int = 0


def rows_on(pages: Pages) -> Found:
    """Return all rows of the kept tables that can be read from pages."""
    reader = _Reader(pages)
    free = pages.free()
    torn = []
    for number in range(1, pages.count + 1):
        page = pages.page(number)
        if page is not None and number not in free and not reader.read(number, page):
            torn.append(number)
    for number in torn:
        if number not in reader.chained:
            reader.carve(number, pages.page(number) or b"")
    for table, order in (("recipes", "touched"), ("drafts", "saved")):
        # pages given up may hold an older state of a row: the newest counts
        reader.found.rows.get(table, []).sort(key=lambda row: row[order], reverse=True)
    return reader.found


class _Reader:
    """Reads page by page; `chained` are those that hold the ends of long rows."""

    def __init__(self, pages: Pages) -> None:
        self._pages = pages
        self.found = Found()
        self.chained: set[int] = set()

    def read(self, number: int, page: bytes) -> bool:
        """Read a page of rows; return whether it is whole, or a whole page of another kind."""
        at = FIRST_HEADER if number == 1 else 0
        starts = _starts(page, at)
        if starts is None:
            return False
        if page[at] != TABLE_LEAF:
            return True
        is_whole = True
        for start in starts:
            record = self._record(page, start)
            if record is None:
                self.found.unreadable += 1
                is_whole = False
            else:
                self._keep(*record)
        return is_whole

    def carve(self, number: int, page: bytes) -> None:
        """Find rows on a page whose list of them is lost."""
        heads = {match.start() for each in _heads() for match in each.finditer(page)}
        for head in sorted(heads):
            start = _start_of(page, head)
            record = None if start is None else self._record(page, start)
            if record is not None:
                self._keep(*record)

    def _keep(self, number: int, values: list[Any]) -> None:
        for shape in shapes().values():
            row = shape.row(values, number)
            if row is not None and not _is_of_another(row):
                self.found.rows.setdefault(shape.table, []).append(row)
                return

    def _record(self, page: bytes, start: int) -> tuple[int, list[Any]] | None:
        """Return the number and the values of the row that begins at a place; None for no row."""
        length, at = varint(page, start)
        number, at = varint(page, at)
        if not 2 <= length <= LARGEST_RECORD:
            return None
        whole = self._payload(page, at, length)
        values = None if whole is None else _values(whole)
        return None if values is None else (number, values)

    def _payload(self, page: bytes, at: int, length: int) -> bytes | None:
        """Return a record with what of it lies on other pages."""
        local = local_part(length, self._pages.size)
        if at + local + (4 if local < length else 0) > len(page):
            return None
        if local == length:
            return page[at : at + length]
        parts, left = [page[at : at + local]], length - local
        following = struct.unpack_from(">I", page, at + local)[0]
        chain: list[int] = []
        while left > 0:
            more = self._pages.page(following) if following not in chain else None
            if more is None:
                return None
            chain.append(following)
            parts.append(more[4 : 4 + min(left, len(more) - 4)])
            left -= len(parts[-1])
            following = struct.unpack_from(">I", more)[0]
        self.chained.update(chain)
        return b"".join(parts)


def _is_of_another(row: dict[str, Any]) -> bool:
    """Tell whether a row only has the shape: notes about the box, or a recipe's words to search.

    Those are as long as a fermenter is, and their last says how the recipe stands.
    """
    return row.get("key") in NOT_KEPT or row.get("marks_hold") in (KEPT, TRASHED)


def _starts(page: bytes, at: int) -> tuple[int, ...] | None:
    """Return where the cells of a page of a tree begin; None if it is none, or is torn."""
    if page[at] not in (TABLE_LEAF, TABLE_INNER, INDEX_LEAF, INDEX_INNER):
        return None
    first = at + (12 if page[at] in (TABLE_INNER, INDEX_INNER) else 8)
    cells = int.from_bytes(page[at + 3 : at + 5], "big")
    if first + 2 * cells > len(page) or (not cells and any(page[at + 8 :])):
        return None
    starts = struct.unpack_from(f">{cells}H", page, first)
    if any(not first + 2 * cells <= each <= len(page) - 4 for each in starts):
        return None
    return starts if len(set(starts)) == cells else None


def _values(record: bytes) -> list[Any] | None:
    """Return the values of a record; None for bytes that are none. (2.1)"""
    behind_head, at = varint(record, 0)
    if not 1 < behind_head <= len(record):
        return None
    kinds = []
    while at < behind_head:
        kind, at = varint(record, at)
        kinds.append(kind)
    if at != behind_head or sum(map(_width, kinds)) != len(record) - behind_head:
        return None
    found = []
    try:
        for kind in kinds:
            found.append(_value(record[at : at + _width(kind)], kind))
            at += _width(kind)
    except UnicodeDecodeError:
        return None
    return found


def _width(kind: int) -> int:
    return _WIDTHS[kind] if kind < len(_WIDTHS) else max(kind - 12, 0) // 2


def _value(raw: bytes, kind: int) -> object:
    if kind == 0:
        return None
    if kind in (8, 9):
        return kind - 8
    if kind == 7:
        return struct.unpack(">d", raw)[0]
    if kind < 7:
        return int.from_bytes(raw, "big", signed=True)
    return raw.decode("utf-8") if kind & 1 else raw


# rows without a list of them

_WHOLE = rb"[\x01-\x06\x08\x09]"
_TEXT = (
    rb"(?:["
    + re.escape(bytes(range(13, 128, 2)))
    + rb"]|[\x81-\xff][\x80-\xff]{0,3}["
    + re.escape(bytes(range(1, 128, 2)))
    + rb"])"
)
_OF_KIND = {"integer": _WHOLE, "text": _TEXT, "real": rb"[\x01-\x09]"}


@cache
def _heads() -> tuple[re.Pattern[bytes], ...]:
    """Return for each table what the head of its records looks like, the kinds of its values."""
    found = []
    for shape in shapes().values():
        kinds = [_kind(each) for each in shape.columns]
        if shape.numbered:
            kinds[0] = rb"\x00"
        later = b"".join(b"(?:" + each for each in kinds[shape.fewest :])
        ends = b")?" * (len(kinds) - shape.fewest)
        pattern = b"".join(kinds[: shape.fewest]) + later + ends
        found.append(re.compile(b"[\\x03-\\x40](?=" + pattern + b")", re.DOTALL))
    return tuple(found)


def _kind(column: Column) -> bytes:
    kind = _OF_KIND[column.kind]
    return b"(?:\\x00|" + kind + b")" if column.may_be_null else kind


def _start_of(page: bytes, head: int) -> int | None:
    """Return where the row begins whose record's head is at a place; None if there is none.

    Before the head stand the record's length and the row's number; the length follows from the
    head itself, so both can be told.
    """
    behind, at = varint(page, head)
    kinds = []
    while at < head + behind:
        kind, at = varint(page, at)
        kinds.append(kind)
    if at != head + behind:
        return None
    length = _as_varint(behind + sum(map(_width, kinds)))
    for digits in range(1, 10):
        start = head - digits - len(length)
        if start < 0:
            return None
        if page[start : start + len(length)] == length and varint(page, head - digits)[1] == head:
            return start
    return None


def _as_varint(value: int) -> bytes:
    digits = [value & 0x7F]
    while value > 0x7F:
        value >>= 7
        digits.append(value & 0x7F | 0x80)
    return bytes(reversed(digits))
