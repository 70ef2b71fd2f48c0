"""A band that narrows from brew to brew, with what each brew said of the figure."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFontMetricsF,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.brewday.learning.figures import Learned
from designer.translation import labelled, tr, trn
from designer.window.kitchen.figure_text import band_text, value_text
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.picture_menu import open_picture_menu
from designer.window.parts.picture_out import Picture
from designer.workbench.learning.figure_words import figure_name

HIGH, LEAST_WIDE, USUAL_WIDE = 66, 150, 250
PICTURE_SIZE = QSize(560, 160)
EDGE, POINT = 14.0, 3.5
"""Room at both ends, and the radius of a point."""
MOST_NUMBERED = 12
"""With more brews than so many only some of the numbers below are told."""


class Narrowing(QWidget):
    """Drawn for the eye; said in words for those who cannot see it."""

    def __init__(self, learned: Learned, display: DisplayFormat, brews: Sequence[str] = ()) -> None:
        """`brews` are the lasting names of all that are counted below, of this figure or not."""
        super().__init__()
        self._learned, self._display = learned, display
        self._brews = tuple(brews) or tuple(each.brew for each in learned.steps)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(in_words(learned, display))
        self.setToolTip(self.accessibleName())
        keep_direction(self)

    def sizeHint(self) -> QSize:
        return QSize(USUAL_WIDE, self._high())

    def minimumSizeHint(self) -> QSize:
        return QSize(LEAST_WIDE, self._high())

    def _high(self) -> int:
        return HIGH - 14 + self.fontMetrics().height()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        open_picture_menu(self, event.globalPos(), self._picture)

    def _picture(self) -> Picture:
        def drawn() -> Narrowing:
            return Narrowing(self._learned, self._display, self._brews)

        learned = self._learned
        name = figure_name(learned.figure)
        about = labelled(name, learned.subject) if learned.subject else name
        note = band_text(learned, learned.known, self._display)
        title = tr("How it narrowed, brew by brew")
        return Picture(about, title, note, PICTURE_SIZE, drawn, self.accessibleName())

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        inks, learned = inks_for(self.palette()), self._learned
        metrics = QFontMetricsF(self.font())
        area = QRectF(self.rect()).adjusted(EDGE, 6, -EDGE, -metrics.height() - 6)
        steps = {each.brew: each for each in learned.steps}
        bands = [learned.start]
        for brew in self._brews:
            bands.append(steps[brew].known if brew in steps else bands[-1])
        seen = [each.seen for each in learned.steps if isfinite(each.seen)]
        low = min([*(each.low for each in bands), *seen])
        high = max([*(each.high for each in bands), *seen])
        room = max(high - low, 1e-9)

        def x(number: int) -> float:
            return area.left() + area.width() * number / max(len(bands) - 1, 1)

        def y(value: float) -> float:
            return area.bottom() - area.height() * (value - low) / room

        # Before the first brew there is one band, as wide as the picture.
        at = [x(n) for n in range(len(bands))] if len(bands) > 1 else [area.left(), area.right()]
        shown = bands if len(bands) > 1 else 2 * bands
        upper = [QPointF(a, y(each.high)) for a, each in zip(at, shown, strict=True)]
        lower = [QPointF(a, y(each.low)) for a, each in zip(at, shown, strict=True)]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.span))
        painter.drawPolygon(QPolygonF([*upper, *reversed(lower)]))
        painter.setPen(QPen(QColor(inks.mark), 1.8))
        painter.drawPolyline([QPointF(a, y(each.value)) for a, each in zip(at, shown, strict=True)])
        for number, brew in enumerate(self._brews, 1):
            step = steps.get(brew)
            if step is not None and isfinite(step.seen):
                self._draw_seen(painter, QPointF(x(number), y(step.seen)), counts=step.counts)
        self._draw_numbers(painter, [x(n) for n in range(len(bands))], metrics)

    def _draw_seen(self, painter: QPainter, at: QPointF, *, counts: bool) -> None:
        """A ring where a brew says so; a cross where it is left out."""
        inks = inks_for(self.palette())
        if counts:
            painter.setPen(QPen(QColor(inks.wort_edge), 1.6))
            painter.setBrush(QColor(inks.paper))
            painter.drawEllipse(at, POINT, POINT)
            return
        painter.setPen(QPen(QColor(inks.ink_soft), 1.8))
        for way in (1.0, -1.0):
            corner = QPointF(POINT, way * POINT)
            painter.drawLine(at - corner, at + corner)

    def _draw_numbers(self, painter: QPainter, at: list[float], metrics: QFontMetricsF) -> None:
        painter.setPen(QColor(inks_for(self.palette()).ink_soft))
        base = self.height() - metrics.descent() - 1
        every = 1 + (len(at) - 1) // MOST_NUMBERED
        for number, place in enumerate(at):
            text = tr("start") if number == 0 else str(number)
            if number == 0 or number % every == 0:
                wide = metrics.horizontalAdvance(text)
                left = min(max(place - wide / 2, 0.0), self.width() - wide)
                painter.drawText(QPointF(left, base), text)


def in_words(learned: Learned, display: DisplayFormat) -> str:
    """Return what the picture shows."""
    if not learned.steps:
        return tr(
            "{band} at the start; no brew yet.", band=band_text(learned, learned.start, display)
        )
    left_out = [
        tr(
            "Brew {number}, which said {value}, is left out.",
            number=number,
            value=value_text(learned.figure, each.seen, display),
        )
        for number, each in enumerate(learned.steps, 1)
        if not each.counts and isfinite(each.seen)
    ]
    told = trn(
        "{start} at the start; after {number} brew {known}.",
        "{start} at the start; after {number} brews {known}.",
        len(learned.steps),
        start=band_text(learned, learned.start, display),
        known=band_text(learned, learned.known, display),
    )
    return " ".join([told, *left_out])
