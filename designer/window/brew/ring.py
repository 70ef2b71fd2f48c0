"""The boil as a ring: what is left of it, and letters where additions go in.

The ring runs clockwise to the top, where the boil ends. A tick repaints the figures that changed,
and the ring itself only when its hand has moved by a pixel.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, cos, hypot, pi, radians, sin, sqrt
from typing import NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QMenu, QSizePolicy, QWidget

from designer.translation import tr
from designer.window.brew.clock_figure import ClockFigure
from designer.window.brew.mark_ring import draw_mark
from designer.window.brew.ring_words import RingWords, boil_name, words_of
from designer.window.parts.direction import keep_direction
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.sized_text import SizedText, grown
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.timers import TimerState

USUAL_PX, LEAST_PX = 204.0, 132.0
BAND, MARK = 0.06, 0.13
"""Width of the ring and size of a letter, in diameters."""
SMALLEST_MARK_PX = 22.0
TICKS = 12
_ALIGN = Qt.AlignmentFlag.AlignHCenter


class RingMark(NamedTuple):
    """What is done with so many minutes left: its letter or number, and whether it is."""

    mark: str
    left_min: float
    done: bool = False
    name: str = ""


class BoilRing(QAbstractButton):
    """The boil, to be read from two metres; a tap or a key opens what can be done about it."""

    begun = Signal()
    paused = Signal()
    resumed = Signal()
    added = Signal(float)
    heard = Signal()
    boiled_at_wanted = Signal()
    left_wanted = Signal()
    time_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._timer: TimerState | None = None
        self._marks: tuple[RingMark, ...] = ()
        self._minutes, self._boil = 0.0, 0
        self._share: float | None = None
        self.words = RingWords()
        self.above = SizedText(ink="ink_soft", align=_ALIGN, parent=self)
        self.time = ClockFigure(44, align=_ALIGN, parent=self)
        self.below = SizedText(ink="ink_soft", align=_ALIGN, parent=self)
        for each in (self.above, self.time, self.below):
            each.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.menu = QMenu(self)
        self.menu.setObjectName("largeMenu")
        self.clicked.connect(self.open_menu)
        keep_direction(self)

    # what it shows

    def show_boil(
        self,
        timer: TimerState | None,
        marks: Sequence[RingMark],
        now: Instant,
        *,
        minutes: float = 60.0,
        boil: int = 0,
    ) -> None:
        """Show a boil, or the one to come of so many `minutes`; `boil` is its number of several."""
        shown = (timer, tuple(marks), minutes, boil)
        if shown != (self._timer, self._marks, self._minutes, self._boil):
            self._timer, self._marks, self._minutes, self._boil = shown
            self._share = None
        self.show_time(now)

    def show_time(self, now: Instant) -> None:
        """Show what is left by now."""
        words = words_of(self._timer, now, self._minutes, self._boil)
        if words._replace(time="") != self.words._replace(time=""):
            self.above.say(words.above, ink=words.ink_above)
            self.below.say(words.below)
            self.setAccessibleName(words.said)
            self.setAccessibleDescription(self._marks_in_words())
            self._arrange()
        self.words = words
        self.time.show_time(words.time, ink=words.ink)
        share = self._share_left(now)
        moved = self._share is None or abs(share - self._share) * pi * self._diameter() > 1.0
        if moved:
            self._share = share
            self.update()

    def name_in_words(self) -> str:
        """Return which boil it is."""
        return boil_name(self._boil)

    def _share_left(self, now: Instant) -> float:
        timer = self._timer
        if timer is None:
            return 1.0
        if timer.doubtful(now) or timer.ended or timer.length_s <= 0:
            return 0.0
        return min(max(timer.left_s(now) / timer.length_s, 0.0), 1.0)

    def _marks_in_words(self) -> str:
        ahead = [each for each in self._marks if not each.done]
        return ", ".join(
            tr(
                "{mark}: {name} at {minutes:g} min left",
                mark=e.mark,
                name=e.name,
                minutes=e.left_min,
            )
            for e in ahead
        )

    # what can be done about it

    def open_menu(self) -> None:
        """Offer what can be done about the boil as it stands."""
        self.fill_menu()
        corner = self.menu.sizeHint()
        centre = self.rect().center()
        place = QPointF(centre.x() - corner.width() / 2, centre.y() - corner.height() / 2)
        self.menu.popup(self.mapToGlobal(place.toPoint()))

    def fill_menu(self) -> None:
        """Put into the menu what can be done as the boil stands."""
        self.menu.clear()
        offers = {
            "ahead": ((tr("It boils"), self.begun), (tr("It boiled at …"), self.boiled_at_wanted)),
            "runs": (
                (tr("Burner off: stop the clock"), self.paused),
                (tr("It boiled at …"), self.boiled_at_wanted),
                (tr("1 min longer"), 1.0),
                (tr("1 min shorter"), -1.0),
            ),
            "stands": (
                (tr("It boils again: go on"), self.resumed),
                (tr("It boiled at …"), self.boiled_at_wanted),
            ),
            "over": ((tr("Burner is off"), self.heard), (tr("1 min longer"), 1.0)),
            "heard": ((tr("1 min longer"), 1.0),),
            "ended": ((tr("It boils again: go on"), self.resumed),),
            "doubtful": (
                (tr("What is left of it …"), self.left_wanted),
                (tr("What time is it …"), self.time_wanted),
            ),
        }
        for text, what in offers[self.words.state]:
            action = self.menu.addAction(text)
            if isinstance(what, float):
                action.triggered.connect(lambda _c=False, by=what: self.added.emit(by))
            else:
                action.triggered.connect(lambda _c=False, told=what: told.emit())

    # room

    def sizeHint(self) -> QSize:
        side = ceil(grown(self, USUAL_PX))
        return QSize(side, side)

    def minimumSizeHint(self) -> QSize:
        side = ceil(grown(self, LEAST_PX))
        return QSize(side, side)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._arrange()

    def _mark_size(self) -> float:
        return max(MARK * min(self.width(), self.height()), grown(self, SMALLEST_MARK_PX))

    def _diameter(self) -> float:
        """Of the middle of the band; letters lie upon it, with a pixel beside them."""
        return min(self.width(), self.height()) - self._mark_size() - 2.0

    def _inside(self, height: float) -> float:
        """How wide the inside of the ring is, so far above or below its middle."""
        radius = self._diameter() * (0.5 - BAND) - self._mark_size() * 0.25
        return 2.0 * sqrt(max(radius**2 - height**2, 0.0))

    def _arrange(self) -> None:
        """Put the words into the middle, each as large as it has room there."""
        side = self._diameter()
        centre = QPointF(self.width() / 2, self.height() / 2)
        high = 0.24 * side
        wide = self._inside(high / 2)
        self.time.setGeometry(
            QRectF(centre.x() - wide / 2, centre.y() - high / 2, wide, high).toAlignedRect()
        )
        for text, way in ((self.above, -1), (self.below, 1)):
            room = self._inside(high / 2 + 0.16 * side)
            pixels = grown(self, 13.0)
            while text.wanted_width(pixels) > room and pixels > 8:
                pixels -= 0.5
            text.set_pixels(pixels)
            line = text.wanted_height(room, pixels)
            middle = centre.y() + way * (high / 2 + line / 2 + 0.01 * side)
            text.setGeometry(
                QRectF(centre.x() - room / 2, middle - line / 2, room, line).toAlignedRect()
            )

    def is_whole(self) -> bool:
        """Whether all words have room."""
        return self.above.is_whole() and self.below.is_whole() and self.time.is_whole()

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            inks = inks_for(self.palette())
            self._paint_band(painter, inks)
            self._paint_ticks(painter, inks)
            self._paint_hand(painter, inks)
            self._paint_marks(painter, inks)
            if self.hasFocus():
                painter.setPen(QPen(QColor(inks.green), 2))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)

    def _at(self, share: float, radius: float) -> QPointF:
        """The point where so much of the boil is left, so far from the middle."""
        angle = radians(360.0 * share)
        centre = QPointF(self.width() / 2, self.height() / 2)
        return centre - QPointF(sin(angle) * radius, cos(angle) * radius)

    def _paint_band(self, painter: QPainter, inks: Inks) -> None:
        radius, width = self._diameter() / 2, BAND * self._diameter()
        centre = QPointF(self.width() / 2, self.height() / 2)
        area = QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        flat = Qt.PenCapStyle.FlatCap
        painter.setPen(QPen(QColor(inks.strip), width, Qt.PenStyle.SolidLine, flat))
        painter.drawEllipse(area)
        ink = QColor(inks.brass if self.words.state == "stands" else inks.green)
        pen = QPen(ink, width, Qt.PenStyle.SolidLine, flat)
        if self.words.state == "stands":
            pen.setDashPattern([0.6, 0.35])
        painter.setPen(pen)
        if self.words.state not in ("ahead", "doubtful"):
            painter.drawArc(area, 90 * 16, round(360 * 16 * (self._share or 0.0)))

    def _paint_ticks(self, painter: QPainter, inks: Inks) -> None:
        outer = self._diameter() * (0.5 - BAND)
        painter.setPen(QPen(QColor(inks.line_strong), 1.4))
        for number in range(TICKS):
            length = 0.03 if number % 3 == 0 else 0.015
            share = number / TICKS
            inner = outer - length * self._diameter()
            painter.drawLine(self._at(share, outer), self._at(share, inner))

    def _paint_hand(self, painter: QPainter, inks: Inks) -> None:
        if self.words.state not in ("runs", "stands"):
            return
        middle, reach = self._diameter() / 2, 0.055 * self._diameter()
        share = self._share or 0.0
        pen = QPen(QColor(inks.ink), max(0.016 * self._diameter(), 2.5))
        painter.setPen(pen)
        painter.drawLine(self._at(share, middle - reach), self._at(share, middle + reach))

    def _paint_marks(self, painter: QPainter, inks: Inks) -> None:
        size = self._mark_size()
        for mark, place in self.mark_places():
            area = QRectF(place.x() - size / 2, place.y() - size / 2, size, size)
            draw_mark(painter, area, mark.mark, self.font(), inks, done=mark.done)

    def mark_places(self) -> list[tuple[RingMark, QPointF]]:
        """Return where the letters stand; those of one minute beside each other."""
        length = self._timer.length_s / 60.0 if self._timer is not None else self._minutes
        if length <= 0:
            return []
        late = sorted((e for e in self._marks if e.left_min <= length / 2), key=_left)
        early = sorted((e for e in self._marks if e.left_min > length / 2), key=_left)
        placed: list[tuple[RingMark, QPointF]] = []
        for marks, way in ((late, 1), (reversed(early), -1)):
            for mark in marks:
                share = min(mark.left_min / length, 1.0)
                placed.append((mark, self._free_place(share, way, [place for _, place in placed])))
        return placed

    def _free_place(self, share: float, way: int, taken: list[QPointF]) -> QPointF:
        """Return the place of a letter, pushed along the ring until it lies on no other."""
        step = way * (self._mark_size() + 1.0) / (2 * pi * max(self._diameter(), 1.0))
        for _ in range(2 * TICKS):
            place = self._at(share, self._diameter() / 2)
            if not any(self._overlaps(place, other) for other in taken):
                break
            share += step
        return place

    def _overlaps(self, one: QPointF, other: QPointF) -> bool:
        between = one - other
        return hypot(between.x(), between.y()) < self._mark_size()


def _left(mark: RingMark) -> float:
    return mark.left_min
