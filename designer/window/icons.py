"""Small signs painted in the colours of the moment: findings beside a line, arrows of choices."""

from __future__ import annotations

from functools import cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QIcon, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QComboBox

from designer.window.inks import Inks, inks_for

SIZE = 16
SCALE = 3


@cache
def finding_icon(severity: str, inks: Inks) -> QIcon:
    """Return the sign of a finding: a disc with i for a note, a triangle with ! for the rest."""
    pixmap = QPixmap(SIZE * SCALE, SIZE * SCALE)
    pixmap.setDevicePixelRatio(SCALE)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = {"stop": inks.stop, "care": inks.brass}.get(severity, inks.ink_soft)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(ink))
    area = QRectF(1, 1, SIZE - 2, SIZE - 2)
    if severity == "note":
        painter.drawEllipse(area)
    else:
        corners = [QPointF(SIZE / 2, 1), QPointF(SIZE - 0.5, SIZE - 1.5), QPointF(0.5, SIZE - 1.5)]
        painter.drawPolygon(QPolygonF(corners))
        area.translate(0, 1.5)
    font = QFont()
    font.setPixelSize(11)
    font.setBold(True)
    painter.setFont(font)
    painter.setPen(QColor(inks.paper))
    painter.drawText(area, Qt.AlignmentFlag.AlignCenter, "i" if severity == "note" else "!")
    painter.end()
    return QIcon(pixmap)


class Choice(QComboBox):
    """A combo box whose arrow is drawn in the ink of the moment."""

    def paintEvent(self, event: object) -> None:
        super().paintEvent(event)  # type: ignore[arg-type]
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(inks_for(self.palette()).ink_soft), 1.6))
        x, y = self.width() - 13.0, self.height() / 2.0 - 1.5
        painter.drawPolyline(QPolygonF([QPointF(x - 4, y), QPointF(x, y + 4), QPointF(x + 4, y)]))
        painter.end()
