"""The day with *now*: how it goes against how it was planned, and what goes in when.

A second changes nothing here; a minute moves the line of *now*.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFontMetricsF,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units.writing import unit_of
from designer.window.brew.mark_ring import draw_mark
from designer.window.brew.stove_texts import clock_text, minute_of_day
from designer.window.parts.curve import draw_curve
from designer.window.parts.day_axis import draw_axis
from designer.window.parts.day_curves import (
    draw_band_texts,
    draw_bands,
    draw_run_names,
    draw_temperature,
    draw_volume,
)
from designer.window.parts.day_limits import draw_limits, limits_px
from designer.window.parts.day_scale import DayScale, Lettering
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.picture_menu import open_picture_menu
from designer.window.parts.picture_out import Picture
from designer.window.parts.sized_text import grown, sized
from designer.workbench.brew.day_as_brewed import DayAsBrewed, Mark
from designer.workbench.day_reading import clock
from designer.workbench.day_runs import Run

RING_PX = 17.0
BESIDE_PX = 108.0
A_MOMENT_S = 0.001
"""So that a full minute is not written as the one before, for what was lost in reckoning."""
PICTURE_SIZE = QSize(1060, 190)


class NowScale(DayScale):
    """The plot with little around it: it stands at the foot of a page that is full."""

    def __init__(self) -> None:
        super().__init__()
        self.longest_min = 0.0
        self.names_px = 0.0
        """How wide the names of rim and foam line are."""

    @property
    def total_min(self) -> float:
        """How long the line is, with what was planned and with *now*."""
        return max(super().total_min, self.longest_min, 1.0)

    def measure(self, area: QRectF, letters: Lettering) -> None:
        """Find the place of the plot."""
        line = letters.metrics.height()
        left = letters.metrics.horizontalAdvance("100 °C") + 8
        right = self.names_px + 10
        self.plot = area.adjusted(left, line + 6, -right, -(line + 9))
        self.right = area.right()
        self._scale_time()


class DayNow(QWidget):
    """The time line of a brew under way, or of a day that has not begun."""

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self.scale = NowScale()
        self._letters = Lettering(self.font())
        self.line = DayAsBrewed((), (), {})
        self.marks: tuple[Mark, ...] = ()
        self.start_min = 0
        self.now_min: float | None = None
        self.of_brew: Callable[[], str] = str
        """What the brew is called, for a picture of its day."""
        self.setAccessibleName(tr("The day, with now"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        keep_direction(self)

    def show_day(
        self,
        line: DayAsBrewed,
        marks: tuple[Mark, ...],
        start_min: int = 0,
        now_min: float | None = None,
    ) -> None:
        """Show how a day goes, or is to go from `start_min` after midnight on."""
        self.line, self.marks, self.start_min = line, marks, start_min
        planned = max((run.end_min for run in line.planned), default=0.0)
        self.now_min = now_min
        self.scale.longest_min = max(planned, now_min or 0.0)
        self.scale.show_runs(line.real)
        if limits_px(self.scale, self._letters, self._display) != self.scale.names_px:
            self._measure()
        self.setAccessibleDescription(self.in_words())
        self.update()

    def in_words(self) -> str:
        """Return the day in words, for a screen reader."""
        said = [
            f"{self._clock(run.at_min + each.start_min)} {each.label}"
            for run in self.line.real
            for each in run.day.spans
        ]
        said += [
            tr("{clock} {letter} in", clock=self._clock(each.time_min), letter=each.letter)
            for each in self.marks
        ]
        return ". ".join(said)

    def _clock(self, line_min: float) -> str:
        """Return what the kitchen clock shows at a place on the line."""
        if self.line.starts:
            return clock_text(self.line.wall_at(line_min) + A_MOMENT_S)
        return clock(self.start_min, line_min)

    def _start_of(self, line_min: float) -> float:
        """Return at which minute of its day it is where a day begins on the line."""
        if self.line.starts:
            return minute_of_day(self.line.wall_at(line_min))
        return self.start_min

    def sizeHint(self) -> QSize:
        return QSize(900, round(grown(self, 74)))

    def minimumSizeHint(self) -> QSize:
        return QSize(300, round(grown(self, 74)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._measure()

    def _measure(self) -> None:
        self._letters = Lettering(sized(self.font(), grown(self, 11)))
        self.scale.names_px = limits_px(self.scale, self._letters, self._display)
        self.scale.measure(QRectF(self.rect()), self._letters)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self.line.real:
            open_picture_menu(self, event.globalPos(), self._picture)

    def _picture(self) -> Picture:
        def drawn() -> DayNow:
            other = DayNow(self._display)
            other.show_day(self.line, self.marks, self.start_min, self.now_min)
            return other

        title, words = tr("The day"), self.in_words()
        return Picture(self.of_brew(), title, "", PICTURE_SIZE, drawn, words)

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.line.real:
            return
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(self._letters.font)
            self._paint(painter, inks_for(self.palette()))

    def _paint(self, painter: QPainter, inks: Inks) -> None:
        scale, letters = self.scale, self._letters
        draw_bands(painter, inks, scale)
        draw_band_texts(painter, inks, scale, letters, self.width(), taken=self._now_box())
        draw_axis(painter, inks, scale, letters, self._start_of)
        for run in scale.runs:
            draw_volume(painter, inks, scale, run)
        for run in self.line.planned:
            self._paint_planned(painter, inks, run)
        for run in scale.runs:
            draw_temperature(painter, inks, scale, run)
        draw_limits(painter, inks, scale, letters, self._display, self.width())
        draw_run_names(painter, inks, scale, letters)
        self._paint_ends(painter, inks)
        self._paint_marks(painter, inks)
        self._paint_now(painter, inks)

    def _paint_planned(self, painter: QPainter, inks: Inks, run: Run) -> None:
        """Draw how hot it was to be, dashed, where the day goes otherwise."""
        lane = self.scale.lane(run)
        points = [
            QPointF(
                self.scale.x(run.at_min + each.time_min),
                self.scale.temp_y(each.temperature_c, lane),
            )
            for each in run.day.moments
        ]
        pen = QPen(QColor(inks.heat), 1.0, Qt.PenStyle.DotLine)
        painter.setPen(pen)
        draw_curve(painter, points)

    def _paint_ends(self, painter: QPainter, inks: Inks) -> None:
        """Write what the ends of the scales are, left of the plot."""
        letters = self._letters
        hot = self._display.single(Kind.TEMPERATURE, 100.0)
        empty = f"0 {unit_of(self._display.short(Kind.VOLUME, 10.0))}"
        for run in {run.lane: run for run in self.scale.runs}.values():
            lane = self.scale.lane(run)
            for text, y, ink in (
                (hot, self.scale.temp_y(100.0, lane), inks.heat),
                (empty, lane.bottom() - 4, inks.wort_edge),
            ):
                painter.setPen(QColor(ink))
                left = lane.left() - 5 - letters.width_of(text)
                painter.drawText(QPointF(left, y + letters.metrics.ascent() / 2 - 1), text)

    def _paint_marks(self, painter: QPainter, inks: Inks) -> None:
        """Draw the letters at the foot; of those at one instant each right of the one before."""
        size = grown(self, RING_PX)
        free = -1e9
        for each in sorted(self.marks, key=lambda mark: mark.time_min):
            run = self.scale.runs[min(each.run, len(self.scale.runs) - 1)]
            x = max(self.scale.x(each.time_min), free)
            y = self.scale.lane(run).bottom() - 3.0
            place = QRectF(x - size / 2, y - size / 2, size, size)
            ink = inks._replace(green=inks.ink_soft) if each.done else inks
            draw_mark(painter, place, each.letter, self.font(), ink)
            free = x + size + 1

    def _paint_now(self, painter: QPainter, inks: Inks) -> None:
        if self.now_min is None:
            return
        plot, letters = self.scale.plot, self._letters
        x = self.scale.x(self.now_min)
        painter.setPen(QPen(QColor(inks.ink), 2.2))
        painter.drawLine(QPointF(x, plot.top() - 3), QPointF(x, plot.bottom()))
        box = self._now_box()
        painter.setFont(letters.bold)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.ink))
        painter.drawRoundedRect(box, 3, 3)
        painter.setPen(QColor(inks.paper))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self._now_text())

    def _now_text(self) -> str:
        return tr("now {clock}", clock=self._clock(self.now_min or 0.0))

    def _now_box(self) -> QRectF:
        """Where the time of now is written, beside the scales; nowhere before the day begins."""
        if self.now_min is None:
            return QRectF()
        letters = self._letters
        wide = QFontMetricsF(letters.bold).horizontalAdvance(self._now_text()) + 14
        least = self.scale.plot.left() - 1
        left = min(max(self.scale.x(self.now_min) - wide / 2, least), self.width() - wide)
        return QRectF(left, 0.0, wide, letters.metrics.height() + 4)
