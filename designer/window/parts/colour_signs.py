"""Colours of beer and ingredients as signs in lists: bordered, and the same in a chosen row."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap

SWATCH, BAR = QSize(16, 16), QSize(8, 22)
SCALE = 3


@lru_cache(maxsize=256)
def swatch_icon(shade: str, edge: str) -> QIcon:
    """Return a square of a colour with an edge that is seen on the ground of the list."""
    return _sign(SWATCH, shade, edge, 3.0)


@lru_cache(maxsize=256)
def bar_icon(shade: str, edge: str) -> QIcon:
    """Return an upright bar of a colour, for the edge of a row."""
    return _sign(BAR, shade, edge, 3.5)


@lru_cache(maxsize=1)
def no_sign() -> QIcon:
    """Return a sign that shows nothing and keeps the room of one."""
    return _icon(_blank(SWATCH))


def _sign(size: QSize, shade: str, edge: str, rounded: float) -> QIcon:
    pixmap = _blank(size)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(edge), 1))
    painter.setBrush(QColor(shade))
    area = QRectF(0.5, 0.5, size.width() - 1.0, size.height() - 1.0)
    painter.drawRoundedRect(area, rounded, rounded)
    painter.end()
    return _icon(pixmap)


def _blank(size: QSize) -> QPixmap:
    pixmap = QPixmap(size * SCALE)
    pixmap.setDevicePixelRatio(SCALE)
    pixmap.fill(Qt.GlobalColor.transparent)
    return pixmap


def _icon(pixmap: QPixmap) -> QIcon:
    """Return an icon that Qt does not tint where its row is chosen."""
    icon = QIcon(pixmap)
    icon.addPixmap(pixmap, QIcon.Mode.Selected)
    return icon
