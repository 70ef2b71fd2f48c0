"""Rows of what stands on the sheet beside steps and lists: heads, paragraphs, tables, drawings."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from designer.paper.drawings import paint_drawing
from designer.paper.pagination import Row
from designer.paper.pieces import ACTION, RAIL, paint_rail, paint_warning
from designer.paper.typography import Run, Text, ink, pt, runs
from designer.sheet.blocks import Drawing, Drawings, Lines, Paragraph, Table, Words, plain_words

CELL_GAP = pt(5.0)
"""Kept free beside each cell of a table, so that heads never touch."""
TOGETHER = 5
"""So many warnings at most are kept on one page."""
LONGEST_ROW_SIGNS = 1200
"""A paragraph is one row up to so many signs."""


def section_head(title: str, lead: str, width: float) -> Row:
    """Return the head of a part, which stays with what follows."""
    text = Text([Run(title, 13.0, True, "accent")], width)
    more = Text([Run(lead, 9.5, tone="soft")], width, align=Qt.AlignmentFlag.AlignRight)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        painter.fillRect(QRectF(x, y, width, pt(1.4)), ink("accent"))
        text.paint(painter, x, y + pt(3.5))
        more.paint(painter, x, y + pt(6.2))

    return Row(pt(5.5) + text.height, paint, gap=pt(3.0), keep=True)


def rows_beside(title: str, rows: list[Row]) -> list[Row]:
    """Lines with their title in the column of the clock; a few of them stay together."""
    text = Text([Run(title, 10.5, True, "care")], ACTION)

    def beside(row: Row, titled: bool) -> Row:
        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            if titled:
                text.paint(painter, x, y)
            row.paint(painter, x + ACTION, y, row.height)

        height = max(row.height, text.height) if titled else row.height
        return Row(height, paint, gap=pt(2.0), keep=len(rows) <= TOGETHER)

    made = [beside(row, number == 0) for number, row in enumerate(rows)]
    made[-1] = replace(made[-1], gap=pt(9.0), keep=False)
    return made


def paragraph_rows(block: Paragraph, width: float, size: float) -> list[Row]:
    """Return a paragraph, behind a sign where it warns; a long one in pieces."""
    return [_paragraph_row(part, block.kind, width, size) for part in pieces_of(block.words)]


def _paragraph_row(words: Words, kind: str, width: float, size: float) -> Row:
    indent = 0.0 if kind == "plain" else pt(16.0)
    said = [
        Run(each.text, each.size, each.bold or kind == "stop", each.tone)
        for each in runs(words, size, "ink" if kind == "plain" else "care")
    ]
    text = Text(said, width - (indent + ACTION if indent else 0.0))

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        if indent:
            paint_warning(painter, x + pt(1.0), y + pt(1.2), filled=kind == "stop")
        text.paint(painter, x + indent, y)

    return Row(text.height, paint, gap=pt(2.5))


def table_row(table: Table, width: float, size: float, *, large: bool, moved: float = 0.0) -> Row:
    """A table beside its caption; in large print below it. The rail may be moved to the right."""
    left, first = (pt(4.0), pt(108.0)) if large else (ACTION + moved, pt(100.0))
    rest = (width - left - first) / max(len(table.head) - 1, 1)
    cells = [
        [
            Text(
                [Run(cell, size, bold=row == 0 or column == 0)],
                (first if not column else rest) - CELL_GAP,
            )
            for column, cell in enumerate(line)
        ]
        for row, line in enumerate((table.head, *table.rows))
    ]
    room = width if large else pt(58.0)
    caption = Text([Run(table.caption, size, True, "accent")], room)
    heights = [max(cell.height for cell in line) + pt(1.5) for line in cells]
    above = caption.height + pt(3.0) if large else 0.0
    high = max(above + sum(heights), caption.height)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        if not large:
            paint_rail(painter, x + RAIL + moved, y - pt(4.0), high + pt(10.0))
        caption.paint(painter, x, y)
        top = y + above
        ground = QRectF(
            x + left - pt(4.0), top - pt(1.5), width - left + pt(4.0), sum(heights) + pt(3.0)
        )
        painter.fillRect(ground, ink("ground"))
        for line, height in zip(cells, heights, strict=True):
            for column, cell in enumerate(line):
                at = x + left + (first + rest * (column - 1) if column else 0.0)
                cell.paint(painter, at, top)
            top += height

    return Row(high + pt(2.0), paint, gap=pt(7.0))


def ruled_row(block: Lines, width: float) -> Row:
    """Return lines to write on: as many as are left of the page."""
    apart = pt(17.5)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        painter.setPen(QPen(ink("faint"), pt(0.6)))
        for number in range(1, int(given // apart) + 1):
            painter.drawLine(QPointF(x, y + number * apart), QPointF(x + width, y + number * apart))

    return Row(block.count * apart, paint, stretches=True)


def drawing_rows(block: Drawings, width: float, largest: float, *, large: bool) -> list[Row]:
    """Drawings beside each other; in large print the time line below, with what follows."""
    if not large:
        return [_abreast(block.drawings, width, largest)]
    return [
        replace(_abreast((each,), width, largest), keep=number > 0)
        for number, each in enumerate(block.drawings)
    ]


def _abreast(drawings: tuple[Drawing, ...], width: float, largest: float) -> Row:
    wide = sum(pt(each.width) for each in drawings)
    scale = min(width / max(wide, 1.0), largest)
    height = scale * max(pt(each.height) for each in drawings)
    spare = (width - scale * wide) / max(len(drawings) - 1, 1)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        for each in drawings:
            paint_drawing(painter, each, x, y, scale)
            x += scale * pt(each.width) + spare

    return Row(height, paint, gap=pt(8.0))


def pieces_of(words: Words) -> list[Words]:
    """Cut long words at spaces, so that no row is taller than a page; short ones stay whole."""
    if len(plain_words(words)) <= LONGEST_ROW_SIGNS:
        return [words]
    pieces: list[Words] = []
    text = plain_words(words)
    while len(text) > LONGEST_ROW_SIGNS:
        cut = text.rfind(" ", 0, LONGEST_ROW_SIGNS)
        cut = cut if cut > 0 else LONGEST_ROW_SIGNS
        pieces.append((text[:cut],))
        text = text[cut:].lstrip()
    return [*pieces, (text,)]
