"""What is due, in words and in a colour that flashes: it lies over the foot of the page, one line.

It flashes three times, once a second, and stays until it is confirmed; nothing on the page moves
for it.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from designer.translation import tr, trn
from designer.window.brew.large_button import LargeButton
from designer.window.parts.inks import inks_for
from designer.workbench.brew.announcements import Announcement, When

MOST = 2
FLASHES, FLASH_MS = 3, 500


class FlashRow(QWidget):
    """One thing that is due, and the button that confirms it."""

    def __init__(self, bar: FlashBar) -> None:
        super().__init__()
        self._bar = bar
        self.due: Announcement | None = None
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        font = self.words.font()
        font.setPointSizeF(1.2 * font.pointSizeF())
        font.setBold(True)
        self.words.setFont(font)
        self.button = LargeButton("", "", self._confirm)
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 2, 8, 2)
        row.addWidget(self.words, 1)
        row.addWidget(self.button)

    def show_due(self, due: Announcement) -> None:
        """Show what is due."""
        self.due = due
        words = due.words.text
        if words != self.words.text():
            self.words.setText(words)
        said = tr("Done") if due.addition else tr("Heard")
        if due.when is When.ASK:
            said = tr("Tell…")
        if due.brew:
            said = tr("Show it")
        if self.button.text() != said:
            self.button.setText(said)
        self.button.setVisible(due.when is not When.SOON)
        self.button.setAccessibleName(tr("{button}: {what}", button=said, what=words))

    def _confirm(self) -> None:
        if self.due is not None:
            self._bar.confirmed.emit(self.due)


class FlashBar(QWidget):
    """Lies over the foot of a page while something is due; `confirmed` carries what was pressed."""

    confirmed = Signal(object)

    def __init__(self, page: QWidget) -> None:
        super().__init__(page)
        self._page = page
        self._flashes = 0
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.rows = [FlashRow(self) for _ in range(MOST)]
        self.more = QLabel()
        self.more.setObjectName("soft")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 6, 8, 2)
        layout.setSpacing(0)
        for each in self.rows:
            layout.addWidget(each, 1)
        layout.addWidget(self.more)
        self._timer = QTimer(self, interval=FLASH_MS)
        self._timer.timeout.connect(self._flash)
        page.installEventFilter(self)
        self.hide()

    def show_due(self, due: Sequence[Announcement]) -> None:
        """Show all that is due, or nothing."""
        before = self._count()
        for row, each in zip(self.rows, due, strict=False):
            row.show_due(each)
        for number, row in enumerate(self.rows):
            row.setVisible(number < len(due))
        more = len(due) - MOST
        self.more.setText(trn("and {number} more", "and {number} more", more) if more > 0 else "")
        self.more.setVisible(more > 0)
        self.setVisible(bool(due))
        if not due:
            self._stop()
            self._dress()
        elif self._count() != before or self.height() < self.sizeHint().height():
            self._place()

    def _count(self) -> int:
        return sum(not each.isHidden() for each in self.rows)

    def flash(self, _due: object = None) -> None:
        """Flash, to be seen from the other end of the kitchen."""
        self._flashes = 2 * FLASHES - 1
        self._timer.start()
        self._dress()

    @property
    def is_lit(self) -> bool:
        """Whether it is in the loud one of its two colours."""
        return self._flashes % 2 == 1

    def _flash(self) -> None:
        self._flashes -= 1
        if self._flashes <= 0:
            self._stop()
        self._dress()

    def _stop(self) -> None:
        self._flashes = 0
        self._timer.stop()

    def _place(self) -> None:
        width = self._page.width()
        layout = self.layout()
        assert layout is not None
        height = layout.heightForWidth(width) if layout.hasHeightForWidth() else 0
        height = max(height, layout.minimumSize().height())
        self.setGeometry(0, self._page.height() - height, width, height)
        self.raise_()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and not self.isHidden():
            self._place()
        return False

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            inks = inks_for(self.palette())
            ground = inks.brass if self.is_lit else inks.care_band
            painter.fillRect(self.rect().adjusted(-1, -1, 1, 1), QColor(ground))
            painter.fillRect(0, 0, self.width(), 4, QColor(inks.brass))

    def _dress(self) -> None:
        """Write in the ink that goes with the ground."""
        inks = inks_for(self.palette())
        ink = QColor(inks.paper if self.is_lit else inks.ink)
        for each in self.rows:
            palette = each.words.palette()
            palette.setColor(each.words.foregroundRole(), ink)
            each.words.setPalette(palette)
        self.update()
