"""The lines of a recipe to look at: how much of what, why it is there, what is in hand.

Painted as a whole: three recipes of ten lines would be a hundred labels to be laid out anew with
every answer that is given.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.translation import parted
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.plain_text import unbroken
from designer.window.parts.sized_text import smaller

GAP, ROOM = 10, 4
"""Between columns; above and below a line."""
MOST_WIDTHS = 8
"""For so many widths it is remembered where the lines go."""
_WRAPS = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
_RIGHT = int(Qt.TextFlag.TextSingleLine | Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)


class Line(NamedTuple):
    """One line, as it is read."""

    amount: str
    name: str
    why: str = ""
    in_hand: str = ""

    @property
    def spoken(self) -> str:
        """All of it, for a screen reader."""
        return ", ".join(
            filter(None, (f"{self.amount} {self.name}".strip(), self.why, self.in_hand))
        )


class _Fonts(NamedTuple):
    """One for each part of a line."""

    amount: QFont
    name: QFont
    why: QFont
    in_hand: QFont


def _bold(font: QFont) -> QFont:
    made = QFont(font)
    made.setBold(True)
    return made


class _Place(NamedTuple):
    """Where the parts of a line go."""

    amount: QRect
    name: QRect
    why: QRect
    in_hand: QRect
    bottom: int


class WeighedLines(QWidget):
    """Amounts on the left, names and reasons beside them, what is in hand on the right."""

    def __init__(self) -> None:
        super().__init__()
        self._lines: tuple[Line, ...] = ()
        self._places: dict[int, list[_Place]] = {}
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines."""
        if tuple(lines) == self._lines:
            return
        before = self.heightForWidth(self.width())
        self._lines, self._places = tuple(lines), {}
        self.setAccessibleDescription(parted(each.spoken for each in lines))
        if self.heightForWidth(self.width()) != before:
            self.updateGeometry()
        self.update()

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is shown."""
        return self._lines

    # room

    def _fonts(self) -> _Fonts:
        small = smaller(self.font(), 0.88)
        return _Fonts(_bold(self.font()), self.font(), small, _bold(small))

    def _laid(self, width: int) -> list[_Place]:
        if width not in self._places:
            if len(self._places) > MOST_WIDTHS:
                self._places.clear()
            self._places[width] = self._lay_out(width)
        return self._places[width]

    def _lay_out(self, width: int) -> list[_Place]:
        metrics = [QFontMetrics(each) for each in self._fonts()]
        amounts = max(
            (metrics[0].horizontalAdvance(each.amount) for each in self._lines), default=0
        )
        places: list[_Place] = []
        top = 0
        for line in self._lines:
            places.append(self._place(line, top, width, amounts, metrics))
            top = places[-1].bottom
        return places

    @staticmethod
    def _place(
        line: Line, top: int, width: int, amounts: int, metrics: Sequence[QFontMetrics]
    ) -> _Place:
        bold, plain, small, small_bold = metrics
        left, y = amounts + GAP, top + ROOM
        room = max(width - left, 40)
        hand = small_bold.horizontalAdvance(line.in_hand) if line.in_hand else 0
        beside = bool(hand) and plain.horizontalAdvance(line.name) + GAP + hand <= room
        name = plain.boundingRect(QRect(left, y, room, 10_000), _WRAPS, unbroken(line.name))
        why = QRect(left, name.bottom() + 1, room, 0)
        if line.why:
            why = small.boundingRect(QRect(left, name.bottom() + 1, room, 10_000), _WRAPS, line.why)
        bottom = why.bottom() + 1 if line.why else name.bottom() + 1
        in_hand = QRect(left, y + plain.ascent() - small.ascent(), room, small.height())
        if hand and not beside:
            fits_below = line.why and why.height() <= small.lineSpacing() + 2
            fits_below = fits_below and why.width() + GAP + hand <= room
            in_hand.moveTop(why.top() if fits_below else bottom)
            bottom = max(bottom, in_hand.bottom() + 1)
        name.setWidth(room)
        why.setWidth(room)
        amount = QRect(0, y, amounts, bold.height())
        return _Place(amount, name, why, in_hand, bottom + ROOM)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        places = self._laid(max(width, 1))
        return places[-1].bottom if places else 0

    def sizeHint(self) -> QSize:
        return QSize(260, self.heightForWidth(max(self.width(), 200)))

    def minimumSizeHint(self) -> QSize:
        return QSize(150, self.heightForWidth(max(self.width(), 150)))

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            inks, fonts = inks_for(self.palette()), self._fonts()
            for number, place in enumerate(self._laid(self.width())):
                if number:
                    painter.setPen(QPen(QColor(inks.line), 1))
                    painter.drawLine(
                        0, place.amount.top() - ROOM, self.width(), place.amount.top() - ROOM
                    )
                self._paint(painter, self._lines[number], place, inks, fonts)

    def _paint(
        self, painter: QPainter, line: Line, place: _Place, inks: Inks, fonts: _Fonts
    ) -> None:
        painter.setPen(QColor(inks.ink))
        painter.setFont(fonts.amount)
        painter.drawText(place.amount, _RIGHT, line.amount)
        painter.setFont(fonts.name)
        painter.drawText(place.name, _WRAPS, unbroken(line.name))
        painter.setFont(fonts.why)
        painter.setPen(QColor(inks.ink_soft))
        painter.drawText(place.why, _WRAPS, line.why)
        if line.in_hand:
            painter.setFont(fonts.in_hand)
            painter.setPen(QColor(inks.green))
            painter.drawText(place.in_hand, _RIGHT, line.in_hand)
