"""A time in large figures, of which a tick repaints only those that changed."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.window.parts.direction import keep_direction
from designer.window.parts.inks import inks_for
from designer.window.parts.sized_text import grown, sized

FIGURES = "0123456789"
LEAST_PX = 12.0
_ROOM_FOR = "00:00"


class ClockFigure(QWidget):
    """A time such as "17:42", in the largest type up to `largest` that has room.

    Each figure stands in a cell as wide as the widest one, so nothing shakes in any typeface. It
    paints its own ground, so that nothing below it is painted with a tick.
    """

    def __init__(
        self,
        largest: float,
        *,
        align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._largest, self._align = largest, align
        self._text, self._ink = "", "ink"
        self._cells: list[QRect] = []
        self._font = QFont()
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        keep_direction(self)

    def text(self) -> str:
        """Return the time that is shown."""
        return self._text

    def show_time(self, text: str, *, ink: str = "ink") -> None:
        """Show another time; only figures that are not the same are painted."""
        before = self._text
        self._text = text
        if text != before:
            self.setAccessibleName(text)
        if ink != self._ink or len(text) != len(before):
            self._ink = ink
            self._arrange()
            return
        for old, new, cell in zip(before, text, self._cells, strict=False):
            if old != new:
                self.update(cell)

    def sizeHint(self) -> QSize:
        font = self._sized(self._largest)
        metrics = QFontMetricsF(font)
        return QSize(round(self._width(_ROOM_FOR, metrics)) + 2, round(1.05 * _height(metrics)))

    def minimumSizeHint(self) -> QSize:
        return QSize(0, round(_height(QFontMetricsF(self._sized(LEAST_PX)))))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._arrange()

    def _sized(self, pixels: float) -> QFont:
        return sized(self.font(), grown(self, pixels), bold=True)

    def _width(self, text: str, metrics: QFontMetricsF) -> float:
        return sum(_advance(sign, metrics) for sign in text)

    def _arrange(self) -> None:
        """Find the type and the cell of each sign."""
        text, pixels = self._text, self._largest
        longest = text if len(text) > len(_ROOM_FOR) else _ROOM_FOR
        while True:
            self._font = self._sized(pixels)
            metrics = QFontMetricsF(self._font)
            fits = self._width(longest, metrics) <= self.width()
            if (fits and _height(metrics) <= self.height() + 1) or pixels <= LEAST_PX:
                break
            pixels = max(pixels * 0.95, LEAST_PX)
        spare = self.width() - self._width(text, metrics)
        left = 0.0
        if self._align & Qt.AlignmentFlag.AlignHCenter:
            left = spare / 2
        elif self._align & Qt.AlignmentFlag.AlignRight:
            left = spare
        self._cells = []
        for sign in text:
            right = left + _advance(sign, metrics)
            self._cells.append(QRect(round(left), 0, round(right) - round(left), self.height()))
            left = right
        self.update()

    def is_whole(self) -> bool:
        """Whether all of it has room."""
        return not self._cells or (
            self._cells[0].left() >= 0 and self._cells[-1].right() <= self.width()
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            inks = inks_for(self.palette())
            painter.fillRect(event.rect().adjusted(-1, -1, 1, 1), QColor(inks.paper))
            painter.setPen(QColor(getattr(inks, self._ink)))
            painter.setFont(self._font)
            metrics = QFontMetricsF(self._font)
            base = round((self.height() + metrics.capHeight()) / 2)
            for sign, cell in zip(self._text, self._cells, strict=True):
                if cell.intersects(event.rect()):
                    spare = cell.width() - metrics.horizontalAdvance(sign)
                    painter.drawText(QPointF(cell.left() + spare / 2, base), sign)


def _advance(sign: str, metrics: QFontMetricsF) -> float:
    if sign in FIGURES:
        return max(metrics.horizontalAdvance(each) for each in FIGURES)
    return metrics.horizontalAdvance(sign)


def _height(metrics: QFontMetricsF) -> float:
    return metrics.capHeight() * 1.25
