"""Large buttons that have a sign, or words in as little room as they need."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy

from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.inks import inks_for
from designer.window.parts.sized_text import grown
from designer.window.parts.targets import TARGET_PX

AROUND_PX = 9
"""Least room left and right of words."""


class SignButton(LargeButton):
    """A large button with words, or with a painted sign.

    Signs are "pause", "go", "away", "heard", "more" and "contrast".
    """

    def __init__(self, act: Callable[[], object], *, plain: bool = False) -> None:
        super().__init__("", "", act)
        self._sign = self._words = ""
        if plain:
            self.setObjectName("quiet")
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)

    def show_sign(self, sign: str, tip: str) -> None:
        """Show a sign; the tip says what it does, also to a screen reader."""
        self._sign, self._words = sign, ""
        self._say(tip, tip)

    def show_words(self, words: str, tip: str) -> None:
        """Show words; the tip says what they do."""
        self._sign, self._words = "", words
        self._say(tr("{button}: {tip}", button=words, tip=tip), tip)

    def _say(self, name: str, tip: str) -> None:
        self.setAccessibleName(name)
        self.setToolTip(tip)
        self.updateGeometry()
        self.update()

    def needs(self, words: str) -> int:
        """Return how wide it is with these words."""
        return self.fontMetrics().horizontalAdvance(words) + 2 * AROUND_PX

    def sizeHint(self) -> QSize:
        return QSize(max(TARGET_PX, self.needs(self._words)), TARGET_PX)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            ink = QColor(inks_for(self.window().palette()).ink)
            painter.setPen(ink)
            if self._sign:
                _draw(painter, self._sign, QPointF(self.width() / 2, self.height() / 2), ink,
                      grown(self, 8.0))  # fmt: skip
            else:
                painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self._words)


def _draw(painter: QPainter, sign: str, at: QPointF, ink: QColor, half: float) -> None:
    """Draw a sign around a point, so far to each side."""
    x, y = at.x(), at.y()
    if sign == "pause":
        for left in (x - 0.75 * half, x + 0.25 * half):
            painter.fillRect(QRectF(left, y - half, 0.5 * half, 2 * half), ink)
        return
    if sign == "contrast":
        place = QRectF(x - half, y - half, 2 * half, 2 * half)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(ink, max(0.2 * half, 1.5)))
        painter.drawEllipse(place)
        painter.setBrush(ink)
        painter.drawPie(place, 90 * 16, 180 * 16)
        return
    if sign == "go":
        painter.setBrush(ink)
        painter.setPen(Qt.PenStyle.NoPen)
        corners = [(-0.7, -1.0), (1.0, 0.0), (-0.7, 1.0)]
        painter.drawPolygon(QPolygonF([QPointF(x + half * a, y + half * b) for a, b in corners]))
        return
    painter.setPen(QPen(ink, max(0.25 * half, 1.6), Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    if sign == "heard":
        corners = [(-1.0, 0.1), (-0.3, 0.8), (1.0, -0.8)]
        painter.drawPolyline(QPolygonF([QPointF(x + half * a, y + half * b) for a, b in corners]))
        return
    if sign == "more":
        painter.drawLine(QPointF(x - half, y), QPointF(x + half, y))
        painter.drawLine(QPointF(x, y - half), QPointF(x, y + half))
        return
    reach = 0.7 * half
    painter.drawLine(QPointF(x - reach, y - reach), QPointF(x + reach, y + reach))
    painter.drawLine(QPointF(x - reach, y + reach), QPointF(x + reach, y - reach))
