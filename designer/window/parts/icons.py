"""Small signs painted in the colours of the moment: findings beside a line, arrows of choices."""

from __future__ import annotations

from functools import cache

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFont,
    QIcon,
    QPainter,
    QPen,
    QPixmap,
    QPolygonF,
)
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QRadioButton,
    QStyleOptionComboBox,
    QStylePainter,
    QToolTip,
    QWidget,
)

from designer.recipe.severity import Severity
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.targets import least_high

SIZE = 16
SCALE = 3


@cache
def finding_icon(severity: Severity, inks: Inks) -> QIcon:
    """Return the sign of a finding: a disc with i for a note, a triangle with ! for the rest."""
    pixmap = QPixmap(SIZE * SCALE, SIZE * SCALE)
    pixmap.setDevicePixelRatio(SCALE)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = {Severity.STOP: inks.stop, Severity.CARE: inks.brass}.get(severity, inks.ink_soft)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(ink))
    area = QRectF(1, 1, SIZE - 2, SIZE - 2)
    if severity is Severity.NOTE:
        painter.drawEllipse(area)
    else:
        corners = [QPointF(SIZE / 2, 1), QPointF(SIZE - 0.5, SIZE - 1.5), QPointF(0.5, SIZE - 1.5)]
        painter.drawPolygon(QPolygonF(corners))
        area.translate(0, 1.5)
    font = QFont()
    font.setPixelSize(11)
    font.setBold(True)
    painter.setFont(font)
    painter.setPen(QColor(inks.paper))
    painter.drawText(area, Qt.AlignmentFlag.AlignCenter, "i" if severity is Severity.NOTE else "!")
    painter.end()
    return QIcon(pixmap)


class Choice(QComboBox):
    """A combo box whose arrow is drawn in the ink of the moment.

    Where its text has no room it ends in a sign, and a tip says it whole. In its list vessels and
    kinds of ingredients are drawn beside their words.
    """

    def shown_text(self) -> str:
        """Return the text as there is room for it."""
        return self._option().currentText

    def _option(self) -> QStyleOptionComboBox:
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        from PySide6.QtWidgets import QStyle  # long to make known, and the first picture has none

        parts = QStyle.ComplexControl.CC_ComboBox, QStyle.SubControl.SC_ComboBoxEditField
        room = self.style().subControlRect(parts[0], option, parts[1], self).width()
        elided = Qt.TextElideMode.ElideRight
        option.currentText = self.fontMetrics().elidedText(option.currentText, elided, room)
        return option

    def event(self, event: QEvent) -> bool:
        is_asked = event.type() == QEvent.Type.ToolTip and not self.toolTip()
        if is_asked and self.shown_text() != self.currentText():
            at = self.mapToGlobal(QPoint(0, self.height()))
            QToolTip.showText(at, self.currentText(), self)
            return True
        return bool(super().event(event))

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        from designer.window.parts.field_menu import open_meaning_menu  # no start opens a menu

        open_meaning_menu(self, event)

    def showPopup(self) -> None:
        # No start opens a list.
        from designer.window.parts.drawn_items import draw_items

        draw_items(self)
        super().showPopup()

    def paintEvent(self, event: object) -> None:
        from PySide6.QtWidgets import QStyle  # as above

        painter, option = QStylePainter(self), self._option()
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(inks_for(self.palette()).ink_soft), 1.6))
        x, y = self.width() - 13.0, self.height() / 2.0 - 1.5
        if self.isRightToLeft():
            x = self.width() - x
        painter.drawPolyline(QPolygonF([QPointF(x - 4, y), QPointF(x, y + 4), QPointF(x + 4, y)]))
        painter.end()


class Tick(QCheckBox):
    """A check box drawn in the inks of the moment, so that it stands out on dark ground too."""

    def sizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        width = metrics.horizontalAdvance(self.text()) + SIZE + 17
        return QSize(width, least_high(max(metrics.height(), SIZE) + 6))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def hitButton(self, place: QPoint) -> bool:
        return self.rect().contains(place)

    def paintEvent(self, event: object) -> None:
        painter = QPainter(self)
        inks = inks_for(self.palette())
        place = QPointF(4.5, (self.height() - SIZE) / 2.0 + 0.5)
        draw_tick(painter, place, inks, ticked=self.isChecked())
        _draw_ring(painter, self, inks)
        painter.setPen(QColor(inks.ink if self.isEnabled() else inks.line_strong))
        text = QRectF(SIZE + 11.0, 0.0, self.width() - SIZE - 13.0, float(self.height()))
        painter.drawText(text, int(Qt.AlignmentFlag.AlignVCenter), self.text())
        painter.end()


class Mark(QRadioButton):
    """One of several to choose, drawn in the inks of the moment as a tick is."""

    def sizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        width = metrics.horizontalAdvance(self.text()) + SIZE + 17
        return QSize(width, least_high(max(metrics.height(), SIZE) + 6))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def hitButton(self, place: QPoint) -> bool:
        return self.rect().contains(place)

    def paintEvent(self, event: object) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks = inks_for(self.palette())
        ring = QRectF(4.5, (self.height() - SIZE) / 2.0 + 0.5, SIZE - 1, SIZE - 1)
        _draw_ring(painter, self, inks)
        edge = inks.green if self.isChecked() else inks.line_strong
        painter.setPen(QPen(QColor(edge), 1.3))
        painter.setBrush(QColor(inks.paper))
        painter.drawEllipse(ring)
        if self.isChecked():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(inks.green))
            painter.drawEllipse(ring.adjusted(3.5, 3.5, -3.5, -3.5))
        painter.setPen(QColor(inks.ink if self.isEnabled() else inks.line_strong))
        text = QRectF(SIZE + 11.0, 0.0, self.width() - SIZE - 13.0, float(self.height()))
        painter.drawText(text, int(Qt.AlignmentFlag.AlignVCenter), self.text())
        painter.end()


def _draw_ring(painter: QPainter, widget: QWidget, inks: Inks) -> None:
    """Show that a widget has the keyboard, if it has: a box alone would hardly tell."""
    if widget.hasFocus():
        painter.setPen(QPen(QColor(inks.green), 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(QRectF(widget.rect()).adjusted(1, 1, -1, -1), 4, 4)


def draw_tick(painter: QPainter, place: QPointF, inks: Inks, *, ticked: bool) -> None:
    """Draw a box to be ticked, its upper left corner at `place`."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    box = QRectF(place.x(), place.y(), SIZE - 1, SIZE - 1)
    edge = inks.green if ticked else inks.line_strong
    painter.setPen(QPen(QColor(edge), 1.2))
    painter.setBrush(QColor(inks.paper))
    painter.drawRoundedRect(box, 3, 3)
    if ticked:
        painter.setPen(QPen(QColor(inks.green), 2.2))
        x, y = box.left(), box.top()
        check = [QPointF(x + 3, y + 8), QPointF(x + 6.5, y + 11.5), QPointF(x + 12, y + 3.5)]
        painter.drawPolyline(QPolygonF(check))
