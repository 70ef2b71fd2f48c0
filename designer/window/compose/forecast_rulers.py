"""The rulers of the forecast: a scale with its marks, likely ranges, and what a style asks for.

On that of gravities the beer falls from before yeast to when it is done, which is its alcohol; that
of colour is beer itself, from pale to black.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPen, QPolygonF

from designer.brewday.predictions import Prediction
from designer.brewday.results import Range
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.compose.forecast_type import Type
from designer.window.parts.curve import draw_curve
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks, colour
from designer.window.parts.shown_scale import marks_of
from designer.wort.swatch import swatch_hex

ABOVE, BELOW = 11.0, 10.0
"""How far what is drawn on a ruler reaches above and below its line."""
BAR = 15.0
FALL = 17.0
"""Height of the arc of the fall."""
Shown = tuple[Prediction, Range, "tuple[float, float] | None"]


class Ruler:
    """A ruler on which forecasts of one kind are shown."""

    foot = BELOW
    """How far below its line the bracket of a style stands."""

    def __init__(self, facts: Sequence[Prediction], display: DisplayFormat) -> None:
        self._facts, self._display = facts, display

    def paint(
        self,
        painter: QPainter,
        rect: QRectF,
        shown: Sequence[Shown],
        faces: Type,
        inks: Inks,
        *,
        marks: bool = True,
    ) -> None:
        """Draw it, its line in the middle of `rect`, its marks, if they are wanted, below."""
        low, high = self.ends(shown)

        def at(value: float) -> float:
            share = (value - low) / (high - low)
            return rect.left() + min(max(share, 0.0), 1.0) * rect.width()

        self._draw_line(painter, rect, at, (low, high), inks)
        for _, found, asked in shown:
            self._draw_range(painter, at, rect.center().y(), found, inks)
            if asked is not None:
                self._draw_asked(painter, at(asked[0]), at(asked[1]), rect.center().y(), inks)
        if len(shown) > 1:
            self._draw_fall(painter, rect, [at(found.value) for _, found, _ in shown], faces, inks)
        if marks:
            self._draw_marks(painter, rect, at, (low, high), faces, inks)

    def ends(self, shown: Sequence[Shown]) -> tuple[float, float]:
        """Return the ends of the scale: as usual, or as far as what is shown."""
        ends = [end for facts in self._facts for end in facts.strip]
        for _, found, asked in shown:
            ends += [found.low, found.high, *(asked or ())]
        return min(ends), max(ends)

    def _draw_line(
        self,
        painter: QPainter,
        rect: QRectF,
        at: Callable[[float], float],
        ends: tuple[float, float],
        inks: Inks,
    ) -> None:
        middle = rect.center().y()
        painter.setPen(QPen(QColor(inks.strip), 2))
        painter.drawLine(QPointF(rect.left(), middle), QPointF(rect.right(), middle))

    def _draw_range(
        self,
        painter: QPainter,
        at: Callable[[float], float],
        middle: float,
        found: Range,
        inks: Inks,
    ) -> None:
        """The likely range as a bar, with a gap at the middle of the draws; the value as a mark."""
        first, last = at(found.low), at(found.high)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.span))
        painter.drawRoundedRect(QRectF(first, middle - 5, max(last - first, 2.0), 10), 5, 5)
        if found.middle is not None and last - first > 8:
            painter.setPen(QPen(QColor(inks.paper), 2))
            half_way = at(found.middle)
            painter.drawLine(QPointF(half_way, middle - 4), QPointF(half_way, middle + 4))
        painter.setPen(QPen(QColor(inks.mark), 3))
        value = at(found.value)
        painter.drawLine(QPointF(value, middle - 8), QPointF(value, middle + 8))

    def _draw_asked(
        self, painter: QPainter, first: float, last: float, middle: float, inks: Inks
    ) -> None:
        """What a style asks for, as a light bracket below."""
        foot = middle + self.foot
        painter.setPen(QPen(QColor(inks.line_strong), 1.2))
        draw_curve(
            painter,
            (
                QPointF(first, foot - 4),
                QPointF(first, foot),
                QPointF(last, foot),
                QPointF(last, foot - 4),
            ),
        )

    def _draw_fall(
        self, painter: QPainter, rect: QRectF, ends: Sequence[float], faces: Type, inks: Inks
    ) -> None:
        """The beer falls from the highest gravity to the lowest: what is gone became alcohol."""
        start, end = max(ends), min(ends)
        foot = rect.center().y() - ABOVE
        if start - end < 8:
            return
        tip, top = end + 3.0, foot - FALL
        points = [
            QPointF(
                (1 - t) ** 2 * start + 2 * t * (1 - t) * (start + tip) / 2 + t * t * tip,
                foot - 4 * t * (1 - t) * (foot - top),
            )
            for t in (number / 16 for number in range(17))
        ]
        painter.setPen(QPen(QColor(inks.green), 1.8))
        draw_curve(painter, points)
        before = points[-2]
        _draw_arrow(painter, before, points[-1], inks.green)
        label = tr("alcohol")
        wide, high = faces.mark.width(label), faces.mark.metrics.height()
        if start - end > 1.7 * wide:
            painter.setFont(faces.mark.font)
            painter.setPen(QColor(inks.ink_soft))
            place = QRectF((start + end - wide) / 2 - 1, foot - high + 5, wide + 2, high)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, label)

    def _draw_marks(
        self,
        painter: QPainter,
        rect: QRectF,
        at: Callable[[float], float],
        ends: tuple[float, float],
        faces: Type,
        inks: Inks,
    ) -> None:
        """Round numbers of the scale below the line, as many as have room."""
        key = self._facts[0].key
        most = max(int(rect.width() / faces.mark.width("00.0000")), 2)
        marks = marks_of(key, *ends, self._display, min(most, 6))
        painter.setFont(faces.mark.font)
        painter.setPen(QColor(inks.ink_soft))
        top = rect.center().y() + self.foot + 2
        for value, text in marks:
            wide = faces.mark.width(text) + 2
            left = min(max(at(value) - wide / 2, rect.left()), rect.right() - wide)
            place = QRectF(left, top, wide, faces.mark_line)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)


class ColourRuler(Ruler):
    """The colours of beer as the ruler, the likely range framed on it."""

    foot = BELOW + 3.0

    def _draw_line(
        self,
        painter: QPainter,
        rect: QRectF,
        at: Callable[[float], float],
        ends: tuple[float, float],
        inks: Inks,
    ) -> None:
        bar = QRectF(rect.left(), rect.center().y() - BAR / 2, rect.width(), BAR)
        gradient = QLinearGradient(bar.topLeft(), bar.topRight())
        gradient.setStops(_shades(*ends))
        painter.setPen(QPen(QColor(inks.line_strong), 1))
        painter.setBrush(gradient)
        painter.drawRoundedRect(bar, 3, 3)

    def _draw_range(
        self,
        painter: QPainter,
        at: Callable[[float], float],
        middle: float,
        found: Range,
        inks: Inks,
    ) -> None:
        """A frame round the likely colours, two lines wide so that it is seen on all of them."""
        first, last = at(found.low), at(found.high)
        frame = QRectF(first, middle - BAR / 2 - 3, max(last - first, 4.0), BAR + 6)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(inks.mark), 2))
        painter.drawRoundedRect(frame, 4, 4)
        painter.setPen(QPen(QColor(inks.paper), 1.2))
        painter.drawRoundedRect(frame.adjusted(1.6, 1.6, -1.6, -1.6), 3, 3)
        value = at(found.value)
        for ink, wide in ((inks.mark, 4.5), (inks.paper, 2.0)):
            painter.setPen(QPen(QColor(ink), wide))
            painter.drawLine(QPointF(value, middle - 9), QPointF(value, middle + 9))


@lru_cache(maxsize=8)
def _shades(low: float, high: float) -> tuple[tuple[float, QColor], ...]:
    """Return colours of beer from one end of a ruler to the other, close where they change most."""
    steps = 40
    return tuple(
        (share, colour(swatch_hex(low + share * (high - low))))
        for share in ((number / steps) ** 1.5 for number in range(steps + 1))
    )


def _draw_arrow(painter: QPainter, before: QPointF, tip: QPointF, ink: str) -> None:
    """A head at the end of a line that comes from `before`."""
    along = tip - before
    length = max((along.x() ** 2 + along.y() ** 2) ** 0.5, 1e-6)
    ahead = along / length
    side = QPointF(-ahead.y(), ahead.x())
    back = tip - ahead * 9.0
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(ink))
    painter.drawPolygon(QPolygonF([tip, back + side * 4.0, back - side * 4.0]))


def ruler_for(facts: Sequence[Prediction], display: DisplayFormat) -> Ruler:
    """Return the ruler for forecasts of one kind."""
    made = ColourRuler if facts[0].kind is Kind.BEER_COLOUR else Ruler
    return made(facts, display)
