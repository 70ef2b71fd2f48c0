"""Pages of the guide as rows of paper: headings stay with their text, tables repeat their head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from designer.guide.blocks import (
    Block,
    Grid,
    Heading,
    Lines,
    Listing,
    Note,
    Page,
    Paragraph,
    Picture,
    Span,
    Way,
    Words,
)
from designer.guide.pages import Guide
from designer.paper.pagination import Row
from designer.paper.typography import Run, Text, ink, pt
from designer.translation import tr

BODY, SMALL, TITLE = 10.5, 9.0, 22.0
HEADINGS = {2: 14.0, 3: 11.5}
GAP, CLOSE = pt(7.0), pt(3.0)
INDENT = pt(18.0)
CELL_GAP = pt(10.0)
BAR, INSET = pt(3.0), pt(10.0)
HIGHEST_PICTURE = pt(320.0)
_TONES = {Way.TYPED: "accent", Way.LINK: "accent"}


@dataclass(frozen=True, slots=True)
class GuideRows:
    """Makes rows for a column of text so wide."""

    guide: Guide
    width: float

    def of_page(self, page: Page) -> list[Row]:
        """Return the rows of a page, its title first."""
        title = Text([Run(page.title, TITLE, True, "accent", place=page.name)], self.width)
        rows = [replace(_row(title), gap=pt(12.0), keep=True)]
        for block in page.blocks:
            if isinstance(block, (Grid, Listing, Lines)) and rows:
                rows[-1] = replace(rows[-1], keep=True)  # what leads to it stays with it
            rows += self._rows(block, self.width)
        return rows

    def _rows(self, block: Block, width: float) -> list[Row]:
        match block:
            case Heading(level=level, words=words):
                text = _text(words, width, HEADINGS[level], bold=True)
                return [replace(_row(text, above=pt(8.0)), gap=pt(4.0), keep=True)]
            case Paragraph(words=words):
                shown = tuple(each for each in words if each.way is not Way.SHOW)
                return [_row(_text(shown, width))] if shown else []
            case Listing():
                return self._listed(block, width)
            case Grid(head=head, rows=rows):
                return _table(head, rows, width)
            case Picture(name=name, words=told):
                return _picture(self.guide.picture(name), told, width)
            case Note():
                return [self._note(block, width)]
            case Lines(lines=lines):
                runs = [Run("\n".join(lines), BODY, tone="accent")]
                return [_beside(_row(Text(runs, width - INDENT)), INDENT)]

    def _listed(self, block: Listing, width: float) -> list[Row]:
        rows: list[Row] = []
        for place, item in enumerate(block.items):
            mark = f"{block.first + place}." if block.first else "•"
            inside = [row for each in item for row in self._rows(each, width - INDENT)]
            if inside:
                inside[0] = _beside(inside[0], INDENT, Text([Run(mark, BODY, True)], INDENT))
                inside[1:] = [_beside(row, INDENT) for row in inside[1:]]
                inside[-1] = replace(inside[-1], gap=CLOSE)
            rows += inside
        if rows:
            rows[-1] = replace(rows[-1], gap=GAP)
        return rows

    def _note(self, block: Note, width: float) -> Row:
        """A note in one piece, on a ground of its own behind a bar."""
        tone, said = (
            ("care", tr("Take care")) if block.is_caution else ("accent", tr("Worth knowing"))
        )
        inner = width - BAR - 2.0 * INSET
        head = replace(_row(Text([Run(said, BODY, True, tone)], inner)), gap=CLOSE)
        rows = [head, *(row for each in block.blocks for row in self._rows(each, inner))]
        height = sum(row.height + row.gap for row in rows) - rows[-1].gap + 2.0 * pt(6.0)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            painter.fillRect(QRectF(x, y, width, height), ink("ground"))
            painter.fillRect(QRectF(x, y, BAR, height), ink(tone))
            top = y + pt(6.0)
            for row in rows:
                row.paint(painter, x + BAR + INSET, top, row.height)
                top += row.height + row.gap

        return Row(height, paint, gap=GAP)


def _text(words: Words, width: float, size: float = BODY, *, bold: bool = False) -> Text:
    return Text([_run(each, size, bold=bold) for each in words], width, leading=1.0)


def _run(span: Span, size: float, *, bold: bool) -> Run:
    strong = bold or span.way in (Way.STRONG, Way.SCREEN)
    leads_to = span.target if span.way is Way.LINK else ""
    return Run(span.text, size, strong, _TONES.get(span.way, "ink"), leads_to)


def _row(text: Text, above: float = 0.0) -> Row:
    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        text.paint(painter, x, y + above)

    return Row(text.height + above, paint, gap=GAP)


def _beside(row: Row, indent: float, mark: Text | None = None) -> Row:
    """A row moved in, with a mark before it."""

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        if mark is not None:
            mark.paint(painter, x, y)
        row.paint(painter, x + indent, y, given)

    return replace(row, paint=paint)


def _table(head: tuple[Words, ...], rows: tuple[tuple[Words, ...], ...], width: float) -> list[Row]:
    """A table; where it goes over a page, two of its rows at least stand on either."""
    across = _columns([head, *rows], width)
    first = _cells(head, across, bold=True)
    made = [_cells(row, across) for row in rows]
    for at in {0, len(made) - 2} if len(made) > 1 else ():
        made[at] = replace(made[at], keep=True)
    with_head = [replace(first, keep=True), *(replace(each, again=first) for each in made)]
    with_head[-1] = replace(with_head[-1], gap=GAP + CLOSE)
    return with_head


def _columns(rows: Sequence[tuple[Words, ...]], width: float) -> list[float]:
    """The width of each column: what it asks for, or a fair share where that is too much."""
    asked = [
        max(_text(row[at], width, SMALL, bold=True).natural_width for row in rows) + pt(1.0)
        for at in range(len(rows[0]))
    ]
    room = width - CELL_GAP * (len(asked) - 1)
    given = [0.0] * len(asked)
    open_ones = list(range(len(asked)))
    while open_ones:
        fair = room / len(open_ones)
        narrow = [at for at in open_ones if asked[at] <= fair]
        for at in narrow or open_ones:
            given[at] = min(asked[at], fair)
            room -= given[at]
        open_ones = [at for at in open_ones if narrow and at not in narrow]
    return given


def _cells(row: tuple[Words, ...], across: Sequence[float], *, bold: bool = False) -> Row:
    texts = [_text(cell, wide, SMALL, bold=bold) for cell, wide in zip(row, across, strict=True)]
    height = max(text.height for text in texts) + pt(4.0)
    whole = sum(across) + CELL_GAP * (len(across) - 1)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        left = x
        for text, wide in zip(texts, across, strict=True):
            text.paint(painter, left, y)
            left += wide + CELL_GAP
        painter.fillRect(QRectF(x, y + height - pt(1.5), whole, pt(0.5)), ink("faint"))

    return Row(height, paint, gap=pt(1.5))


@lru_cache(maxsize=64)
def _image(path: Path | None) -> QImage:
    """A picture, the same one wherever it is shown: a PDF has it once."""
    return QImage() if path is None else QImage(str(path))


def _picture(path: Path | None, told: str, width: float) -> list[Row]:
    """A picture with what is seen on it below."""
    words = _row(Text([Run(told, SMALL, tone="soft")], width))
    image = _image(path)
    if image.isNull():
        return [words]
    shown = min(width, HIGHEST_PICTURE * image.width() / image.height())
    height = shown * image.height() / image.width()

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        frame = QRectF(x, y, shown, height)
        painter.setRenderHint(QPainter.RenderHint.LosslessImageRendering)
        painter.drawImage(frame, image)
        painter.setPen(ink("faint"))
        painter.setBrush(ink("#00000000"))
        painter.drawRect(frame)

    return [Row(height, paint, gap=CLOSE, keep=True), words]
