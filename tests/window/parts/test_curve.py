"""A curve of short lines looks as Qt's own polyline does."""

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QPolygonF

from designer.window.parts.curve import draw_curve

CORNERS = [QPointF(*each) for each in ((5, 40), (30, 12), (30, 30), (48, 30.5), (75, 8))]


def painted(draw, width):
    image = QImage(80, 48, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    with QPainter(image) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor("black"), width))
        draw(painter)
    return [[image.pixelColor(x, y).lightness() for x in range(80)] for y in range(48)]


@pytest.mark.parametrize("width", [1.4, 1.8, 2])
def test_a_curve_of_lines_is_as_dark_as_a_polyline_and_lies_where_it_does(width, qapp):
    whole = painted(lambda painter: painter.drawPolyline(QPolygonF(CORNERS)), width)
    lines = painted(lambda painter: draw_curve(painter, CORNERS), width)
    ink, drawn = (sum(255 - each for row in image for each in row) for image in (whole, lines))
    assert ink > 10_000
    assert drawn == pytest.approx(ink, rel=0.03)
    off = [
        (x, y)
        for y, row in enumerate(whole)
        for x, each in enumerate(row)
        if abs(each - lines[y][x]) > 20
    ]
    assert all(
        min(abs(x - corner.x()) + abs(y - corner.y()) for corner in CORNERS) < 4 for x, y in off
    )
