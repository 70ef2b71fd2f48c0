"""A text whose first words are bold, laid out by itself: rich text would cost time at each key.

Other words of the same height are painted where they are: Qt would lay out the whole column anew.
"""

from __future__ import annotations

from math import ceil

from PySide6.QtCore import QEvent, QPointF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QPainter,
    QPaintEvent,
    QTextCharFormat,
    QTextLayout,
    QTextOption,
)
from PySide6.QtWidgets import QLabel, QWidget

from designer.window.parts.inks import inks_for

USUAL_WIDTH, LEAST_WIDTH = 300, 120


class LeadLabel(QLabel):
    """Words and what they lead to, wrapped at the width there is."""

    def __init__(self, parent: QWidget | None = None, *, lead_ink: str = "") -> None:
        super().__init__(parent)
        self._lead, self._said, self._lead_ink = 0, "", lead_ink
        self._laid: dict[int, tuple[QTextLayout, float]] = {}
        self._font = QFont()
        self._tried: dict[tuple[str, int], int] = {}
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)

    def say(self, lead: str, text: str) -> None:
        """Show other words; `lead` in bold."""
        stood = self._heights()
        self._lead, self._said = len(lead), f"{lead} {text}"
        self._laid, self._tried = {}, {}
        self.setAccessibleName(self._said)
        if self._heights() != stood:
            self.setText(self._said)  # which asks for another place
        self.update()

    def text(self) -> str:
        """Return what is shown."""
        return self._said

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._laid = {}

    def _heights(self) -> tuple[int, int]:
        """Return what a layout asks for, as wide as it is and as it would like to be."""
        return self.heightForWidth(self.width()), self.heightForWidth(USUAL_WIDTH)

    def _lines(self, width: int) -> tuple[QTextLayout, float]:
        """Return the text in lines of a width, and their height together."""
        if self._font != self.font():
            self._font, self._laid = QFont(self.font()), {}
        if width not in self._laid:
            self._laid[width] = self._lay_out(float(width), self._font)
        return self._laid[width]

    def height_in(self, font: QFont, width: int) -> int:
        """Return how high it would be in another font, at a width; it stays as it is."""
        place = font.key(), width
        if place not in self._tried:
            self._tried[place] = ceil(self._lay_out(float(max(width, LEAST_WIDTH)), font)[1])
        return self._tried[place]

    def _lay_out(self, width: float, font: QFont) -> tuple[QTextLayout, float]:
        layout = QTextLayout(self._said, font)
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        layout.setTextOption(option)
        bold = QTextLayout.FormatRange()
        bold.start, bold.length = 0, self._lead
        form = QTextCharFormat()
        form.setFontWeight(QFont.Weight.Bold)
        if self._lead_ink:
            form.setForeground(QColor(getattr(inks_for(self.palette()), self._lead_ink)))
        bold.format = form
        layout.setFormats([bold])
        height = 0.0
        layout.beginLayout()
        while (line := layout.createLine()).isValid():
            line.setLineWidth(width)
            line.setPosition(QPointF(0.0, height))
            height += line.height()
        layout.endLayout()
        return layout, height

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return ceil(self._lines(max(width, LEAST_WIDTH))[1])

    def sizeHint(self) -> QSize:
        return QSize(USUAL_WIDTH, self.heightForWidth(USUAL_WIDTH))

    def minimumSizeHint(self) -> QSize:
        return QSize(LEAST_WIDTH, self.fontMetrics().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setPen(self.palette().windowText().color())
            self._lines(max(self.width(), LEAST_WIDTH))[0].draw(painter, QPointF(0.0, 0.0))
