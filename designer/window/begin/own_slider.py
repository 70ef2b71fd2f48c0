"""Sliders over a scale of ours: moved by the pointer, the arrow keys and a screen reader alike."""

from __future__ import annotations

from math import sqrt

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QLinearGradient,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QSlider

from designer.window.parts.direction import keep_direction
from designer.window.parts.inks import Inks, inks_for
from designer.wort.swatch import swatch_hex

PARTS = 10
"""Of a unit: Qt's sliders know whole numbers only."""
KNOB = 8.5
STOPS = 24


class Scale(QSlider):
    """A slider from one figure to another; `moved` tells what a brewer set it to."""

    moved = Signal(float)

    def __init__(self, label: str, step: float) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self.setAccessibleName(label)
        self.setSingleStep(round(PARTS * step))
        self.setPageStep(round(PARTS * step * 5))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumHeight(round(2 * KNOB) + 7)
        self.is_answered = False
        self.valueChanged.connect(lambda value: self.moved.emit(value / PARTS))
        keep_direction(self)

    def set_ends(self, low: float, high: float) -> None:
        """Reach from one figure to another, and as far as it stands now."""
        at = self.value() if self.is_answered else round(PARTS * low)
        self.blockSignals(True)
        self.setRange(min(round(PARTS * low), at), max(round(PARTS * high), at))
        self.blockSignals(False)

    def show_value(self, value: float) -> None:
        """Stand at a figure without having been moved there."""
        at = round(PARTS * value)
        self.blockSignals(True)
        self.setRange(min(self.minimum(), at), max(self.maximum(), at))
        self.setValue(at)
        self.blockSignals(False)

    def figure(self) -> float:
        """Return the figure that it stands at."""
        return self.value() / PARTS

    # where a figure lies

    def share_of(self, figure: float) -> float:
        """Return how far along a figure lies, 0 to 1."""
        low, high = self.minimum() / PARTS, self.maximum() / PARTS
        return (figure - low) / (high - low) if high > low else 0.0

    def figure_at(self, share: float) -> float:
        """Return the figure so far along."""
        low, high = self.minimum() / PARTS, self.maximum() / PARTS
        return low + share * (high - low)

    def _track(self) -> QRectF:
        return QRectF(KNOB + 2, 0, self.width() - 2 * KNOB - 4, self.height())

    # pointer

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is not Qt.MouseButton.LeftButton:
            event.ignore()
            return
        self.setSliderDown(True)
        self._follow(event.position().x())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self.isSliderDown():
            self._follow(event.position().x())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.setSliderDown(False)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page, which it is meant for."""
        event.ignore()

    def _follow(self, x: float) -> None:
        track = self._track()
        share = min(max((x - track.left()) / max(track.width(), 1.0), 0.0), 1.0)
        step = max(self.singleStep(), 1)
        at = round(PARTS * self.figure_at(share) / step) * step
        self.setValue(at)

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            inks, track = inks_for(self.palette()), self._track()
            x = track.left() + self.share_of(self.figure()) * track.width()
            self._paint_track(painter, track, x, inks)
            self._paint_knob(painter, QPointF(x, track.center().y()), inks)

    def _paint_knob(self, painter: QPainter, at: QPointF, inks: Inks) -> None:
        """Paint where it stands; with a bolder edge where a brewer has put it there."""
        has_focus = self.hasFocus()
        edge = QPen(QColor(inks.green if has_focus or self.is_answered else inks.line_strong))
        edge.setWidthF(3.0 if has_focus else 2.2 if self.is_answered else 1.4)
        painter.setPen(edge)
        painter.setBrush(QColor(inks.paper))
        painter.drawEllipse(at, KNOB, KNOB)
        filling = self._filling()
        if filling:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(filling))
            painter.drawEllipse(at, KNOB - 3, KNOB - 3)

    def _paint_track(self, painter: QPainter, track: QRectF, x: float, inks: Inks) -> None:
        y = track.center().y()
        for start, end, ink in ((x, track.right(), inks.strip), (track.left(), x, inks.green)):
            painter.setPen(QPen(QColor(ink), 4, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            painter.drawLine(QPointF(start, y), QPointF(end, y))

    def _filling(self) -> str:
        return ""


class BeerColours(Scale):
    """A slider over the real colours of beer; pale ones, which eyes tell apart, have more room."""

    def share_of(self, figure: float) -> float:
        low, high = sqrt(self.minimum() / PARTS), sqrt(self.maximum() / PARTS)
        return (sqrt(max(figure, 0.0)) - low) / (high - low) if high > low else 0.0

    def figure_at(self, share: float) -> float:
        low, high = sqrt(self.minimum() / PARTS), sqrt(self.maximum() / PARTS)
        return (low + share * (high - low)) ** 2

    def _paint_track(self, painter: QPainter, track: QRectF, x: float, inks: Inks) -> None:
        ruler = QRectF(track.left() - KNOB, track.center().y() - 7, track.width() + 2 * KNOB, 14)
        colours = QLinearGradient(track.left(), 0, track.right(), 0)
        for stop in range(STOPS + 1):
            share = stop / STOPS
            colours.setColorAt(share, QColor(swatch_hex(self.figure_at(share))))
        painter.setPen(QPen(QColor(inks.line_strong), 1))
        painter.setBrush(colours)
        painter.drawRoundedRect(ruler, 7, 7)

    def _filling(self) -> str:
        return swatch_hex(self.figure())
