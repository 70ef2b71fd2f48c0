"""The scale of gravities: where the reading lies, and where the forecast has it."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.sized_text import grown, sized

HIGH_PX, BAR_PX = 92.0, 14.0
STEPS_SG = (0.001, 0.002, 0.005, 0.010, 0.020, 0.050)
FEWEST_SG = 0.012
"""So much of gravity is shown at least."""


class OnScale(NamedTuple):
    """What is drawn: the reading corrected to 20 °C, the band, and what is most likely in it."""

    reading: float | None
    low: float
    high: float
    value: float


class GravityScale(QWidget):
    """Draws it; what it shows is told in words to a screen reader."""

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self._shown: OnScale | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        keep_direction(self)

    def show_scale(self, shown: OnScale | None) -> None:
        """Show a reading and a band."""
        if shown != self._shown:
            self._shown = shown
            self.setAccessibleName(self.in_words())
            self.setToolTip(self.in_words())
            self.update()

    def in_words(self) -> str:
        """Return what is drawn, in words."""
        if self._shown is None:
            return ""
        if self._shown.reading is None:
            return self._forecast_words()
        return tr(
            "{reading}; {forecast}", reading=self._reading_words(), forecast=self._forecast_words()
        )

    def _reading_words(self) -> str:
        shown = self._shown
        if shown is None or shown.reading is None:
            return ""
        return tr("{gravity} at 20 °C", gravity=self._text(shown.reading))

    def _forecast_words(self) -> str:
        shown = self._shown
        if shown is None:
            return ""
        low, high = self._text(shown.low), self._text(shown.high)
        return tr("forecast {low} to {high}", low=low, high=high)

    def _text(self, gravity: float) -> str:
        return self._display.short(Kind.GRAVITY, gravity)

    def sizeHint(self) -> QSize:
        return QSize(360, round(grown(self, HIGH_PX)))

    def minimumSizeHint(self) -> QSize:
        return QSize(round(grown(self, 250)), round(grown(self, HIGH_PX)))

    def paintEvent(self, event: QPaintEvent) -> None:
        shown = self._shown
        if shown is None:
            return
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint(painter, shown)

    def _paint(self, painter: QPainter, shown: OnScale) -> None:
        inks = inks_for(self.window().palette())
        first, last = ends_of(shown)
        edge = grown(self, 14)
        wide = self.width() - 2 * edge
        middle, half = grown(self, 54), grown(self, BAR_PX) / 2

        def at(gravity: float) -> float:
            return edge + wide * (gravity - first) / (last - first)

        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.strip))
        painter.drawRoundedRect(QRectF(edge, middle - 2, wide, 4), 2, 2)
        band = QRectF(at(shown.low), middle - half, at(shown.high) - at(shown.low), 2 * half)
        painter.setBrush(QColor(inks.span))
        painter.drawRoundedRect(band, 3, 3)
        painter.setBrush(QColor(inks.mark))
        painter.drawRect(QRectF(at(shown.value) - 2, middle - half - 4, 4, 2 * half + 8))
        bold = sized(self.font(), grown(self, 12.5), bold=True)
        metrics, line = QFontMetricsF(bold), QFontMetricsF(bold).height()
        painter.setFont(bold)
        # The forecast is told above its band, the reading above that: neither lies on the other.
        self._label(painter, metrics, self._forecast_words(), band.center().x(), line, inks.ink)
        if shown.reading is not None:
            x = at(shown.reading)
            inside = shown.low <= shown.reading <= shown.high
            colour = inks.green if inside else inks.brass
            top = middle - half - grown(self, 3)
            wing = grown(self, 8)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colour))
            tip = QPointF(x, top + grown(self, 3))
            painter.drawPolygon(
                QPolygonF([QPointF(x - wing, top - wing), QPointF(x + wing, top - wing), tip])
            )
            self._label(painter, metrics, self._reading_words(), x, 0.0, colour)
        self._ticks(painter, first, last, at, middle + half + grown(self, 4), inks.ink_soft)

    def _label(
        self, painter: QPainter, metrics: QFontMetricsF, text: str, x: float, top: float, ink: str
    ) -> None:
        """Write a text about a place, wholly within the picture."""
        wide = metrics.horizontalAdvance(text) + 2
        left = min(max(x - wide / 2, 0.0), max(self.width() - wide, 0.0))
        painter.setPen(QColor(ink))
        painter.drawText(QRectF(left, top, wide, metrics.height()), 0, text)

    def _ticks(
        self, painter: QPainter, first: float, last: float, at: object, top: float, ink: str
    ) -> None:
        assert callable(at)
        small = sized(self.font(), grown(self, 11.5))
        metrics = QFontMetricsF(small)
        widest = metrics.horizontalAdvance(self._text(last)) + grown(self, 16)
        room = max(self.width() / widest, 1.0)
        step = next((e for e in STEPS_SG if (last - first) / e <= room), STEPS_SG[-1])
        painter.setFont(small)
        number = int(first / step) + 1
        while number * step < last:
            self._label(painter, metrics, self._text(number * step), at(number * step), top, ink)
            number += 1


def ends_of(shown: OnScale) -> tuple[float, float]:
    """Return from where to where the scale goes, so that all of it has room."""
    told = [shown.low, shown.high, shown.value]
    if shown.reading is not None:
        told.append(shown.reading)
    first, last = min(told), max(told)
    more = max(0.2 * (last - first), (FEWEST_SG - (last - first)) / 2, 0.002)
    return first - more, last + more
