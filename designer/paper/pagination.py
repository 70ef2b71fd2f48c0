"""Rows put on pages: heads stay with what follows, no row is cut, a broken part repeats its head.

A row is what cannot be split. Rows that keep with the next are moved together unless they would not
fit a page of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtGui import QPainter

TIGHTNESS = (1.25, 1.0, 0.8, 0.6, 0.4, 0.3, 0.2, 0.1)
"""Gaps between rows, as shares of what is wanted."""
Paint = Callable[[QPainter, float, float, float], None]
"""Draws a row: painter, left edge, top edge, height given to it."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row: its height, the gap wanted below, whether it stays with the next one.

    `again` is drawn above it where it comes first on a page: the head of its part once more.
    A row that `stretches` takes all that is left of its page.
    """

    height: float
    paint: Paint
    gap: float = 0.0
    keep: bool = False
    again: Row | None = None
    stretches: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """A row at its place on a page, with the height it was given."""

    row: Row
    top: float
    height: float


Page = list[Placed]


def paginated(
    settings: Sequence[Callable[[], Sequence[Row]]], page_height: float, wanted: int = 1
) -> list[Page]:
    """Return the pages of the roomiest setting that needs no more of them than the densest.

    Where more are `wanted`, it is the roomiest that needs no more than those.

    `settings` set the same text, the roomiest first. So type shrinks and gaps narrow before a last
    page is begun for a few lines, and no more than that asks for.
    """
    densest = settings[-1]()
    fewest = max(len(filled(densest, page_height, TIGHTNESS[-1])), wanted)
    for setting in settings:
        rows = densest if setting is settings[-1] else setting()
        for tightness in TIGHTNESS:
            pages = filled(rows, page_height, tightness)
            if len(pages) <= fewest:
                return pages
    raise AssertionError("the densest setting needs as many pages as the densest setting")


def filled(rows: Sequence[Row], page_height: float, tightness: float = 1.0) -> list[Page]:
    """Return the pages that rows fill, with gaps of that share of what is wanted."""
    pages: list[Page] = [[]]
    y = 0.0
    for chunk in _chunks(rows):
        needed = sum(row.height + tightness * row.gap for row in chunk) - tightness * chunk[-1].gap
        if pages[-1] and y + needed > page_height:
            pages.append([])
            y = 0.0
        for row in chunk:
            if pages[-1] and y + row.height > page_height:
                pages.append([])
                y = 0.0
            if not pages[-1] and row.again is not None:
                pages[-1].append(Placed(row.again, 0.0, row.again.height))
                y = row.again.height + tightness * row.again.gap
            height = max(row.height, page_height - y) if row.stretches else row.height
            pages[-1].append(Placed(row, y, height))
            y += height + tightness * row.gap
    return pages


def _chunks(rows: Sequence[Row]) -> list[list[Row]]:
    chunks: list[list[Row]] = [[]]
    for row in rows:
        chunks[-1].append(row)
        if not row.keep:
            chunks.append([])
    return [chunk for chunk in chunks if chunk]
