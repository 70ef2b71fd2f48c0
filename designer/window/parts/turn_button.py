"""Buttons for undo and redo: an arrow that turns back, or on, in the ink of the moment."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QToolButton

from designer.window.parts.inks import inks_for

SIZE = 16


class TurnButton(QToolButton):
    """A button with an arrow; what it does is told by its tip and its name for screen readers."""

    def __init__(self, *, back: bool) -> None:
        super().__init__()
        self.setObjectName("turn")
        self._back = back

    def sizeHint(self) -> QSize:
        around = self.fontMetrics().height() + 12
        return QSize(around + 6, around)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks = inks_for(self.palette())
        painter.setPen(QPen(QColor(inks.ink if self.isEnabled() else inks.line_strong), 1.7))
        painter.translate(self.width() / 2.0, self.height() / 2.0)
        painter.scale(1.0 if self._back else -1.0, 1.0)
        # An open bow over the top, its head at the left end.
        bow = QRectF(-SIZE / 2.0 + 1.0, -3.0, SIZE - 2.0, 11.0)
        painter.drawArc(bow, 0, 180 * 16)
        left = QPointF(bow.left(), bow.center().y())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.ink if self.isEnabled() else inks.line_strong))
        head = (QPointF(-4.2, -1.2), QPointF(4.2, -1.2), QPointF(0.0, 4.6))
        painter.drawPolygon(QPolygonF([left + each for each in head]))
        painter.end()
