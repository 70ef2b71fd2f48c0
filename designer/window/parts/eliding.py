"""Words that are shortened where room is short, and never cut; pointed at, they are said whole.

Where they surely fit, Qt's style is not asked: that it is made known to Python takes 5 ms of the
start.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QSize, Qt
from PySide6.QtGui import QHelpEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QLabel,
    QPushButton,
    QSizePolicy,
    QStyleOptionButton,
    QStyleOptionFrame,
    QToolTip,
    QWidget,
)

from designer.window.parts.fields import TextField
from designer.window.parts.plain_text import tip

LEAST = 3 * "m"
"""So much is seen in any case."""
SURELY_AROUND = 40
"""Pixels; frame and free room on both sides of a field's text are less."""
BESIDE_TEXT = 2
"""Pixels that Qt leaves free on both sides of the text of a field."""
_RIGHT = Qt.TextElideMode.ElideRight
_MIDDLE = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


def _least_width(widget: QWidget, text: str, whole: QSize) -> QSize:
    """Return how narrow a widget may be that is as large as `whole` with all of its text."""
    metrics = widget.fontMetrics()
    around = whole.width() - metrics.horizontalAdvance(text)
    return QSize(min(whole.width(), metrics.horizontalAdvance(LEAST) + around), whole.height())


def _say_whole(widget: QWidget, event: QHelpEvent, text: str) -> None:
    """Show a text that is not seen whole, and below it the tip that is shown otherwise."""
    said = [tip(text), *filter(None, [widget.toolTip()])]
    QToolTip.showText(event.globalPos(), "\n".join(said), widget)


class ElidedButton(QPushButton):
    """A button that may be narrower than its words."""

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self._whole_width = 0

    def sizeHint(self) -> QSize:
        whole = super().sizeHint()
        self._whole_width = whole.width()
        return whole

    def minimumSizeHint(self) -> QSize:
        return _least_width(self, self.text(), self.sizeHint())

    def shown_text(self) -> str:
        """Return what is seen of the words."""
        option = QStyleOptionButton()
        self.initStyleOption(option)
        return option.text

    def initStyleOption(self, option: QStyleOptionButton) -> None:
        """Shorten the words to the room they have."""
        super().initStyleOption(option)
        if self.width() >= self._whole_width or not self.isVisible():
            return  # before it is seen it is asked too, for its size, and has no room yet
        from PySide6.QtWidgets import QStyle

        contents = QStyle.SubElement.SE_PushButtonContents
        room = self.style().subElementRect(contents, option, self).width()
        option.text = self.fontMetrics().elidedText(
            self.text(), _RIGHT, room, int(Qt.TextFlag.TextShowMnemonic)
        )

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and self.shown_text() != self.text():
            _say_whole(self, event, self.text())
            return True
        return super().event(event)


class ElidedLabel(QLabel):
    """A line of plain text that may be narrower than its words; `side` is where they give way."""

    side = _RIGHT

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setTextFormat(Qt.TextFormat.PlainText)

    def minimumSizeHint(self) -> QSize:
        return _least_width(self, self.text(), self.sizeHint())

    def shown_text(self) -> str:
        """Return what is seen of the words."""
        return self.fontMetrics().elidedText(self.text(), self.side, self.contentsRect().width())

    def paintEvent(self, event: QPaintEvent) -> None:
        shown = self.shown_text()
        if shown == self.text():
            super().paintEvent(event)
            return
        with QPainter(self) as painter:
            painter.setPen(self.palette().color(self.foregroundRole()))
            painter.drawText(self.contentsRect(), self.alignment(), shown)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and self.shown_text() != self.text():
            _say_whole(self, event, self.text())
            return True
        return super().event(event)


class ShortenedLabel(ElidedLabel):
    """A line that says the same in fewer words where it has no room for all of them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self._shorter = ""

    def say(self, text: str, shorter: str) -> None:
        """Say this, or where that has no room what is shorter; pointed at, always all of it."""
        self._shorter = shorter
        self.setText(text)

    def least_px(self, *, whole: bool) -> int:
        """Return how wide the words are, all of them or the fewer; a hint may be wider."""
        text = self.text() if whole else self._shorter
        return self.fontMetrics().horizontalAdvance(text) + 1

    def shown_text(self) -> str:
        """Return what is seen of the words."""
        metrics, room = self.fontMetrics(), self.contentsRect().width()
        if metrics.horizontalAdvance(self.text()) <= room:
            return self.text()
        return metrics.elidedText(self._shorter, self.side, room)


class ElidedField(TextField):
    """A field that is not typed in shows by … that its text is longer than it."""

    def shown_text(self) -> str:
        """Return what is seen of the text."""
        if self.hasFocus() or self.property("refused"):
            return self.text()
        metrics = self.fontMetrics()
        if metrics.horizontalAdvance(self.text()) + SURELY_AROUND <= self.width():
            return self.text()
        return metrics.elidedText(self.text(), _RIGHT, self._room().width())

    def _room(self) -> QRect:
        from PySide6.QtWidgets import QStyle

        option = QStyleOptionFrame()
        self.initStyleOption(option)
        contents = QStyle.SubElement.SE_LineEditContents
        room = self.style().subElementRect(contents, option, self)
        return room.adjusted(BESIDE_TEXT, 0, -BESIDE_TEXT, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        shown = self.shown_text()
        if shown == self.text():
            super().paintEvent(event)
            return
        from PySide6.QtWidgets import QStyle

        option = QStyleOptionFrame()
        self.initStyleOption(option)
        with QPainter(self) as painter:
            panel = QStyle.PrimitiveElement.PE_PanelLineEdit
            self.style().drawPrimitive(panel, option, painter, self)
            painter.setPen(self.palette().color(QPalette.ColorRole.Text))
            painter.drawText(self._room(), _MIDDLE, shown)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and self.shown_text() != self.text():
            _say_whole(self, event, self.text())
            return True
        return super().event(event)
