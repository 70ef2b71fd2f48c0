"""The pages of the sheet on the screen, below each other, painted by the layout that prints."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QScrollArea, QWidget

from designer.translation import tr
from designer.window.parts.inks import inks_for
from designer.window.parts.scrolling import own_viewport

if TYPE_CHECKING:
    from designer.paper.pages import Pages
    from designer.paper.texts_on import PlacedText

SCREEN_DPI, UNITS_PER_INCH = 96.0, 720.0
GAP = 18


class PagesView(QWidget):
    """The pages below each other, on the ground of the window."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages: Pages | None = None
        self._scale = 1.0
        self.setAccessibleName(tr("Pages of the brew sheet"))

    def show_pages(self, pages: Pages, spoken: str) -> None:
        """Show other pages; `spoken` is their text, for a screen reader."""
        self._pages = pages
        self.setAccessibleDescription(spoken)
        self.fit(self._scale)

    def fit(self, scale: float) -> None:
        """Show the pages `scale` times their size on paper."""
        self._scale = scale
        size = self.sizeHint()
        self.setFixedSize(size)
        self.update()

    def page_width(self) -> float:
        """Return the width of a page at its own size, in pixels."""
        return self._pages.width * SCREEN_DPI / UNITS_PER_INCH if self._pages is not None else 794.0

    def _page_size(self) -> tuple[float, float]:
        assert self._pages is not None
        factor = self._scale * SCREEN_DPI / UNITS_PER_INCH
        return self._pages.width * factor, self._pages.height * factor

    def spots(self) -> list[tuple[str, QRect]]:
        """Return the texts of the pages, and where they are seen."""
        if self._pages is None:
            return []
        from designer.paper.texts_on import texts_on  # asked for by whoever finds on the page

        width, height = self._page_size()
        factor = width / self._pages.width
        return [
            (each.text, _on_screen(each, factor, height + GAP)) for each in texts_on(self._pages)
        ]

    def sizeHint(self) -> QSize:
        if self._pages is None:
            return QSize(400, 300)
        width, height = self._page_size()
        return QSize(round(width) + 2 * GAP, round((height + GAP) * len(self._pages)) + GAP)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._pages is not None:
            with QPainter(self) as painter:
                self._paint(painter, self._pages, QRectF(event.rect()))

    def _paint(self, painter: QPainter, pages: Pages, asked: QRectF) -> None:
        painter.setRenderHints(
            QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing
        )
        inks = inks_for(self.palette())
        width, height = self._page_size()
        for number in range(len(pages)):
            area = QRectF(GAP, GAP + number * (height + GAP), width, height)
            if not area.intersects(asked):
                continue
            painter.fillRect(area, QColor("#ffffff"))
            pages.paint_into(painter, number, area)
            painter.setPen(QPen(QColor(inks.line_strong), 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(area)


def _on_screen(text: PlacedText, factor: float, page_height: float) -> QRect:
    """Where a text of a page is seen, with a little room around it."""
    place = text.place
    left, top = GAP + place.left() * factor, GAP + text.page * page_height + place.top() * factor
    seen = QRectF(left, top, place.width() * factor, place.height() * factor)
    return seen.adjusted(-4.0, -2.0, 4.0, 2.0).toAlignedRect()


class PagesArea(QScrollArea):
    """Scrolls over the pages; tells of more or less room, and of the wheel turned to zoom."""

    resized = Signal()
    zoomed = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("readByKeys")
        own_viewport(self)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y()
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier and turned:
            self.zoomed.emit(1 if turned > 0 else -1)
            event.accept()
            return
        super().wheelEvent(event)
