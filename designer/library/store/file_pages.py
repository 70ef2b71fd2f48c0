"""The pages of a store's file and of its log, read without SQLite: for a file that SQLite refuses.

What stands where is published: https://www.sqlite.org/fileformat2.html, 1.3 (first page), 1.5
(list of free pages), 1.6 (pages of trees) and 4 (log). Nothing is believed without need: a page of
the log counts where its check sums are right, and the size of pages is what makes most of them
whole.
"""

from __future__ import annotations

import mmap
import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

MAGIC = b"SQLite format 3\0"
FIRST_HEADER = 100
SIZES = tuple(2**n for n in range(9, 17))
USUAL_SIZE = 4096
LOOKED_AT = 8_000_000
"""So many bytes tell the size of pages."""
TABLE_LEAF, TABLE_INNER, INDEX_LEAF, INDEX_INNER = 13, 5, 10, 2
_LOG_MAGIC = (0x377F0682, 0x377F0683)
_LOG_HEADER, _FRAME_HEADER = 32, 24


@dataclass(slots=True)
class Pages:
    """The pages of one state of a file: those that the log holds instead of the file's own."""

    file: bytes | mmap.mmap
    size: int
    logged: Mapping[int, bytes] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many pages there are, one that is cut off among them."""
        own = -(-len(self.file) // self.size)
        return max(own, max(self.logged, default=0))

    def page(self, number: int) -> bytes | None:
        """Return a page, zeros for what is cut off; None for one that is not there."""
        if number in self.logged:
            return self.logged[number]
        start = (number - 1) * self.size
        if number < 1 or start >= len(self.file):
            return None
        return self.file[start : start + self.size].ljust(self.size, b"\0")

    def free(self) -> frozenset[int]:
        """Return the pages that are in no use, as far as their list can be followed."""
        first = self.page(1) or b""
        trunk = int.from_bytes(first[32:36], "big")
        found: set[int] = set()
        while 1 < trunk <= self.count and trunk not in found:
            page = self.page(trunk) or b""
            following, leaves = struct.unpack_from(">II", page)
            if leaves > self.size // 4 - 2:
                break
            found.add(trunk)
            found.update(struct.unpack_from(f">{leaves}I", page, 8))
            trunk = following
        return frozenset(found)


def page_states(path: Path) -> Iterator[Pages]:
    """Yield the pages as the file and its log last confirmed them; then with all the log holds.

    The second only where a break in the log hides what was written behind it. Raises OSError.
    """
    content, log = _content(path), _content(Path(f"{path}-wal"))
    size = page_size(content, log)
    confirmed, beyond = _logged(log, size)
    yield Pages(content, size, confirmed)
    if beyond:
        yield Pages(content, size, {**confirmed, **beyond})


def _content(path: Path) -> bytes | mmap.mmap:
    if not path.exists() or not path.stat().st_size:
        return b""
    with path.open("rb") as file:
        return mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ)


def page_size(content: bytes | mmap.mmap, log: bytes | mmap.mmap = b"") -> int:
    """Return the size of a file's pages: as it says, if that fits, else what fits best."""
    said = _said(content[16:18])
    in_log = int.from_bytes(log[8:12], "big")
    sample = content[:LOOKED_AT]
    for size in (said, in_log):
        if size in SIZES and (_whole_pages(sample, size) or not content):
            return size
    fitting = {size: _whole_pages(sample, size) for size in SIZES}
    best = max(SIZES, key=lambda size: fitting[size])
    return best if fitting[best] else USUAL_SIZE


def _said(raw: bytes) -> int:
    size = int.from_bytes(raw, "big")
    return 65536 if size == 1 else size


def _whole_pages(content: bytes, size: int) -> int:
    """Count pages of rows that are filled from their end, as they are only in their own size."""
    count = 0
    for start in range(0, len(content) - size + 1, size):
        header = start if start else FIRST_HEADER
        if content[header] == TABLE_LEAF:
            count += _is_filled(content[start : start + size], header)
    return count


def _is_filled(page: bytes, header: int) -> bool:
    at = header % len(page)
    cells = int.from_bytes(page[at + 3 : at + 5], "big")
    room = at + 8 + 2 * cells
    if not cells or room > len(page):
        return False
    starts = struct.unpack_from(f">{cells}H", page, at + 8)
    last = max(starts)
    if min(starts) < room or last > len(page) - 4:
        return False
    payload, behind = varint(page, last)
    _, behind = varint(page, behind)
    local = local_part(payload, len(page))
    return behind + local + (4 if local < payload else 0) == len(page)


def local_part(length: int, size: int) -> int:
    """Return how much of a record of a table lies on its own page (1.6, "overflow")."""
    if length <= size - 35:
        return length
    least = (size - 12) * 32 // 255 - 23
    most = least + (length - least) % (size - 4)
    return most if most <= size - 35 else least


def varint(raw: bytes, at: int) -> tuple[int, int]:
    """Return the number of variable length that stands at a place, and the place behind it.

    Zeros stand behind the end.
    """
    value = 0
    for place in range(at, at + 8):
        byte = raw[place] if place < len(raw) else 0
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, place + 1
    last = raw[at + 8] if at + 8 < len(raw) else 0
    return value << 8 | last, at + 9


# the log


def _logged(log: bytes | mmap.mmap, size: int) -> tuple[dict[int, bytes], dict[int, bytes]]:
    """Return the pages that the log confirms, and those behind a break of the same log."""
    if len(log) < _LOG_HEADER or int.from_bytes(log[:4], "big") not in _LOG_MAGIC:
        return {}, {}
    order = ">" if log[3] & 1 else "<"
    sums = _sums(log[:24], (0, 0), order)
    is_right = sums == struct.unpack_from(">II", log, 24)
    salts = bytes(log[16:24])
    confirmed: dict[int, bytes] = {}
    waiting: dict[int, bytes] = {}
    beyond: dict[int, bytes] = {}
    for start in range(_LOG_HEADER, len(log) - _FRAME_HEADER - size + 1, _FRAME_HEADER + size):
        head, page = log[start : start + 24], log[start + 24 : start + 24 + size]
        number, commit = struct.unpack_from(">II", head)
        is_right = is_right and head[8:16] == salts
        if is_right:
            sums = _sums(page, _sums(head[:8], sums, order), order)
            is_right = sums == struct.unpack_from(">II", head, 16)
        if is_right:
            waiting[number] = page
            if commit:
                confirmed.update(waiting)
                waiting.clear()
        elif head[8:16] == salts and 0 < number < 10_000_000:
            beyond[number] = page
    return confirmed, beyond


def _sums(raw: bytes, sums: tuple[int, int], order: str) -> tuple[int, int]:
    first, second = sums
    words = struct.unpack(f"{order}{len(raw) // 4}I", raw)
    for a, b in zip(words[::2], words[1::2], strict=True):
        first = (first + a + second) & 0xFFFFFFFF
        second = (second + b + first) & 0xFFFFFFFF
    return first, second
