"""What the rows of the sheet are made of: paragraphs, boxes, blanks, signs, letters of bags."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from designer.paper.pagination import Row
from designer.paper.typography import Run, Text, ink, pt, runs
from designer.sheet.blocks import Aside, Item, Portion, Reading, Step, Turn
from designer.sheet.language import Language

SMALL, SMALLEST = 8.0, 7.0
RAIL = pt(62.0)
ACTION = pt(74.0)
BOX = pt(10.0)
BOX_APART = pt(13.5)
BOXES_ABREAST = 6
"""So many boxes of a step stand beside each other."""
AMOUNT_GAP = pt(7.0)


def clock_text(step: Step, size: float, room: float = RAIL) -> Text:
    """Return the clock time or day of a step, the countdown below it.

    There is `room` for it before the rail. A step of several turns has the time of each, side by
    side while they are of the same day.
    """
    width = room - 0.5 * BOX - pt(1.5)
    whens = [each for each in step.whens if each] or [""]
    if len(whens) > 1 and all(":" in each and " " not in each for each in whens):
        parts = _times(whens, size, width)
    else:
        parts = [run for each in whens for run in _when(each, size)]
        parts[0] = replace(parts[0], text=parts[0].text.lstrip("\n"))
    if step.left:
        parts.append(Run(f"\n{step.left}", _size_within(step.left, width), bold=True))
    return Text(parts, width, leading=1.0)


def _when(when: str, size: float) -> list[Run]:
    """A clock time or a day on a line of its own, what else is said of it below."""
    clock, _, rest = when.partition("\n")
    first, *more = clock.split(" ", 1) if ":" in clock else [clock]
    parts = [Run(f"\n{first}", size + 1.0, True, "accent")]
    return [*parts, *(Run(f"\n{line}", SMALL) for line in (*more, rest) if line)]


def _times(whens: Sequence[str], size: float, width: float) -> list[Run]:
    """Clock times, two on a line where they fit in any size that is read at the stove."""
    sizes = (size + 1.0, size, size - 0.5, SMALL)
    pair = "  ".join(whens[:2])
    fits = (s for s in sizes if Text([Run(pair, s, True)], 2.0 * width).natural_width <= width)
    fitting = next(fits, None)
    apart = 2 if fitting is not None else 1
    lines = ["  ".join(whens[at : at + apart]) for at in range(0, len(whens), apart)]
    return [Run("\n".join(lines), fitting or size, True, "accent")]


def _size_within(text: str, width: float) -> float:
    """The size of small print at which a few words stay on one line, where any does."""
    sizes = (SMALL, 7.5, SMALLEST)
    fits = (
        size for size in sizes if Text([Run(text, size, True)], 2.0 * width).natural_width <= width
    )
    return next(fits, SMALL)


def paint_rail(painter: QPainter, x: float, y: float, height: float) -> None:
    """Draw a stretch of the rail along which steps stand."""
    painter.fillRect(QRectF(x - pt(0.4), y, pt(0.8), height), ink("faint"))


def paint_turns(painter: QPainter, turns: Sequence[Turn], x: float, y: float) -> None:
    """Draw the boxes of a step of several turns: each in its column, with its number in it."""
    for turn in turns:
        row, column = divmod(turn.number - 1, BOXES_ABREAST)
        left, top = x + column * BOX_APART, y + row * BOX_APART
        paint_box(painter, left, top)
        number = Text([Run(str(turn.number), 6.0, tone="soft")], BOX_APART, leading=1.0)
        at = left + 0.5 * (BOX - number.natural_width)
        number.paint(painter, at, top + 0.5 * (BOX - number.height))


def paint_box(painter: QPainter, x: float, y: float) -> None:
    """Draw a box to tick."""
    painter.setPen(QPen(ink("ink"), pt(1.0)))
    painter.setBrush(ink("#ffffff"))
    painter.drawRect(QRectF(x, y, BOX, BOX))


def paint_warning(painter: QPainter, x: float, y: float, *, filled: bool) -> None:
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


class Piece:
    """A part of a cell: a paragraph."""

    def __init__(self, text: Text) -> None:
        self.text = text
        self.height = text.height

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x, y)


class DoPiece(Piece):
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


def amount_text(amount: str, size: float) -> Text:
    """Return an amount in one line."""
    return Text([Run(amount, size, True)], pt(400.0))


def width_of_amounts(amounts: Sequence[str], size: float, most: float) -> float:
    """Return the width of a column of amounts with the gap behind it: of those that are no wider.

    What is wider than `most` stands before its name by itself.
    """
    widths = [amount_text(each, size).natural_width for each in amounts if each]
    return max([each for each in widths if each <= most], default=-AMOUNT_GAP) + AMOUNT_GAP


class PortionPiece(Piece):
    """One of several things that go in together: amount and name."""

    def __init__(self, portion: Portion, width: float, size: float, amounts: float) -> None:
        self.amount = amount_text(portion.amount, size)
        self.indent = pt(17.0)
        self.name_at = self.indent + amounts
        super().__init__(Text([Run(portion.name, size)], width - self.name_at))

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.amount.paint(painter, x + self.name_at - AMOUNT_GAP - self.amount.natural_width, y)
        self.text.paint(painter, x + self.name_at, y)


class ReadingPiece(Piece):
    """A reading: the forecast, and ruled blanks beside it or, without room, below.

    What is read several times has a line below with a blank for each, numbered like its box.
    """

    def __init__(self, reading: Reading, width: float, size: float, spoken: Language) -> None:
        label = Run(f"{spoken.say('{label}:', label=reading.label)} ", size, tone="soft")
        forecast = [label, Run(reading.forecast, size, True)]
        super().__init__(Text(forecast, width))
        self.width = width
        self.also = Text([Run(reading.also, size, tone="soft")], pt(30.0)) if reading.also else None
        self.unit = Text([Run(reading.unit, size, tone="soft")], pt(30.0))
        wanted = pt(96.0) if reading.also else pt(46.0)
        beside = self.text.natural_width + pt(8.0)
        self.below = bool(reading.turns) or width - beside < wanted
        leads = [str(each) for each in reading.turns] or [spoken.say("read")]
        self.leads = [Text([Run(each, size, tone="soft")], pt(90.0)) for each in leads]
        self.abreast = 1 if self.also is not None else max(int(width // pt(64.0)), 1)
        self.beside = beside
        self.line = self.text.height + pt(2.0)
        lines = -(-len(leads) // self.abreast) if self.below else 0
        self.height = self.text.height + pt(2.0) + lines * self.line

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x, y + pt(1.0))
        if not self.below:
            base = y + self.height - pt(1.0)
            self._blanks(painter, x + self.beside, x + self.width, base)
            return
        share = self.width / self.abreast
        for number, lead in enumerate(self.leads):
            line, column = divmod(number, self.abreast)
            left = x + column * share
            base = y + self.text.height + (line + 1) * self.line + pt(1.0)
            lead.paint(painter, left, base - lead.height + pt(1.0))
            right = left + share - (pt(6.0) if self.abreast > 1 else 0.0)
            self._blanks(painter, left + lead.natural_width + pt(5.0), right, base)

    def _blanks(self, painter: QPainter, left: float, right: float, base: float) -> None:
        """A ruled blank, and with what is read beside it a second one."""
        painter.setPen(QPen(ink("ink"), pt(0.7)))
        if self.also is None:
            painter.drawLine(QPointF(left, base), QPointF(min(right, left + pt(80.0)), base))
            return
        right -= self.unit.natural_width + pt(3.0)
        middle = left + 0.5 * (right - left)
        painter.drawLine(QPointF(left, base), QPointF(middle - pt(3.0), base))
        self.also.paint(painter, middle, base - self.also.height + pt(1.0))
        after = middle + self.also.natural_width + pt(3.0)
        painter.setPen(QPen(ink("ink"), pt(0.7)))
        painter.drawLine(QPointF(after, base), QPointF(right, base))
        self.unit.paint(painter, right + pt(3.0), base - self.unit.height + pt(1.0))


class AsidePiece(Piece):
    """Said in the margin: a warning behind a sign and as large as the steps, the rest quietly."""

    def __init__(self, aside: Aside, width: float, size: float, care_size: float) -> None:
        self.is_stop = aside.kind == "stop"
        self.is_care = aside.kind == "care" or self.is_stop
        self.indent = pt(16.0) if self.is_care else 0.0
        tone = {"care": "care", "stop": "care", "if": "ink"}.get(aside.kind, "soft")
        said = Run(aside.text, care_size if self.is_care else size, self.is_stop, tone)
        super().__init__(Text([said], width - self.indent))
        self.height = self.text.height + pt(1.5)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        if self.is_care:
            paint_warning(painter, x + pt(1.0), y + pt(0.6), filled=self.is_stop)
        self.text.paint(painter, x + self.indent, y)


class TitlePiece(Piece):
    """The title of a list."""

    def __init__(self, title: str, width: float) -> None:
        super().__init__(Text([Run(title, 9.5, True, "accent")], width))
        self.height = self.text.height + pt(6.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        self.text.paint(painter, x, y + pt(3.0))


class ItemPiece(Piece):
    """A line of a list: box, letter of the bag, amount in its column, name, note."""

    def __init__(self, item: Item, width: float, size: float, marked: bool, amounts: float) -> None:
        self.boxes = item.boxes
        self.indent = pt(17.0) + (item.boxes - 1) * BOX_APART
        self.mark = item.mark
        self.marked = pt(17.0) if marked else 0.0
        self.amount = amount_text(item.amount, size)
        in_column = bool(item.amount) and self.amount.natural_width + AMOUNT_GAP <= amounts + 1.0
        self.name_in = amounts if in_column else 0.0
        before = bool(item.amount) and not in_column
        words = [Run(f"{item.amount}  ", size, True)] if before else []
        words.append(Run(item.name, size))
        if item.note:
            words.append(Run(f"  {item.note}", SMALL + 0.5, tone="soft"))
        super().__init__(Text(words, width - self.indent - self.marked - self.name_in))
        self.height = self.text.height + pt(3.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        for number in range(self.boxes):
            paint_box(painter, x + pt(0.6) + number * BOX_APART, y + pt(1.6))
        if self.mark:
            paint_letter(painter, self.mark, x + self.indent, y + pt(0.2))
        x += self.indent + self.marked
        if self.name_in:
            self.amount.paint(painter, x + self.name_in - AMOUNT_GAP - self.amount.natural_width, y)
        self.text.paint(painter, x + self.name_in, y)


def paint_letter(painter: QPainter, letter: str, x: float, y: float) -> None:
    """Draw the letter of a bag in a ring."""
    size = pt(13.0)
    painter.setPen(QPen(ink("accent"), pt(1.0)))
    painter.setBrush(ink("ground"))
    painter.drawEllipse(QRectF(x, y, size, size))
    text = Text(
        [Run(letter, 8.5 if len(letter) == 1 else 6.5, True, "accent")], pt(30.0), leading=1.0
    )
    text.paint(
        painter, x + 0.5 * (size - text.natural_width), y + 0.5 * (size - text.height) - pt(0.1)
    )


def stacked(pieces: Sequence[Piece]) -> float:
    """Return the height of pieces below each other."""
    return sum(piece.height for piece in pieces)


def paint_stack(painter: QPainter, pieces: Sequence[Piece], x: float, y: float) -> None:
    """Draw pieces below each other."""
    for piece in pieces:
        piece.paint(painter, x, y)
        y += piece.height


def paired_rows(left: Sequence[Piece], right: Sequence[Piece], right_at: float) -> list[Row]:
    """Two columns beside each other: each runs on by itself while they fit half a page."""
    if max(stacked(left), stacked(right)) < pt(380.0):
        blocks = [(left, right)]
    else:
        longest = max(len(left), len(right))
        blocks = [(left[at : at + 1], right[at : at + 1]) for at in range(longest)]
    last = len(blocks) - 1
    return [
        Row(
            max(stacked(one), stacked(other)),
            _PaintPair((one, other), right_at),
            gap=pt(3.0) if number == last else 0.0,
            keep=number == 0 < last,
        )
        for number, (one, other) in enumerate(blocks)
    ]


def listed_rows(pieces: Sequence[Piece]) -> list[Row]:
    """Each piece a row of its own below the one before.

    A title stays with its first line, and the last line is not left alone.
    """
    beside_last = len(pieces) - 2
    return [
        Row(
            piece.height,
            _PaintPair(((piece,), ()), 0.0),
            keep=isinstance(piece, TitlePiece) or number == beside_last,
        )
        for number, piece in enumerate(pieces)
    ]


class _PaintPair:
    """Draws two stacks beside each other, the left one first."""

    def __init__(self, columns: tuple[Sequence[Piece], Sequence[Piece]], right_at: float) -> None:
        self.columns, self.right_at = columns, right_at

    def __call__(self, painter: QPainter, x: float, y: float, given: float) -> None:
        for number, column in enumerate(self.columns):
            paint_stack(painter, column, x + number * self.right_at, y)
