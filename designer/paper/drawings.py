"""Drawings of the sheet painted: the same shapes on paper and on the screen."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen, QPolygonF

from designer.paper.typography import Run, Text, font, ink, pt
from designer.sheet.blocks import Drawing, Label, Shape

_WIDE = pt(400.0)


def paint_drawing(painter: QPainter, drawing: Drawing, x: float, y: float, scale: float) -> None:
    """Draw a drawing with its top left corner at `x`, `y`, `scale` times its size."""
    painter.save()
    painter.translate(x, y)
    painter.scale(scale, scale)
    for shape in drawing.shapes:
        if isinstance(shape, Label):
            _label(painter, shape)
        else:
            _shape(painter, shape)
    painter.restore()


def _shape(painter: QPainter, shape: Shape) -> None:
    polygon = QPolygonF([QPointF(pt(x), pt(y)) for x, y in shape.points])
    if shape.fill:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink(shape.fill))
        painter.drawPolygon(polygon)
    if shape.width > 0.0:
        pen = QPen(ink(shape.tone), pt(shape.width))
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        if shape.dashed:
            pen.setDashPattern([3.0, 2.5])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(polygon)


def _label(painter: QPainter, label: Label) -> None:
    text = Text([Run(label.text, label.size, label.bold, label.tone)], _WIDE, leading=1.0)
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[label.anchor] * text.natural_width
    ascent = QFontMetricsF(font(label.size, label.bold)).ascent()
    text.paint(painter, pt(label.x) - back, pt(label.y) - ascent)
