"""The gauge of gas in the bottles: what they bear with ease, with care and never."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.translation import tr
from designer.window.parts.day_scale import Lettering
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks, colour, inks_for
from designer.window.parts.sized_text import grown, sized

LEAST_VOLUMES, MOST_VOLUMES = 0, 5
TYPE_PX, BAR_PX = 11.5, 16.0


@dataclass(frozen=True, slots=True)
class GaugeShown:
    """Volumes of gas: limits, what is aimed at, and what the fullest bottle may come to.

    `words` tell it to a screen reader; `most_said` is written at the fullest.
    """

    comfortable: float = 0.0
    never: float = 0.0
    aimed: float = 0.0
    aimed_said: str = ""
    most: float = 0.0
    most_said: str = ""
    words: str = ""

    @property
    def is_over(self) -> bool:
        """Whether the fullest is beyond what such bottles ever get."""
        return self.most > self.never


class Gauge(QWidget):
    """A bar of three parts with two marks above it."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self.shown = GaugeShown()
        self.setAccessibleName(tr("Will the bottles bear it?"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        keep_direction(self)

    def show_gauge(self, shown: GaugeShown) -> None:
        """Show other figures."""
        if shown != self.shown:
            self.shown = shown
            self.setAccessibleDescription(shown.words)
            self.setToolTip(shown.words)
            self.update()

    def _letters(self) -> Lettering:
        return Lettering(sized(self.font(), grown(self, TYPE_PX)))

    def sizeHint(self) -> QSize:
        line = self._letters().metrics.height()
        return QSize(330, round(3 * line + grown(self, BAR_PX) + 22))

    def minimumSizeHint(self) -> QSize:
        return QSize(180, self.sizeHint().height())

    @property
    def highest(self) -> float:
        """Where the scale ends."""
        return max(MOST_VOLUMES, -(-max(self.shown.most, self.shown.aimed) // 1))

    def paintEvent(self, event: QPaintEvent) -> None:
        letters, inks = self._letters(), inks_for(self.palette())
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(letters.font)
            line = letters.metrics.height()
            bar = QRectF(6, line + 12, self.width() - 12, grown(self, BAR_PX))
            self._paint_bar(painter, inks, bar)
            self._paint_scale(painter, inks, letters, bar)
            self._paint_marks(painter, inks, letters, bar)

    def _x(self, bar: QRectF, volumes: float) -> float:
        part = (volumes - LEAST_VOLUMES) / (self.highest - LEAST_VOLUMES)
        return bar.left() + bar.width() * min(max(part, 0.0), 1.0)

    def _paint_bar(self, painter: QPainter, inks: Inks, bar: QRectF) -> None:
        ends = (bar.left(), self._x(bar, self.shown.comfortable), self._x(bar, self.shown.never))
        parts = (
            (ends[0], ends[1], colour(inks.span)),
            (ends[1], ends[2], colour(inks.foam, 120)),
            (ends[2], bar.right(), colour(inks.stop, 120)),
        )
        for left, right, ink in parts:
            painter.fillRect(QRectF(left, bar.top(), right - left, bar.height()), ink)
        painter.setPen(QPen(QColor(inks.ink), 1.4))
        for at in ends[1:]:
            painter.drawLine(QPointF(at, bar.top() - 2), QPointF(at, bar.bottom() + 4))

    def _paint_scale(self, painter: QPainter, inks: Inks, letters: Lettering, bar: QRectF) -> None:
        painter.setPen(QColor(inks.ink_soft))
        base = bar.bottom() + letters.metrics.ascent() + 5
        for number in range(LEAST_VOLUMES, int(self.highest) + 1):
            text = f"{number}"
            wide = letters.width_of(text)
            left = min(max(self._x(bar, number) - wide / 2, 0.0), self.width() - wide)
            painter.drawText(QPointF(left, base), text)
        text = tr("volumes of CO₂ in the bottle")
        x = bar.center().x() - letters.width_of(text) / 2
        painter.drawText(QPointF(x, base + letters.metrics.height()), text)

    def _paint_marks(self, painter: QPainter, inks: Inks, letters: Lettering, bar: QRectF) -> None:
        shown = self.shown
        aimed, most = self._x(bar, shown.aimed), self._x(bar, shown.most)
        ink = QColor(inks.stop if shown.is_over else inks.ink)
        y = bar.top() - 5
        painter.setPen(QPen(ink, 1.4, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(aimed, y), QPointF(most, y))
        painter.setPen(Qt.PenStyle.NoPen)
        for at, inked in ((aimed, QColor(inks.mark)), (most, ink)):
            painter.setBrush(inked)
            corners = (QPointF(at - 5, y - 4), QPointF(at + 5, y - 4), QPointF(at, y + 5))
            painter.drawPolygon(QPolygonF(corners))
        painter.setFont(letters.bold)
        metrics = painter.fontMetrics()
        base = bar.top() - 11
        first, second = (metrics.horizontalAdvance(t) for t in (shown.aimed_said, shown.most_said))
        right = min(max(most - second / 2, 0.0), self.width() - second)
        left = min(max(aimed - first / 2, 0.0), right - first - 8)
        if left < 0.0:  # both have no room side by side
            left, right = 0.0, first + 8
        painter.setPen(QColor(inks.ink))
        painter.drawText(QPointF(left, base), shown.aimed_said)
        painter.setPen(ink)
        painter.drawText(QPointF(right, base), shown.most_said)
