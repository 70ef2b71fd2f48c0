"""Text in the size that it is given, or the largest that fits; none of it is ever cut.

What ticks asks for no new layout: another text is only painted, in the size that one with other
figures of the same length would have.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontInfo, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.window.parts.inks import inks_for

USUAL_PX = 12.0
"""The pixels of the usual type that sizes here are told for; with a larger one they grow."""
STEP = 0.92
"""From one size to the next smaller one."""
SUFFIX, GAP = 0.36, 0.12
"""Size of a suffix and room before it, in sizes of the text."""
_FIGURE = re.compile(r"\d")


def grown(widget: QWidget, pixels: float) -> float:
    """Return a size told for the usual type, as it is in the type of a widget."""
    return grown_in(type_pixels(widget), pixels)


def type_pixels(widget: QWidget) -> float:
    """Return how large the type of a widget is, in pixels."""
    return QFontInfo(widget.font()).pixelSize()


def grown_in(type_px: float, pixels: float) -> float:
    """Return a size told for the usual type, as it is in a type that is so large."""
    return pixels * type_px / USUAL_PX


def whole_pixels(pixels: float) -> int:
    """Return the size that type of so many pixels is set in."""
    return max(round(pixels), 1)


def sized(font: QFont, pixels: float, *, bold: bool = False) -> QFont:
    """Return the font in another size, with figures that all are as wide."""
    found = QFont(font)
    found.setPixelSize(whole_pixels(pixels))
    found.setBold(bold)
    return found


def smaller(font: QFont, share: float = 0.92) -> QFont:
    """Return a font somewhat smaller."""
    made = QFont(font)
    made.setPointSizeF(share * font.pointSizeF())
    return made


def steps_down(largest: float, smallest: float) -> list[float]:
    """Return sizes from the largest to the smallest, each a step below the one before."""
    sizes = [largest]
    while sizes[-1] * STEP > smallest:
        sizes.append(sizes[-1] * STEP)
    return [*sizes, smallest] if smallest < largest else sizes


def width_of(font: QFont, text: str) -> float:
    """Return how wide a text is, its figures taken to be the widest ones."""
    return QFontMetricsF(font).horizontalAdvance(_FIGURE.sub("0", text))


def height_of(font: QFont, text: str, width: float) -> float:
    """Return how high a text is that is broken into lines of a width."""
    flags = int(Qt.TextFlag.TextWordWrap)
    return QFontMetricsF(font).boundingRect(QRectF(0, 0, width, 1e6), flags, text).height()


def longest_word(font: QFont, text: str) -> float:
    """Return how wide the longest word of a text is."""
    metrics = QFontMetricsF(font)
    return max((metrics.horizontalAdvance(word) for word in text.split()), default=0.0)


class SizedText(QWidget):
    """A text in one colour; its size in pixels is set by whoever lays it out.

    `ink` names one of the inks. With `wraps` it is broken into lines. `suffix` follows the text in
    a smaller size.
    """

    def __init__(
        self,
        *,
        ink: str = "ink",
        bold: bool = False,
        wraps: bool = False,
        align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._text = self._suffix = ""
        self._ink, self._bold, self._wraps, self._align = ink, bold, wraps, align
        self._pixels = USUAL_PX
        self._widths: dict[tuple[str, int], float] = {}
        self._heights: dict[tuple[int, float], float] = {}
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def text(self) -> str:
        """Return what is written."""
        return self._text if not self._suffix else f"{self._text} {self._suffix}"

    def say(self, text: str, *, suffix: str = "", ink: str = "") -> None:
        """Write something else; no room is asked for it."""
        ink = ink or self._ink
        if (text, suffix, ink) != (self._text, self._suffix, self._ink):
            self._text, self._suffix, self._ink = text, suffix, ink
            self._forget()
            self.setAccessibleName(self.text())
            self.update()

    def set_pixels(self, pixels: float) -> None:
        """Take another size."""
        if pixels != self._pixels:
            self._pixels = pixels
            self.update()

    @property
    def pixels(self) -> float:
        """The size of the type."""
        return self._pixels

    def as_painted(self) -> QFont:
        """Return the font that it is painted in."""
        return sized(self.font(), self._pixels, bold=self._bold)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._forget()

    def _forget(self) -> None:
        """Measure anew: while a size is sought the same few whole pixels are asked for often."""
        self._widths, self._heights = {}, {}

    def wanted_height(self, width: float, pixels: float) -> float:
        """Return how high the text is in a size, at a width."""
        place = whole_pixels(pixels), width
        found = self._heights.get(place)
        if found is None:
            found = self._heights[place] = self._height_of(width, pixels)
        return found

    def _height_of(self, width: float, pixels: float) -> float:
        font = sized(self.font(), pixels, bold=self._bold)
        if self._wraps:
            return height_of(font, self._text, width) if self._text else 0.0
        return QFontMetricsF(font).height()

    def wanted_width(self, pixels: float) -> float:
        """Return how wide the text is in a size, on one line."""
        wide = self._width_of(self._text, pixels)
        if not self._suffix:
            return wide
        return wide + GAP * pixels + self._width_of(self._suffix, SUFFIX * pixels)

    def _width_of(self, text: str, pixels: float) -> float:
        place = text, whole_pixels(pixels)
        found = self._widths.get(place)
        if found is None:
            font = sized(self.font(), pixels, bold=self._bold)
            found = self._widths[place] = width_of(font, text)
        return found

    def is_whole(self) -> bool:
        """Whether all of it has room."""
        font = self.as_painted()
        if not self._wraps:
            return self.wanted_width(self._pixels) <= self.width() + 1
        fits = height_of(font, self._text, self.width()) <= self.height() + 1
        return fits and longest_word(font, self._text) <= self.width() + 1

    def sizeHint(self) -> QSize:
        return QSize(40, round(self.wanted_height(max(self.width(), 40), self._pixels)))

    def minimumSizeHint(self) -> QSize:
        return QSize(0, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self._text:
            return
        with QPainter(self) as painter:
            painter.setPen(QColor(getattr(inks_for(self.palette()), self._ink)))
            painter.setFont(self.as_painted())
            if self._wraps:
                flags = int(Qt.TextFlag.TextWordWrap) | int(self._align)
                painter.drawText(QRectF(self.rect()), flags, self._text)
            else:
                self._paint_line(painter)

    def _paint_line(self, painter: QPainter) -> None:
        """Write the text, and the suffix behind it, on one baseline."""
        metrics = QFontMetricsF(painter.font())
        small = sized(self.font(), SUFFIX * self._pixels, bold=self._bold)
        gap = GAP * self._pixels if self._suffix else 0.0
        behind = QFontMetricsF(small).horizontalAdvance(self._suffix) if self._suffix else 0.0
        wide = metrics.horizontalAdvance(self._text)
        left = 0.0
        if self._align & Qt.AlignmentFlag.AlignRight:
            left = self.width() - wide - gap - behind
        elif self._align & Qt.AlignmentFlag.AlignHCenter:
            left = (self.width() - wide - gap - behind) / 2
        base = (self.height() + metrics.capHeight()) / 2
        painter.drawText(round(left), round(base), self._text)
        if self._suffix:
            painter.setFont(small)
            painter.drawText(round(left + wide + gap), round(base), self._suffix)


def largest_fitting(
    texts: Sequence[SizedText], room: float, gap: float, largest: float, smallest: float
) -> float:
    """Return the largest size in which texts stand beside each other within a room."""
    for pixels in steps_down(largest, smallest):
        if sum(each.wanted_width(pixels) for each in texts) + gap * (len(texts) - 1) <= room:
            return pixels
    return smallest
