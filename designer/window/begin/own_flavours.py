"""What the beer should taste of: words to be ticked, as many as one likes."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QPushButton, QWidget

from designer.translation import tr
from designer.window.parts.flow import FlowLayout
from designer.window.parts.inks import inks_for

_STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}


class Chip(QPushButton):
    """One word; arrow keys go on to the next."""

    def __init__(self, key: str, word: str, row: Flavours) -> None:
        super().__init__(word)
        self.key, self._row = key, row
        self.setObjectName("chip")
        self.setCheckable(True)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Show by a sign too that it is ticked: a colour alone tells too little."""
        super().paintEvent(event)
        if not self.isChecked():
            return
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(inks_for(self.palette()).green), 2.0))
            y = self.height() / 2.0
            tick = [QPointF(8, y), QPointF(11, y + 3), QPointF(16.5, y - 4)]
            painter.drawPolyline(QPolygonF(tick))

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._row.stop_at(self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = _STEPS.get(Qt.Key(event.key()))
        if steps is None:
            super().keyPressEvent(event)
        else:
            self._row.go(self, steps)


class Flavours(QWidget):
    """The words in a row. Tab stops at one of them, arrow keys go from word to word."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.chips: list[Chip] = []
        self._row = FlowLayout(self, across=5, down=6)
        self.setMinimumHeight(self.fontMetrics().height() + 14)  # before there are any
        self.setAccessibleName(tr("Should taste of"))

    def offer(self, flavours: Sequence[tuple[str, str]]) -> None:
        """Offer flavours, each a key and a word."""
        for key, word in flavours:
            chip = Chip(key, tr(word), self)
            chip.setAccessibleName(tr("Should taste of {flavour}", flavour=tr(word)))
            chip.toggled.connect(lambda _checked: self.changed.emit())
            self.chips.append(chip)
            self._row.addWidget(chip)
        if self.chips:
            self.stop_at(self.chips[0])

    def given(self) -> tuple[str, ...]:
        """Return the keys of what is ticked."""
        return tuple(each.key for each in self.chips if each.isChecked())

    def stop_at(self, chip: Chip) -> None:
        """Let Tab come to this one."""
        for each in self.chips:
            policy = Qt.FocusPolicy.StrongFocus if each is chip else Qt.FocusPolicy.ClickFocus
            each.setFocusPolicy(policy)

    def go(self, chip: Chip, steps: int) -> None:
        """Go from one to another."""
        at = self.chips.index(chip) + steps
        if 0 <= at < len(self.chips):
            self.chips[at].setFocus(Qt.FocusReason.OtherFocusReason)
