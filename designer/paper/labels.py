"""Labels to cut out, several on a page, with marks to cut along; and one alone for a preview.

Every label has one size, so one cut parts two of them. Words are set in the largest type that has
room, the name first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPageLayout, QPageSize, QPainter, QPen

from designer.paper.drawings import paint_drawing
from designer.paper.pages import PAPERS, application, paint_pages, pdf_of, wanted_pages
from designer.paper.typography import Run, Text, demand_fonts, ink, pt
from designer.sheet.label_drawing import HEIGHT as LAMP_HEIGHT
from designer.sheet.label_drawing import WIDTH as LAMP_WIDTH
from designer.sheet.label_drawing import lamp
from designer.sheet.labels import BottleLabel

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

_MM = 72.0 / 25.4
LABEL_WIDTH, LABEL_HEIGHT = pt(60.0 * _MM), pt(64.0 * _MM)
"""As wide as the straight part of a bottle of 500 mL shows from the front."""
COLUMNS, ROWS = 3, 4
GROUND, PAPER, LIGHT = "#1f3a34", "#f6f0e2", "#e2c26e"
_GAP, _FRAME, _INSIDE = pt(1.5), pt(8.0), pt(15.0)
_MARK, _MARK_AWAY = pt(10.0), pt(3.0)
_NAME_SIZES = (21.0, 19.0, 17.0, 15.0, 13.5, 12.0, 11.0, 10.0, 9.0, 8.0)
_LINE_SIZES = (9.0, 8.5, 8.0, 7.5, 7.0, 6.5, 6.0)
_LAMP_SCALES = (1.0, 0.85, 0.7)
_TRIED = (
    *((scale, size) for scale in _LAMP_SCALES for size in _LINE_SIZES if size >= 7.5),
    *((0.0, size) for size in _LINE_SIZES),
)
"""Lamp and type of the lines, the best first: what can be read goes before the lamp."""
_APART = pt(6.0)


@dataclass(frozen=True, slots=True)
class LabelPages:
    """Labels laid out for a paper; lengths in 1/720 inch."""

    labels: tuple[BottleLabel, ...]
    width: float
    height: float

    def __len__(self) -> int:
        return -(-len(self.labels) // (COLUMNS * ROWS))

    def paint_into(self, painter: QPainter, number: int, target: QRectF) -> None:
        """Draw page `number`, counted from 0, scaled into a rectangle of the painter's measure."""
        painter.save()
        painter.translate(target.topLeft())
        painter.scale(target.width() / self.width, target.height() / self.height)
        self._paint(painter, number)
        painter.restore()

    def _paint(self, painter: QPainter, number: int) -> None:
        left = (self.width - COLUMNS * LABEL_WIDTH) / 2.0
        top = (self.height - ROWS * LABEL_HEIGHT) / 2.0
        first = number * COLUMNS * ROWS
        here = self.labels[first : first + COLUMNS * ROWS]
        for place, label in enumerate(here):
            row, column = divmod(place, COLUMNS)
            _set(label).paint(painter, left + column * LABEL_WIDTH, top + row * LABEL_HEIGHT)
        _cut_marks(painter, left, top, -(-len(here) // COLUMNS), min(len(here), COLUMNS))


def _cut_marks(painter: QPainter, left: float, top: float, rows: int, columns: int) -> None:
    """Draw short lines outside the labels, in line with their edges."""
    right, bottom = left + columns * LABEL_WIDTH, top + rows * LABEL_HEIGHT
    painter.setPen(QPen(ink("soft"), pt(0.5)))
    for column in range(columns + 1):
        x = left + column * LABEL_WIDTH
        for y, away in ((top, -1.0), (bottom, 1.0)):
            painter.drawLine(QLineF(x, y + away * _MARK_AWAY, x, y + away * (_MARK_AWAY + _MARK)))
    for row in range(rows + 1):
        y = top + row * LABEL_HEIGHT
        for x, away in ((left, -1.0), (right, 1.0)):
            painter.drawLine(QLineF(x + away * _MARK_AWAY, y, x + away * (_MARK_AWAY + _MARK), y))


class _Set:
    """A label with its words in the largest type that has room."""

    def __init__(self, label: BottleLabel) -> None:
        self.words: list[Text] = []
        self.lamp_scale = 0.0
        room = LABEL_HEIGHT - 2.0 * _INSIDE
        for self.lamp_scale, size in _TRIED:
            lines = [_text(each, size, bold=False) for each in label.lines]
            left = room - self._lamp_height - _APART - sum(each.height for each in lines)
            name = _name(label.words.name, left)
            if name is not None:
                self.words = [name, *lines]
                return
        self.words = [_text(label.words.name, _NAME_SIZES[-1], bold=True), *lines]

    @property
    def _lamp_height(self) -> float:
        return self.lamp_scale * pt(LAMP_HEIGHT) + (_APART if self.lamp_scale else 0.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Draw it with its corner at `x`, `y`."""
        cell = QRectF(x, y, LABEL_WIDTH, LABEL_HEIGHT)
        painter.fillRect(cell.adjusted(_GAP, _GAP, -_GAP, -_GAP), QColor(GROUND))
        painter.setPen(QPen(QColor(PAPER), pt(0.6)))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(cell.adjusted(_FRAME, _FRAME, -_FRAME, -_FRAME))
        at = y + (LABEL_HEIGHT - self.height) / 2.0
        if self.lamp_scale:
            beside = (LABEL_WIDTH - self.lamp_scale * pt(LAMP_WIDTH)) / 2.0
            paint_drawing(painter, lamp(PAPER, LIGHT), x + beside, at, self.lamp_scale)
            at += self._lamp_height
        for place, each in enumerate(self.words):
            each.paint(painter, x + _INSIDE, at)
            at += each.height + (_APART if place == 0 else 0.0)

    @property
    def height(self) -> float:
        """The height of all that is drawn within the frame."""
        return self._lamp_height + _APART + sum(each.height for each in self.words)


def _name(name: str, room: float) -> Text | None:
    """The name in the largest type in which it has room and no word is broken; None for none."""
    longest = max(name.split(), key=len, default="")
    width = LABEL_WIDTH - 2.0 * _INSIDE
    for size in _NAME_SIZES:
        whole = _text(longest, size, bold=True, width=10.0 * width).natural_width <= width
        text = _text(name, size, bold=True)
        if text.height <= room and (whole or size == _NAME_SIZES[-1]):
            return text
    return None


def _text(
    text: str, size: float, *, bold: bool, width: float = LABEL_WIDTH - 2.0 * _INSIDE
) -> Text:
    centred = Qt.AlignmentFlag.AlignHCenter
    return Text([Run(text, size, bold, PAPER)], width, align=centred, leading=1.0)


@cache
def _set(label: BottleLabel) -> _Set:
    return _Set(label)


def paint_label(painter: QPainter, label: BottleLabel, target: QRectF) -> None:
    """Draw one label into a rectangle of the painter's own measure, as it is printed."""
    application()
    painter.save()
    painter.translate(target.topLeft())
    scale = min(target.width() / LABEL_WIDTH, target.height() / LABEL_HEIGHT)
    painter.scale(scale, scale)
    _Set(label).paint(painter, 0.0, 0.0)
    painter.restore()


def lay_out_labels(labels: Sequence[BottleLabel], paper: str | QSizeF) -> LabelPages:
    """Return the pages of labels for "a4", "letter", or a paper of that size in points.

    Raises DesignerError where no font is installed.
    """
    application()
    demand_fonts()
    size = PAPERS[paper].size(QPageSize.Unit.Point) if isinstance(paper, str) else paper
    return LabelPages(tuple(labels), pt(size.width()), pt(size.height()))


def labels_pdf(labels: Sequence[BottleLabel], paper: str, title: str) -> tuple[bytes, int]:
    """Return the labels as PDF, and its number of pages."""
    return pdf_of(lay_out_labels(labels, paper), paper, title)


def print_labels(labels: Sequence[BottleLabel], printer: QPrinter, title: str) -> int:
    """Print the pages of labels that the print dialog asked for; returns how many."""
    printer.setFullPage(True)
    pages = lay_out_labels(labels, printer.pageLayout().fullRect(QPageLayout.Unit.Point).size())
    printer.setDocName(title)
    return paint_pages(pages, printer, wanted_pages(printer, len(pages)))
