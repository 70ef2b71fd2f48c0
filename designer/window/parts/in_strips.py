"""Large see-through areas are painted strip by strip.

Qt's raster engine parts an area of a hundred rows and more among threads and waits for them. Where
the processors are busy that takes longer than the painting, up to a frame at a key.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QPaintEngine, QPainter

ROWS = 32
"""Of a strip; on a screen of twice the density it has 64, with which Qt does not begin to part."""


def in_strips(painter: QPainter, area: QRectF, draw: Callable[[], None]) -> None:
    """Draw what lies in an area, a strip at a time, within what is clipped already.

    A drawing is written at once: it knows no clipping, and each strip would be the whole area.
    """
    if painter.paintEngine().type() is QPaintEngine.Type.SVG:
        draw()
        return
    left, width = floor(area.left()) - 1, ceil(area.width()) + 3
    top, bottom = floor(area.top()) - 1, ceil(area.bottom()) + 1
    while top < bottom:
        painter.save()
        strip = QRect(left, top, width, min(ROWS, bottom - top))
        painter.setClipRect(strip, Qt.ClipOperation.IntersectClip)
        draw()
        painter.restore()
        top += ROWS
