"""The blocks of a sheet as rows of the page.

Steps stand along a rail: clock and countdown to its left, the box to tick upon it, what to do to
its right, and beside that, in the margin, why, what if, and what can hurt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from designer.sheet.blocks import (
    Aside,
    Block,
    Drawings,
    Item,
    ItemList,
    Lines,
    Paragraph,
    Portion,
    Reading,
    Section,
    Sheet,
    SideBySide,
    Step,
    Steps,
    Table,
    Words,
    plain_words,
)
from designer.window.paper_drawing import paint_drawing
from designer.window.paper_filler import Row
from designer.window.paper_head import head_row
from designer.window.paper_type import Run, Text, ink, pt, runs

SMALL = 8.0
RAIL = pt(60.0)
ACTION = pt(72.0)
BOX = pt(10.0)
PORTIONS_A_ROW = 18
"""A step that takes more than so many lines goes on in further rows, or no page could hold it."""


@dataclass(frozen=True, slots=True)
class Setting:
    """Sizes of type in points: steps, lists, what stands in the margin; and that of drawings."""

    body: float
    items: float
    note: float
    drawing: float
    title: float


SETTINGS = {
    "full": (
        Setting(11.5, 11.0, 9.5, 1.1, 26.0),
        Setting(11.0, 10.5, 9.2, 1.0, 24.0),
        Setting(10.5, 10.5, 8.8, 1.0, 24.0),
        Setting(10.5, 10.0, 8.2, 0.82, 20.0),
    ),
    "bench": (
        Setting(13.0, 12.0, 10.5, 1.0, 20.0),
        Setting(12.0, 11.0, 9.8, 1.0, 20.0),
        Setting(11.0, 10.5, 9.2, 1.0, 18.0),
        Setting(10.5, 10.0, 8.2, 1.0, 16.0),
    ),
}
"""Roomiest first: the page filler takes the first that saves no page by going on."""


class Setter:
    """Turns a sheet into rows for a column of text so wide."""

    def __init__(self, sheet: Sheet, width: float, setting: Setting) -> None:
        self.sheet = sheet
        self.width = width
        self.setting = setting
        self.body, self.note = setting.body, setting.note
        self.aside_width = (0.27 if sheet.variant == "bench" else 0.34) * width

    def rows(self) -> list[Row]:
        """Return all rows of the sheet in order."""
        made = [head_row(self.sheet, self.width, self.setting.title)]
        for section in self.sheet.sections:
            made += self._section(section)
        return made

    def _section(self, section: Section) -> list[Row]:
        rows = [row for block in section.blocks for row in self._block(block)]
        if not rows:
            return []
        if section.key == "watch":
            return [self._beside_title(section.title, rows)]
        again = section_head(f"{section.title}, continued", "", self.width)
        rows = [replace(row, again=again) for row in rows]
        rows[-1] = replace(rows[-1], gap=rows[-1].gap + pt(5.0))
        return [section_head(section.title, section.lead, self.width), *rows]

    def _beside_title(self, title: str, rows: list[Row]) -> Row:
        """A few lines with their title in the column of the clock, one row together."""
        text = Text([Run(title, 10.5, True, "care")], ACTION)
        height = sum(row.height + pt(2.0) for row in rows)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            text.paint(painter, x, y)
            for row in rows:
                row.paint(painter, x + ACTION, y, row.height)
                y += row.height + pt(2.0)

        return Row(max(height, text.height), paint, gap=pt(7.0))

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
        return [self._drawings(block)]

    # Steps

    def _step(self, step: Step) -> list[Row]:
        """A step is one row, unless so much goes in at once that no page would hold it."""
        first, rest = step.listed[:PORTIONS_A_ROW], step.listed[PORTIONS_A_ROW:]
        rows = [self._step_row(step, first)]
        while rest:
            more = Step("", "", step.minutes, ())
            rows.append(self._step_row(more, rest[:PORTIONS_A_ROW]))
            rest = rest[PORTIONS_A_ROW:]
        return rows

    def _step_row(self, step: Step, listed: tuple[Portion, ...]) -> Row:
        margin = self.width - self.aside_width
        clock = _clock_text(step, self.body)
        column = margin - ACTION - pt(9.0)
        parts: list[_Piece] = [_DoPiece(step, column, self.body)] if step.do else []
        parts += [_PortionPiece(portion, column, self.body) for portion in listed]
        parts += [_ReadingPiece(reading, column, self.note + 0.7) for reading in step.readings]
        asides = [_AsidePiece(aside, self.aside_width, self.note) for aside in step.asides]
        height = max(clock.height, _stacked(parts), _stacked(asides), BOX)
        boxed = bool(step.do)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            _rail(painter, x + RAIL, y - pt(4.0), height + pt(8.0))
            clock.paint(painter, x, y)
            if boxed:
                _box(painter, x + RAIL - 0.5 * BOX, y + pt(1.6))
            _paint_stack(painter, parts, x + ACTION, y)
            _paint_stack(painter, asides, x + margin, y + pt(0.8))

        return Row(height, paint, gap=pt(6.0))

    # Lists

    def _lists(self, block: SideBySide) -> list[Row]:
        half = 0.5 * (self.width - pt(16.0))
        left, right = (
            [piece for each in lists for piece in self._list(each, half)]
            for lists in (block.left, block.right)
        )
        return paired_rows(left, right, half + pt(16.0))

    def _list(self, whole: ItemList, width: float) -> list[_Piece]:
        if not whole.items:
            return []
        marked = any(item.mark for item in whole.items)
        size = self.setting.items
        items: list[_Piece] = [_ItemPiece(item, width, size, marked) for item in whole.items]
        return [_TitlePiece(whole.title, width), *items] if whole.title else items

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
                _warning_sign(painter, x + pt(1.0), y + pt(1.2), filled=kind == "stop")
            text.paint(painter, x + indent, y)

        return Row(text.height, paint, gap=pt(2.5))

    def _table(self, table: Table) -> Row:
        first = pt(118.0)
        left = ACTION
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
        caption = Text([Run(table.caption, self.note, True, "accent")], pt(58.0))
        heights = [max(cell.height for cell in line) + pt(1.5) for line in cells]

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            _rail(painter, x + RAIL, y - pt(4.0), sum(heights) + pt(10.0))
            painter.fillRect(
                QRectF(x + left - pt(4.0), y - pt(1.5), self.width - left + pt(4.0), sum(heights)
                       + pt(3.0)), ink("ground"),
            )  # fmt: skip
            caption.paint(painter, x, y)
            top = y
            for line, height in zip(cells, heights, strict=True):
                for column, cell in enumerate(line):
                    at = x + left + (first + rest * (column - 1) if column else 0.0)
                    cell.paint(painter, at, top)
                top += height

        return Row(sum(heights) + pt(2.0), paint, gap=pt(7.0))

    def _lines(self, block: Lines) -> Row:
        apart = pt(19.0)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            painter.setPen(QPen(ink("faint"), pt(0.6)))
            for number in range(1, int(given // apart) + 1):
                painter.drawLine(QPointF(x, y + number * apart),
                                 QPointF(x + self.width, y + number * apart))  # fmt: skip

        return Row(block.count * apart, paint, stretches=True)

    def _drawings(self, block: Drawings) -> Row:
        wide = sum(pt(each.width) for each in block.drawings)
        scale = min(self.width / max(wide, 1.0), self.setting.drawing)
        height = scale * max(pt(each.height) for each in block.drawings)
        spare = (self.width - scale * wide) / max(len(block.drawings) - 1, 1)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            for each in block.drawings:
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


def _clock_text(step: Step, size: float) -> Text:
    clock, _, rest = step.when.partition("\n")
    first, *more = clock.split(" ", 1) if ":" in clock else [clock]
    parts = [Run(first, size + 1.0, True, "accent")]
    for line in (*more, rest, step.left):
        if line:
            parts.append(Run(f"\n{line}", SMALL, bold=line == step.left))
    return Text(parts, RAIL - 0.5 * BOX - pt(1.5), leading=1.0)


def _rail(painter: QPainter, x: float, y: float, height: float) -> None:
    painter.fillRect(QRectF(x - pt(0.4), y, pt(0.8), height), ink("faint"))


def _box(painter: QPainter, x: float, y: float) -> None:
    painter.setPen(QPen(ink("ink"), pt(1.0)))
    painter.setBrush(ink("#ffffff"))
    painter.drawRect(QRectF(x, y, BOX, BOX))


def _warning_sign(painter: QPainter, x: float, y: float, *, filled: bool) -> None:
    """A triangle, filled where the day must not go on so."""
    side = pt(9.0)
    corners = [QPointF(x, y + side), QPointF(x + side, y + side), QPointF(x + 0.5 * side, y)]
    painter.setPen(QPen(ink("care"), pt(1.1)))
    painter.setBrush(ink("care") if filled else Qt.BrushStyle.NoBrush)
    painter.drawPolygon(QPolygonF(corners))
    if not filled:
        painter.fillRect(
            QRectF(x + 0.5 * side - pt(0.5), y + pt(3.2), pt(1.0), pt(3.2)), ink("care")
        )
        painter.fillRect(
            QRectF(x + 0.5 * side - pt(0.5), y + pt(7.0), pt(1.0), pt(1.0)), ink("care")
        )


class _Piece:
    """A part of a cell: a paragraph."""

    def __init__(self, text: Text) -> None:
        self.text = text
        self.height = text.height

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x, y)


class _DoPiece(_Piece):
    """What to do, behind the letter of the bag that goes in."""

    def __init__(self, step: Step, width: float, size: float) -> None:
        self.letter = step.bag
        self.indent = pt(17.0) if step.bag else 0.0
        super().__init__(Text(runs(step.do, size), width - self.indent))
        self.height = max(self.text.height, pt(13.0)) if step.bag else self.text.height

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        if self.letter:
            paint_letter(painter, self.letter, x, y)
        self.text.paint(painter, x + self.indent, y)


class _PortionPiece(_Piece):
    """One of several things that go in together: amount and name."""

    def __init__(self, portion: Portion, width: float, size: float) -> None:
        words = [Run(f"{portion.amount}  ", size, True), Run(portion.name, size)]
        self.indent = pt(17.0)
        super().__init__(Text(words, width - self.indent))

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x + self.indent, y)


class _ReadingPiece(_Piece):
    """A reading: the forecast, and ruled blanks beside it or, without room, below."""

    def __init__(self, reading: Reading, width: float, size: float) -> None:
        forecast = [Run(f"{reading.label}: ", size, tone="soft"), Run(reading.forecast, size, True)]
        super().__init__(Text(forecast, width))
        self.width = width
        self.also = Text([Run(reading.also, size, tone="soft")], pt(30.0)) if reading.also else None
        wanted = pt(92.0) if reading.also else pt(46.0)
        self.blank_left = self.text.natural_width + pt(8.0)
        self.below = width - self.blank_left < wanted
        self.lead = Text([Run("read", size, tone="soft")], pt(40.0)) if self.below else None
        self.height = self.text.height * (2.0 if self.below else 1.0) + pt(4.0 if self.below else 2)
        if self.lead is not None:
            self.blank_left = self.lead.natural_width + pt(5.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x, y + pt(1.0))
        base = y + self.height - pt(1.0)
        if self.lead is not None:
            self.lead.paint(painter, x, base - self.lead.height + pt(1.0))
        left, right = x + self.blank_left, x + self.width
        painter.setPen(QPen(ink("ink"), pt(0.7)))
        if self.also is None:
            painter.drawLine(QPointF(left, base), QPointF(min(right, left + pt(80.0)), base))
            return
        middle = left + 0.5 * (right - left)
        painter.drawLine(QPointF(left, base), QPointF(middle - pt(3.0), base))
        self.also.paint(painter, middle, base - self.also.height + pt(1.0))
        after = middle + self.also.natural_width + pt(3.0)
        painter.setPen(QPen(ink("ink"), pt(0.7)))
        painter.drawLine(QPointF(after, base), QPointF(right, base))


class _AsidePiece(_Piece):
    """Said in the margin: a warning behind a bar and a sign, the rest quietly."""

    def __init__(self, aside: Aside, width: float, size: float) -> None:
        self.is_care = aside.kind == "care"
        self.indent = pt(16.0) if self.is_care else 0.0
        tone = {"care": "care", "if": "ink"}.get(aside.kind, "soft")
        super().__init__(Text([Run(aside.text, size, self.is_care, tone)], width - self.indent))
        self.height = self.text.height + pt(1.5)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        if self.is_care:
            _warning_sign(painter, x + pt(1.0), y + pt(0.6), filled=False)
        self.text.paint(painter, x + self.indent, y)


class _TitlePiece(_Piece):
    """The title of a list."""

    def __init__(self, title: str, width: float) -> None:
        super().__init__(Text([Run(title, 9.5, True, "accent")], width))
        self.height = self.text.height + pt(6.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x, y + pt(3.0))


class _ItemPiece(_Piece):
    """A line of a list: box, letter of the bag, amount, name, note."""

    def __init__(self, item: Item, width: float, size: float, marked: bool) -> None:
        self.indent = pt(15.0)
        self.mark = item.mark
        self.marked = pt(17.0) if marked else 0.0
        words = [Run(f"{item.amount}  ", size, True)] if item.amount else []
        words.append(Run(item.name, size))
        if item.note:
            words.append(Run(f"  {item.note}", SMALL + 0.5, tone="soft"))
        super().__init__(Text(words, width - self.indent - self.marked))
        self.height = self.text.height + pt(3.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        _box(painter, x + pt(0.6), y + pt(1.6))
        if self.mark:
            paint_letter(painter, self.mark, x + self.indent, y + pt(0.2))
        self.text.paint(painter, x + self.indent + self.marked, y)


def paint_letter(painter: QPainter, letter: str, x: float, y: float) -> None:
    """Draw the letter of a bag in a ring."""
    size = pt(13.0)
    painter.setPen(QPen(ink("accent"), pt(1.0)))
    painter.setBrush(ink("ground"))
    painter.drawEllipse(QRectF(x, y, size, size))
    text = Text([Run(letter, 8.5 if len(letter) == 1 else 6.5, True, "accent")], pt(30.0),
                leading=1.0)  # fmt: skip
    text.paint(
        painter, x + 0.5 * (size - text.natural_width), y + 0.5 * (size - text.height) - pt(0.1)
    )


def _stacked(pieces: Sequence[_Piece]) -> float:
    return sum(piece.height for piece in pieces)


def _paint_stack(painter: QPainter, pieces: Sequence[_Piece], x: float, y: float) -> None:
    for piece in pieces:
        piece.paint(painter, x, y)
        y += piece.height


def paired_rows(left: Sequence[_Piece], right: Sequence[_Piece], right_at: float) -> list[Row]:
    """Two columns beside each other: each runs on by itself while they fit half a page."""
    if max(_stacked(left), _stacked(right)) < pt(380.0):
        blocks = [(left, right)]
    else:
        longest = max(len(left), len(right))
        blocks = [(left[at : at + 1], right[at : at + 1]) for at in range(longest)]
    last = len(blocks) - 1
    return [
        Row(
            max(_stacked(one), _stacked(other)),
            _PaintPair((one, other), right_at),
            gap=pt(3.0) if number == last else 0.0,
            keep=number == 0 < last,
        )
        for number, (one, other) in enumerate(blocks)
    ]


class _PaintPair:
    """Draws two stacks beside each other, the left one first."""

    def __init__(self, columns: tuple[Sequence[_Piece], Sequence[_Piece]], right_at: float) -> None:
        self.columns, self.right_at = columns, right_at

    def __call__(self, painter: QPainter, x: float, y: float, given: float) -> None:
        for number, column in enumerate(self.columns):
            _paint_stack(painter, column, x + number * self.right_at, y)


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
