"""The blocks of a sheet as rows of the page.

Steps stand along a rail: clock and countdown to its left, the box to tick upon it, what to do to
its right, and beside that, in the margin, why, what if, and what can hurt.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from designer.paper.drawings import paint_drawing
from designer.paper.filler import Row
from designer.paper.head import head_row
from designer.paper.pieces import (
    ACTION,
    BOX,
    RAIL,
    AsidePiece,
    DoPiece,
    ItemPiece,
    Piece,
    PortionPiece,
    ReadingPiece,
    TitlePiece,
    clock_text,
    listed_rows,
    paint_box,
    paint_rail,
    paint_stack,
    paint_warning,
    paired_rows,
    stacked,
)
from designer.paper.typography import Run, Text, ink, pt, runs
from designer.sheet.blocks import (
    Block,
    Drawing,
    Drawings,
    ItemList,
    Lines,
    Paragraph,
    Portion,
    Section,
    Sheet,
    SideBySide,
    Step,
    Steps,
    Table,
    Words,
    plain_words,
)
from designer.sheet.language import language

PORTIONS_A_ROW = 18
LARGE_PORTIONS_A_ROW = 6
"""A step that takes more than so many lines goes on in further rows, or no page could hold it."""


TOGETHER = 5
"""So many warnings at most are kept on one page."""


@dataclass(frozen=True, slots=True)
class Setting:
    """Sizes of type in points: steps, lists, what stands in the margin; and that of drawings.

    `aside` is the share of the width that the margin takes.
    """

    body: float
    items: float
    note: float
    drawing: float
    title: float
    aside: float


SETTINGS = {
    "full": (
        Setting(11.5, 11.0, 9.5, 1.1, 26.0, 0.34),
        Setting(11.0, 10.5, 9.2, 1.0, 24.0, 0.34),
        Setting(10.5, 10.5, 8.8, 1.0, 24.0, 0.34),
        Setting(10.5, 10.0, 8.2, 0.82, 20.0, 0.34),
        Setting(10.0, 9.5, 8.0, 0.74, 18.0, 0.34),
        Setting(10.0, 9.2, 7.6, 0.74, 16.0, 0.31),
    ),
    "bench": (
        Setting(13.0, 12.0, 10.5, 1.0, 20.0, 0.32),
        Setting(12.0, 11.0, 9.8, 1.0, 20.0, 0.32),
        Setting(11.0, 10.5, 9.2, 1.0, 18.0, 0.32),
        Setting(10.5, 10.0, 8.2, 1.0, 16.0, 0.32),
        Setting(10.0, 9.2, 7.5, 1.0, 15.0, 0.3),
    ),
}
LARGE_SETTINGS = (
    Setting(10.8, 10.4, 9.6, 1.3, 20.0, 0.0),
    Setting(10.0, 10.0, 9.0, 1.2, 18.0, 0.0),
)
"""Roomiest first: the page filler takes the first that saves no page by going on."""


def settings_for(sheet: Sheet, width: float) -> list[Setter]:
    """Return the ways to set a sheet for a column of text so wide, the roomiest first."""
    chosen = LARGE_SETTINGS if sheet.form.large else SETTINGS[sheet.variant]
    return [Setter(sheet, width, setting) for setting in chosen]


class Setter:
    """Turns a sheet into rows for a column of text so wide."""

    def __init__(self, sheet: Sheet, width: float, setting: Setting) -> None:
        self.sheet = sheet
        self.width = width
        self.setting = setting
        self.body, self.note = setting.body, setting.note
        self.large = sheet.form.large
        self.language = language(sheet.language)
        self.aside_width = setting.aside * width

    def rows(self) -> list[Row]:
        """Return all rows of the sheet in order."""
        made = [head_row(self.sheet, self.width, self.setting.title)]
        for section in self.sheet.sections:
            made += self._section(section)
        return made

    def _section(self, section: Section) -> list[Row]:
        rows: list[Row] = []
        for block in section.blocks:
            if isinstance(block, Table) and rows:
                rows[-1] = replace(rows[-1], keep=True)  # the reading with its correction
            rows += self._block(block)
        if not rows:
            return []
        if section.key == "watch":
            return self._beside_title(section.title, rows)
        again = section_head(
            self.language.say("{title}, continued", title=section.title), "", self.width
        )
        rows = [replace(row, again=again) for row in rows]
        rows[-1] = replace(rows[-1], gap=rows[-1].gap + pt(5.0))
        head = section_head(section.title, section.lead, self.width)
        return [replace(head, optional=all(row.optional for row in rows)), *rows]

    def _beside_title(self, title: str, rows: list[Row]) -> list[Row]:
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

    def _block(self, block: Block) -> list[Row]:
        if isinstance(block, Steps):
            return [row for step in block.steps for row in self._step(step)]
        if isinstance(block, SideBySide):
            return self._lists(block)
        if isinstance(block, Paragraph):
            return self._paragraph(block)
        if isinstance(block, Table):
            return [self._table(block)]
        if isinstance(block, Lines):
            return [self._lines(block)]
        return self._drawings(block)

    # Steps

    def _step(self, step: Step) -> list[Row]:
        """A step is one row, unless so much goes in at once that no page would hold it."""
        most = LARGE_PORTIONS_A_ROW if self.large else PORTIONS_A_ROW
        first, rest = step.listed[:most], step.listed[most:]
        rows = [self._step_row(step, first)]
        while rest:
            more = Step("", "", step.minutes, ())
            rows.append(self._step_row(more, rest[:most]))
            rest = rest[most:]
        return rows

    def _step_row(self, step: Step, listed: tuple[Portion, ...]) -> Row:
        clock = clock_text(step, self.body)
        beside = not self.large
        margin = self.width - self.aside_width if beside else self.width
        column = margin - ACTION - pt(9.0 if beside else 0.0)
        parts = self._do(step, listed, column)
        told = self.aside_width if beside else column
        asides: list[Piece] = [AsidePiece(aside, told, self.note) for aside in step.asides]
        if not beside:
            parts, asides = [*parts, *asides], []
        height = max(clock.height, stacked(parts), stacked(asides), BOX)
        boxed = bool(step.do)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            paint_rail(painter, x + RAIL, y - pt(4.0), height + pt(8.0))
            clock.paint(painter, x, y)
            if boxed:
                paint_box(painter, x + RAIL - 0.5 * BOX, y + pt(1.6))
            paint_stack(painter, parts, x + ACTION, y)
            paint_stack(painter, asides, x + margin, y + pt(0.8))

        return Row(height, paint, gap=pt(6.0))

    def _do(self, step: Step, listed: tuple[Portion, ...], column: float) -> list[Piece]:
        """What to do, what goes in, what to read."""
        parts: list[Piece] = [DoPiece(step, column, self.body)] if step.do else []
        parts += [PortionPiece(portion, column, self.body) for portion in listed]
        size = self.note + 0.7
        parts += [ReadingPiece(each, column, size, self.language) for each in step.readings]
        return parts

    # Lists

    def _lists(self, block: SideBySide) -> list[Row]:
        if self.large:
            whole = [piece for each in (*block.left, *block.right)
                     for piece in self._list(each, self.width)]  # fmt: skip
            return listed_rows(whole)
        half = 0.5 * (self.width - pt(16.0))
        left, right = (
            [piece for each in lists for piece in self._list(each, half)]
            for lists in (block.left, block.right)
        )
        return paired_rows(left, right, half + pt(16.0))

    def _list(self, whole: ItemList, width: float) -> list[Piece]:
        if not whole.items:
            return []
        marked = any(item.mark for item in whole.items)
        size = self.setting.items
        items: list[Piece] = [ItemPiece(item, width, size, marked) for item in whole.items]
        return [TitlePiece(whole.title, width), *items] if whole.title else items

    # The rest

    def _paragraph(self, block: Paragraph) -> list[Row]:
        return [self._piece_of_paragraph(part, block.kind) for part in pieces_of(block.words)]

    def _piece_of_paragraph(self, words: Words, kind: str) -> Row:
        indent = 0.0 if kind == "plain" else pt(16.0)
        said = [
            Run(each.text, each.size, each.bold or kind == "stop", each.tone)
            for each in runs(words, self.note + 0.7, "ink" if kind == "plain" else "care")
        ]
        text = Text(said, self.width - (indent + ACTION if indent else 0.0))

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            if indent:
                paint_warning(painter, x + pt(1.0), y + pt(1.2), filled=kind == "stop")
            text.paint(painter, x + indent, y)

        return Row(text.height, paint, gap=pt(2.5))

    def _table(self, table: Table) -> Row:
        """A table beside its caption; in large print below it."""
        left, first = (pt(4.0), pt(108.0)) if self.large else (ACTION, pt(100.0))
        rest = (self.width - left - first) / max(len(table.head) - 1, 1)
        cells = [
            [
                Text(
                    [Run(cell, self.note, bold=row == 0 or column == 0)],
                    first if not column else rest,
                )
                for column, cell in enumerate(line)
            ]
            for row, line in enumerate((table.head, *table.rows))
        ]
        room = self.width if self.large else pt(58.0)
        caption = Text([Run(table.caption, self.note, True, "accent")], room)
        heights = [max(cell.height for cell in line) + pt(1.5) for line in cells]
        above = caption.height + pt(3.0) if self.large else 0.0
        high = max(above + sum(heights), caption.height)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            if not self.large:
                paint_rail(painter, x + RAIL, y - pt(4.0), high + pt(10.0))
            caption.paint(painter, x, y)
            top = y + above
            ground = QRectF(x + left - pt(4.0), top - pt(1.5), self.width - left + pt(4.0),
                            sum(heights) + pt(3.0))  # fmt: skip
            painter.fillRect(ground, ink("ground"))
            for line, height in zip(cells, heights, strict=True):
                for column, cell in enumerate(line):
                    at = x + left + (first + rest * (column - 1) if column else 0.0)
                    cell.paint(painter, at, top)
                top += height

        return Row(high + pt(2.0), paint, gap=pt(7.0))

    def _lines(self, block: Lines) -> Row:
        apart = pt(19.0)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            painter.setPen(QPen(ink("faint"), pt(0.6)))
            for number in range(1, int(given // apart) + 1):
                painter.drawLine(QPointF(x, y + number * apart),
                                 QPointF(x + self.width, y + number * apart))  # fmt: skip

        return Row(block.count * apart, paint, stretches=True, optional=True)

    def _drawings(self, block: Drawings) -> list[Row]:
        """Drawings beside each other; in large print the time line below, with what follows."""
        if not self.large:
            return [self._abreast(block.drawings, self.setting.drawing)]
        return [
            replace(self._abreast((each,), self.setting.drawing), keep=number > 0)
            for number, each in enumerate(block.drawings)
        ]

    def _abreast(self, drawings: tuple[Drawing, ...], largest: float) -> Row:
        wide = sum(pt(each.width) for each in drawings)
        scale = min(self.width / max(wide, 1.0), largest)
        height = scale * max(pt(each.height) for each in drawings)
        spare = (self.width - scale * wide) / max(len(drawings) - 1, 1)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            for each in drawings:
                paint_drawing(painter, each, x, y, scale)
                x += scale * pt(each.width) + spare

        return Row(height, paint, gap=pt(8.0))


def section_head(title: str, lead: str, width: float) -> Row:
    """Return the head of a part, which stays with what follows."""
    text = Text([Run(title, 13.0, True, "accent")], width)
    more = Text([Run(lead, 9.5, tone="soft")], width, align=Qt.AlignmentFlag.AlignRight)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        painter.fillRect(QRectF(x, y, width, pt(1.4)), ink("accent"))
        text.paint(painter, x, y + pt(3.5))
        more.paint(painter, x, y + pt(6.2))

    return Row(pt(5.5) + text.height, paint, gap=pt(3.0), keep=True)


LONGEST_ROW_SIGNS = 1200


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
