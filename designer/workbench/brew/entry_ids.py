"""Ids of entries: their order is the order in which they were written, whatever the clocks said.

An id is a number that grows within a log, and a token that no other window draws, such as
`000017-9f3c21ab`.
"""

from __future__ import annotations

import re
import secrets
from collections.abc import Iterable

from designer.workbench.brew.entries import Entry

_NUMBERED = re.compile(r"(\d{1,9})-")
_LAST = 10**9


def order_of(entry_id: str) -> tuple[int, str]:
    """Return what ids are sorted by; one that is not ours comes last."""
    found = _NUMBERED.match(entry_id)
    return (int(found.group(1)) if found else _LAST), entry_id


def next_id(entries: Iterable[Entry]) -> str:
    """Return an id for an entry that is written after these."""
    numbers = [number for number, _ in (order_of(each.id) for each in entries) if number < _LAST]
    return f"{max(numbers, default=0) + 1:06d}-{secrets.token_hex(4)}"


def in_order(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return entries in the order in which they were written, each once."""
    once: dict[str, Entry] = {}
    for each in entries:
        once.setdefault(each.id, each)
    return tuple(sorted(once.values(), key=lambda each: order_of(each.id)))
