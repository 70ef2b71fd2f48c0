"""The one box beside the pointer: what the curves read there, what a marker is, where it goes."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from designer.translation import trn
from designer.window.parts.day_scale import DayScale, Lettering
from designer.window.parts.inks import Inks

MOST_ROWS = 7
OFF_PX = 8.0
_ELIDED = Qt.TextElideMode.ElideRight


def draw_read_out(
    painter: QPainter, inks: Inks, scale: DayScale, letters: Lettering, x: float, said: str
) -> QRectF:
    """Draw a thin line at `x`, and beside it what is said; return where that stands."""
    plot, metrics = scale.plot, letters.metrics
    rows = _rows(said, metrics.height(), scale.plot.height())
    room = scale.right - plot.left() - 2 * OFF_PX
    shown = [metrics.elidedText(row, _ELIDED, room) for row in rows]
    width = max(metrics.horizontalAdvance(row) for row in shown) + 14
    left = x + OFF_PX
    if left + width > scale.right:
        left = max(x - OFF_PX - width, 0.0)
    box = QRectF(left, plot.top() + 4, width, len(shown) * metrics.height() + 8)
    painter.setPen(QPen(QColor(inks.line_strong), 1))
    painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()))
    painter.setBrush(QColor(inks.paper))
    painter.drawRoundedRect(box, 3, 3)
    painter.setPen(QColor(inks.ink))
    painter.setFont(letters.font)
    for number, row in enumerate(shown):
        y = box.top() + 4 + number * metrics.height() + metrics.ascent()
        painter.drawText(QPointF(box.left() + 7, y), row)
    return box


def _rows(said: str, line: float, height: float) -> list[str]:
    """Return the lines of a text, the last ones counted where they would not all have room."""
    rows = said.split("\n")
    most = max(min(MOST_ROWS, int((height - 12) / line)), 2)
    if len(rows) <= most:
        return rows
    more = len(rows) - most + 1
    return [*rows[: most - 1], trn("and {number} more", "and {number} more", more)]
