"""Pictures that leave the window: to the clipboard, as PNG or as SVG.

What is drawn is a widget of its own, never the one on the screen: without pointer and keyboard in
it, of one size whatever the window's is, and in light inks on paper unless others are asked for.
In an SVG, words are words: they can be searched, copied and read aloud.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import (
    QBuffer,
    QByteArray,
    QIODevice,
    QMimeData,
    QPoint,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import (
    QColor,
    QFontInfo,
    QFontMetricsF,
    QGuiApplication,
    QImage,
    QImageWriter,
    QPaintDevice,
    QPainter,
    QRegion,
)
from PySide6.QtWidgets import QApplication, QWidget

from designer.translation import labelled
from designer.window.parts.inks import LIGHT, Inks
from designer.window.parts.svg_texts import with_widths
from designer.window.parts.theme import palette_of, style_sheet

PNG, SVG = ".png", ".svg"
SVG_TYPE = "image/svg+xml"
FINE = 2
"""Pixels of a PNG for each of the window's."""
DPI = 96
MARGIN, GAP = 20, 8
LARGER = 1.25
"""Size of the name, as a share of the window's type."""


class Picture(NamedTuple):
    """What can be copied or saved: `drawn` makes the widget, `about` is the recipe's name.

    `title` and `note` stand above it at its left and right; `words` tell what is seen on it.
    """

    about: str
    title: str
    note: str
    size: QSize
    drawn: Callable[[], QWidget]
    words: str


def written(picture: Picture, ending: str, inks: Inks = LIGHT) -> bytes:
    """Return a picture as the bytes of a file with that ending, `PNG` or `SVG`."""
    return _svg(picture, inks) if ending == SVG else _png(picture, inks)


def to_clipboard(picture: Picture, inks: Inks = LIGHT) -> None:
    """Put a picture on the clipboard, as pixels and as a drawing."""
    data = QMimeData()
    data.setImageData(_pixels(picture, inks))
    data.setData(SVG_TYPE, QByteArray(_svg(picture, inks)))
    QGuiApplication.clipboard().setMimeData(data)


def _png(picture: Picture, inks: Inks) -> bytes:
    made = QByteArray()
    buffer = QBuffer(made)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(_pixels(picture, inks))
    return bytes(made.data())


def _pixels(picture: Picture, inks: Inks) -> QImage:
    page = _Page(picture, inks)
    image = QImage(page.size * FINE, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(FINE)
    page.paint(image)
    metre = round(FINE * DPI / 0.0254)  # not before: type is measured in points of it
    image.setDotsPerMeterX(metre)
    image.setDotsPerMeterY(metre)
    return image


def _svg(picture: Picture, inks: Inks) -> bytes:
    # Writes drawings; few ask for one.
    from PySide6.QtSvg import QSvgGenerator

    page = _Page(picture, inks)
    made = QByteArray()
    buffer = QBuffer(made)
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setSize(page.size)
    generator.setViewBox(QRect(QPoint(), page.size))
    generator.setResolution(DPI)
    generator.setTitle(labelled(picture.about, picture.title))
    generator.setDescription(picture.words)
    page.paint(generator)
    return with_widths(bytes(made.data()).decode("utf-8")).encode("utf-8")


class _Page:
    """Paper with the name of the recipe, what is shown, and the drawing below."""

    def __init__(self, picture: Picture, inks: Inks) -> None:
        self._picture, self._inks = picture, inks
        self._font, self._large = QApplication.font(), QApplication.font()
        pixels = QFontInfo(self._font).pixelSize()
        self._font.setPixelSize(pixels)
        self._large.setPixelSize(round(LARGER * pixels))
        self._large.setBold(True)
        self._lines = [QFontMetricsF(each).height() for each in (self._large, self._font)]
        self._top = round(MARGIN + sum(self._lines) + GAP)
        around = QSize(2 * MARGIN, self._top + MARGIN)
        self.size = picture.size + around

    def paint(self, device: QPaintDevice) -> None:
        """Paint all of it on an image, or into the writer of a drawing."""
        with QPainter(device) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(QRect(QPoint(), self.size), QColor(self._inks.paper))
            self._write(painter)
            self._draw(painter)

    def _write(self, painter: QPainter) -> None:
        picture, inks, wide = self._picture, self._inks, self._picture.size.width()
        first = QRectF(MARGIN, MARGIN, wide, self._lines[0])
        second = QRectF(MARGIN, first.bottom(), wide, self._lines[1])
        middle = Qt.AlignmentFlag.AlignVCenter
        for text, font, ink, place, side in (
            (picture.about, self._large, inks.ink, first, Qt.AlignmentFlag.AlignLeft),
            (picture.title, self._font, inks.heading, second, Qt.AlignmentFlag.AlignLeft),
            (picture.note, self._font, inks.ink_soft, second, Qt.AlignmentFlag.AlignRight),
        ):
            shown = QFontMetricsF(font).elidedText(text, Qt.TextElideMode.ElideRight, wide)
            painter.setFont(font)
            painter.setPen(QColor(ink))
            painter.drawText(place, middle | side, shown)

    def _draw(self, painter: QPainter) -> None:
        drawn = self._picture.drawn()
        drawn.setStyleSheet(style_sheet(self._inks))  # the window's own may be of other inks
        for each in (drawn, *drawn.findChildren(QWidget)):
            each.setPalette(palette_of(self._inks))
        drawn.resize(self._picture.size)
        flags = QWidget.RenderFlag.DrawChildren
        drawn.render(painter, QPoint(MARGIN, self._top), QRegion(), flags)
        drawn.deleteLater()
