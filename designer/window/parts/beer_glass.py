"""A small glass of beer in the colour that it is forecast to have."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from designer.window.parts.inks import inks_for
from designer.wort.swatch import swatch_hex

USUAL_SRM = 10.0


class BeerGlass(QWidget):
    """A small glass of beer of a colour."""

    def __init__(self, width: int = 38, height: int = 66) -> None:
        super().__init__()
        self._srm = USUAL_SRM
        self._size = QSize(width, height)
        self.setFixedSize(self._size)

    def sizeHint(self) -> QSize:
        return self._size

    def show_colour(self, srm: float) -> None:
        """Hold another beer."""
        if srm != self._srm:
            self._srm = srm
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            inks = inks_for(self.palette())
            glass = QRectF(2, 2, self.width() - 4, self.height() - 4)
            painter.setPen(QPen(QColor(inks.line_strong), 1.6))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(glass, 5, 5)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(swatch_hex(self._srm)))
            painter.drawRoundedRect(glass.adjusted(3, 11, -3, -3), 2.5, 2.5)
