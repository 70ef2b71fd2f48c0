"""Readings against the forecast: its band, what was read, today, and how warm the room was."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.brewday.fermenting.course import CoursePoint
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.fermenting.course_shown import CourseShown, ReadingShown
from designer.window.parts.beside_field import note_of, say_beside
from designer.window.parts.curve import draw_curve
from designer.window.parts.day_scale import Lettering
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks, colour, inks_for
from designer.window.parts.picture_menu import open_picture_menu
from designer.window.parts.picture_out import Picture
from designer.window.parts.sized_text import grown, sized

TYPE_PX = 11.5
RING_PX = 5.2
NEAR_PX = 22.0
"""So near to a ring a press means it: a target of 44 pixels."""
CLEAR_PX = 5.0
"""So wide a line counts where a figure is to keep clear of it."""
HIGH_PX, LEAST_PX = 236, 200
PICTURE_SIZE = QSize(860, 300)


class CourseChart(QWidget):
    """The picture. Arrow keys go from reading to reading; `reading_wanted` names the one pressed.

    What a reading says is told beside its ring.
    """

    reading_wanted = Signal(str)

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self.shown = CourseShown()
        self.at: int | None = None
        """Which reading the keyboard or the pointer is at."""
        self.of_beer: Callable[[], str] = str
        """What the beer is called, for a picture of its course."""
        self._letters = Lettering(self.font())
        self._plot = QRectF()
        self._taken: list[QRectF] = []
        """Where words of the picture stand already."""
        self.setAccessibleName(tr("Readings against the forecast"))
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        keep_direction(self)

    def show_course(self, shown: CourseShown) -> None:
        """Show how a fermentation goes."""
        if shown == self.shown:
            return
        self.shown = shown
        if self.at is not None and self.at >= len(shown.readings):
            self._go_to(None)
        can_be_read = bool(shown.readings)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if can_be_read else Qt.FocusPolicy.NoFocus)
        self.setAccessibleDescription(shown.in_words())
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(760, round(grown(self, HIGH_PX)))

    def minimumSizeHint(self) -> QSize:
        return QSize(round(grown(self, 250)), round(grown(self, LEAST_PX)))

    # places

    def _measure(self) -> None:
        font = sized(self.font(), grown(self, TYPE_PX))
        if font != self._letters.font:
            self._letters = Lettering(font)
        line = self._letters.metrics.height()
        left = max(self._letters.width_of(self._gravity(1.045)), self._letters.width_of(tr("room")))
        self._plot = QRectF(self.rect()).adjusted(left + 10, line + 4, -14, -(2 * line + 22))

    def x_of(self, day: float) -> float:
        """Return where a day stands."""
        return self._plot.left() + self._plot.width() * day / max(self.shown.last_day, 1.0)

    def y_of(self, gravity: float) -> float:
        """Return the height of a gravity."""
        low, high = self.shown.gravities
        return self._plot.bottom() - self._plot.height() * (gravity - low) / (high - low)

    def place_of(self, reading: ReadingShown) -> QPointF:
        """Return where the ring of a reading is."""
        self._measure()
        return QPointF(self.x_of(reading.day), self.y_of(reading.gravity))

    def _gravity(self, value: float) -> str:
        return self._display.short(Kind.GRAVITY, value)

    # which reading

    def _near(self, place: QPointF) -> int | None:
        """Return the reading whose ring is meant by a place; None for none."""
        far = {
            number: (self.place_of(each) - place).manhattanLength()
            for number, each in enumerate(self.shown.readings)
        }
        nearest = min(far, key=far.__getitem__, default=None)
        return nearest if nearest is not None and far[nearest] <= NEAR_PX else None

    def _go_to(self, number: int | None) -> None:
        if number == self.at:
            return
        self.at = number
        self.update()
        if number is None:
            note = note_of(self)
            if note is not None:
                note.withdraw(self)
            return
        reading = self.shown.readings[number]
        place, size = self.place_of(reading).toPoint(), round(2 * RING_PX) + 4
        ring = QRect(place.x() - size // 2, place.y() - size // 2, size, size)
        said = tr("{reading}. Press it to correct it or take it back.", reading=reading.said)
        say_beside(self, said, rect=ring, owner=self)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        near = self._near(event.position())
        self.setCursor(
            Qt.CursorShape.ArrowCursor if near is None else Qt.CursorShape.PointingHandCursor
        )
        if near is not None or not self.hasFocus():
            self._go_to(near)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        if not self.hasFocus():
            self._go_to(None)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        near = self._near(event.position())
        if near is not None:
            self._want(near)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go from reading to reading, Return corrects the one they are at."""
        key, last = event.key(), len(self.shown.readings) - 1
        at = last if self.at is None else self.at
        steps = {Qt.Key.Key_Left: at - 1, Qt.Key.Key_Right: at + 1}
        steps |= {Qt.Key.Key_Home: 0, Qt.Key.Key_End: last}
        if key in steps and last >= 0:
            self._go_to(min(max(steps[Qt.Key(key)], 0), last))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and last >= 0:
            self._want(at)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason and self.shown.readings:
            self._go_to(len(self.shown.readings) - 1)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._go_to(None)

    def _want(self, number: int) -> None:
        entry = self.shown.readings[number].entry
        self._go_to(None)
        if entry:
            self.reading_wanted.emit(entry)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self.shown.points:
            self._go_to(None)
            open_picture_menu(self, event.globalPos(), self._picture)

    def _picture(self) -> Picture:
        def drawn() -> CourseChart:
            other = CourseChart(self._display)
            other.show_course(self.shown)
            return other

        title, words = tr("Readings against the forecast"), self.shown.in_words()
        return Picture(self.of_beer(), title, "", PICTURE_SIZE, drawn, words)

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.shown.points:
            return
        self._measure()
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(self._letters.font)
            inks = inks_for(self.palette())
            self._taken = []
            self._paint_axes(painter, inks)
            self._paint_band(painter, inks)
            self._paint_today(painter, inks)
            self._paint_readings(painter, inks)
            self._paint_room(painter, inks)

    def _paint_axes(self, painter: QPainter, inks: Inks) -> None:
        plot, letters = self._plot, self._letters
        low, high = self.shown.gravities
        step = 0.005 if (high - low) / 0.005 * letters.metrics.height() < plot.height() else 0.01
        value = low if step == 0.005 else -(-low // step) * step
        while value <= high - 1e-6 or value == low:
            y = self.y_of(value)
            painter.setPen(QPen(QColor(inks.line), 1))
            painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
            text = self._gravity(value)
            painter.setPen(QColor(inks.ink_soft))
            left = plot.left() - 8 - letters.width_of(text)
            painter.drawText(QPointF(left, y + letters.metrics.ascent() / 2 - 1), text)
            value += step
        base = plot.bottom() + letters.metrics.ascent() + 8
        right = -1e9
        for day in self.shown.ticks:
            text = tr("day {day}", day=day) if day else tr("pitched")
            wide = letters.width_of(text)
            left = min(max(self.x_of(day) - wide / 2, 0.0), self.width() - wide)
            if left > right + 6:
                painter.drawText(QPointF(left, base), text)
                right = left + wide

    def _paint_band(self, painter: QPainter, inks: Inks) -> None:
        """Draw where it is expected to be, and its middle dashed.

        From the last reading on that is as the readings narrow it, within the forecast's band.
        """
        points, known = self._bands()
        for band, inked in ((points, 150), (known, 255)):
            upper = [QPointF(self.x_of(each.day), self.y_of(each.gravity.high)) for each in band]
            lower = [QPointF(self.x_of(each.day), self.y_of(each.gravity.low)) for each in band]
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colour(inks.span, inked))
            painter.drawPolygon(QPolygonF([*upper, *reversed(lower)]))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(inks.mark), 1.6, Qt.PenStyle.DashLine))
        for middle in self._middles():
            painter.drawPolyline(QPolygonF(middle))
        self._paint_end(painter, inks, points[-1].gravity.high if points else 1.0)

    def _bands(self) -> tuple[list[CoursePoint], list[CoursePoint]]:
        """The band of the forecast as far as it is seen, and as readings narrow it."""
        last = self.shown.last_day
        points = [each for each in self.shown.points if each.day <= last]
        return points, [each for each in self.shown.known if each.day <= last]

    def _middles(self) -> list[list[QPointF]]:
        """The middles of both bands; that of the forecast ends where readings narrow it."""
        points, known = self._bands()
        since = known[0].day if known else self.shown.last_day + 1.0
        return [
            [QPointF(self.x_of(each.day), self.y_of(each.gravity.value)) for each in band]
            for band in ([each for each in points if each.day < since], known)
        ]

    def _lines(self) -> QPainterPath:
        """All lines through which no figure is to be read, as wide as they keep clear."""
        path = QPainterPath()
        readings = [self.place_of(each) for each in self.shown.readings]
        for line in (*self._middles(), readings):
            if line:
                path.addPolygon(QPolygonF(line))
        if self.shown.today is not None:
            x = self.x_of(self.shown.today)
            path.moveTo(x, self._plot.top())
            path.lineTo(x, self._plot.bottom())
        pen = QPainterPathStroker()
        pen.setWidth(CLEAR_PX)
        return pen.createStroke(path)

    def _paint_end(self, painter: QPainter, inks: Inks, high: float) -> None:
        """Write where it is forecast to end, above the end of the band."""
        letters = self._letters
        room = 0.45 * self._plot.width()
        if self.shown.ends and letters.width_of(self.shown.ends) <= room:
            wide = letters.width_of(self.shown.ends)
            x = self._plot.right() - wide
            today = self.x_of(self.shown.today) if self.shown.today is not None else 0.0
            if x - 6 < today < x + wide + 6:  # the line of today runs through no word
                x = today - 8 - wide
            painter.setPen(QColor(inks.ink_soft))
            y = self.y_of(high) - 2.1 * letters.metrics.height()
            y = max(y, self._plot.top() + letters.metrics.ascent())
            painter.drawText(QPointF(x, y), self.shown.ends)
            high_px = letters.metrics.height()
            self._taken.append(QRectF(x, y - letters.metrics.ascent(), wide, high_px))

    def _paint_today(self, painter: QPainter, inks: Inks) -> None:
        today = self.shown.today
        if today is None:
            return
        x, plot, letters = self.x_of(today), self._plot, self._letters
        painter.setPen(QPen(QColor(inks.ink), 2.0))
        painter.drawLine(QPointF(x, plot.top() - 10), QPointF(x, plot.bottom() + 3))
        text = tr("today, day {day}", day=int(today))
        painter.setFont(letters.bold)
        wide = painter.fontMetrics().horizontalAdvance(text)
        left = x + 6 if x + 6 + wide < self.width() else x - 6 - wide
        painter.drawText(QPointF(left, plot.top() - 10 + letters.metrics.ascent()), text)
        painter.setFont(letters.font)

    def _paint_readings(self, painter: QPainter, inks: Inks) -> None:
        """Draw the readings, a line between them, and where the next is wanted."""
        places = [self.place_of(each) for each in self.shown.readings]
        radius = grown(self, RING_PX)
        painter.setPen(QPen(QColor(inks.wort_edge), 2.0))
        draw_curve(painter, places)
        self._paint_again(painter, inks, radius)
        lines = self._lines()
        for number, (reading, place) in enumerate(zip(self.shown.readings, places, strict=True)):
            painter.setBrush(QColor(inks.paper))
            painter.setPen(QPen(QColor(inks.wort_edge), 2.2))
            painter.drawEllipse(place, radius, radius)
            if number == self.at:
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(QColor(inks.green), 2.0))
                painter.drawEllipse(place, radius + 4, radius + 4)
            self._paint_figure(painter, inks, reading.figure, place, lines)

    def _paint_figure(
        self, painter: QPainter, inks: Inks, text: str, place: QPointF, lines: QPainterPath
    ) -> None:
        """Write a reading by its ring, where nothing stands yet and no line goes through it.

        Where lines are all round, it stands on paper.
        """
        letters = self._letters
        painter.setFont(letters.bold)
        wide, high = painter.fontMetrics().horizontalAdvance(text), letters.metrics.height()
        gap = grown(self, RING_PX) + 3
        right = QRectF(place.x() + gap, place.y() - gap - high + 4, wide, high)
        left = QRectF(place.x() - gap - wide, place.y() + gap - 4, wide, high)
        over = QRectF(place.x() - wide / 2, place.y() - gap - high, wide, high)
        under = QRectF(place.x() - wide / 2, place.y() + gap, wide, high)
        within = QRectF(0, 0, self.width(), self._plot.bottom())
        boxes = [right, left, over, under]
        boxes += [right.translated(0, -high), left.translated(0, high), over.translated(0, -high)]
        free = [
            each
            for each in boxes
            if within.contains(each) and not any(each.intersects(other) for other in self._taken)
        ]
        box = next((each for each in free if not lines.intersects(each)), None)
        if box is None and free:
            box = free[0]
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(inks.paper))
            painter.drawRoundedRect(box, 2, 2)
        if box is not None:
            painter.setPen(QColor(inks.ink))
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
            self._taken.append(box)
        painter.setFont(letters.font)

    def _paint_again(self, painter: QPainter, inks: Inks, radius: float) -> None:
        """Draw the next reading as a dashed ring, on the middle of the band."""
        if self.shown.again is None:
            return
        day, text = self.shown.again
        y = self.y_of(self._middle_at(day))
        place, letters = QPointF(self.x_of(day), y), self._letters
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(inks.green), 1.8, Qt.PenStyle.DashLine))
        painter.drawEllipse(place, radius + 1, radius + 1)
        wide = letters.width_of(text)
        left = min(place.x() + radius + 4, self.width() - wide - 2)
        if left > 0:
            painter.setPen(QColor(inks.green))
            painter.drawText(QPointF(left, y - radius - 5), text)
            top = y - radius - 5 - letters.metrics.ascent()
            self._taken.append(QRectF(left, top, wide, letters.metrics.height()))

    def _middle_at(self, day: float) -> float:
        known, points = self.shown.known, self.shown.points
        if known and day >= known[0].day:
            points = known
        for one, other in pairwise(points):
            if one.day <= day <= other.day:
                part = (day - one.day) / max(other.day - one.day, 1e-9)
                return one.gravity.value + part * (other.gravity.value - one.gravity.value)
        return points[-1].gravity.value

    def _paint_room(self, painter: QPainter, inks: Inks) -> None:
        """Draw how warm it was, and say how warm it is to be kept."""
        letters = self._letters
        line = letters.metrics.height()
        top = self._plot.bottom() + line + 14
        base = top + (line + 6 + letters.metrics.ascent() - letters.metrics.descent()) / 2
        text = tr("room")
        painter.setPen(QColor(inks.heat))
        painter.drawText(QPointF(self._plot.left() - 8 - letters.width_of(text), base), text)
        right = self._plot.left()
        for each in self.shown.warmths:
            start = max(self.x_of(each.day), self._plot.left()) + 1
            end = min(self.x_of(each.until), self._plot.right()) - 1
            if end <= start:
                continue
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(inks.cool_band))
            painter.drawRoundedRect(QRectF(start, top, end - start, line + 6), 2, 2)
            right = max(right, end)
            if letters.width_of(each.figure) <= end - start - 10:
                painter.setPen(QColor(inks.heat))
                painter.drawText(QPointF(start + 6, base), each.figure)
        wide = letters.width_of(self.shown.keep)
        if wide <= self.width() - right - 8:
            painter.setPen(QColor(inks.ink_soft))
            painter.drawText(QPointF(right + 8, base), self.shown.keep)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.PaletteChange):
            self.update()
