"""A letter or number in a ring, as bags are marked with on the sheet; a tick once it is done."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from designer.translation import tr
from designer.window.parts.direction import keep_direction
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.sized_text import grown, sized

USUAL_RING_PX = 36.0


def draw_mark(
    painter: QPainter, place: QRectF, mark: str, font: QFont, inks: Inks, *, done: bool = False
) -> None:
    """Draw a ring with a letter or number, or with a tick, into a square."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = QColor(inks.line_strong if done else inks.green)
    width = max(place.width() / 18.0, 1.4)
    painter.setPen(QPen(ink, width))
    painter.setBrush(QColor(inks.paper))
    half = width / 2
    painter.drawEllipse(place.adjusted(half, half, -half, -half))
    if done:
        x, y, s = place.left(), place.top(), place.width() / 18.0
        corners = [(5.0, 9.4), (8.0, 12.4), (13.0, 6.2)]
        painter.setPen(QPen(ink, 1.6 * width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        painter.drawPolyline(QPolygonF([QPointF(x + s * a, y + s * b) for a, b in corners]))
        return
    painter.setFont(sized(font, (0.5 if len(mark) < 3 else 0.4) * place.height(), bold=True))
    painter.drawText(place, Qt.AlignmentFlag.AlignCenter, mark)


class MarkRing(QWidget):
    """The mark of one step."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._mark = ""
        keep_direction(self)

    def show_mark(self, mark: str) -> None:
        """Show another letter or number."""
        if mark != self._mark:
            self._mark = mark
            self.setAccessibleName(tr("Mark {mark}", mark=mark))
            self.update()

    def sizeHint(self) -> QSize:
        side = round(grown(self, USUAL_RING_PX))
        return QSize(side, side)

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self._mark:
            return
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            side = float(min(self.width(), self.height()))
            place = QRectF(0, (self.height() - side) / 2, side, side)
            draw_mark(painter, place, self._mark, self.font(), inks_for(self.palette()))
