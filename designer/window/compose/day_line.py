"""The day: volume and temperature over the clock, with rim, foam room and every addition.

Painted by ourselves, so that it follows the palette and prints as lines. Additions to the boil can
be dragged along it; from the keyboard the arrows choose one and Alt with the arrows moves it. Of
several boils each stands behind the one before it; pots at once have lanes of their own.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from designer.brewday.cooling import to_put_round
from designer.brewday.foam import foam_line_l
from designer.brewday.time_line import Span
from designer.recipe.edits import Edit, Together
from designer.recipe.fields import facts_of, number_or_none
from designer.recipe.named import lines_of
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind
from designer.translation import message, tr, trn
from designer.units import ShownUnits
from designer.units.quick_words import FACTORS
from designer.window.parts.curve import draw_curve
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.in_strips import in_strips
from designer.window.parts.inks import Inks, colour, inks_for
from designer.window.parts.plain_text import tip
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.day_reading import (
    Marker,
    at_time,
    boil_span,
    clock,
    clock_and_day,
    markers,
    moved_edits,
    start_minutes,
)
from designer.workbench.day_runs import Run

BAND_TEXTS = {
    "steep": message("STEEP {minutes} min"),
    "boil": message("BOIL {minutes} min"),
    "stand": message("STAND {minutes} min"),
    "cool": message("COOL ≈ {minutes} min"),
    "top up": message("TOP UP, PITCH"),
}
"""What is written on the band of a stage; the others have no room for words."""
BANDS = {"steep": "steep_band", "boil": "boil_band", "cool": "cool_band", "stand": "cool_band"}
TICKS_MIN = (5, 10, 15, 30, 60, 120, 240)
GRAB_PX = 9.0
MOST_WIDTHS = 1000
HOTTEST_C = 105.0
LONGEST_NAME_PX = 170.0
NAME_OFF_PX = 4.0
"""A name begins no further right of its marker."""
LANE_GAP = 16.0
_ELIDED = Qt.TextElideMode.ElideRight


class _Limit(NamedTuple):
    """A line that the pot is not to be filled beyond."""

    volume_l: float
    text: str
    ink: str
    style: Qt.PenStyle


class DayLine(QWidget):
    """The time line of an open recipe."""

    edit_wanted = Signal(object)

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self._runs: tuple[Run, ...] = ()
        self._ready: tuple[tuple[float, int], ...] = ()
        self._markers: tuple[Marker, ...] = ()
        self._chosen: tuple[int, str, int] | None = None
        self._dragging = ""
        self._cursor_x: float | None = None
        self._cursor_y = 0.0
        self._plot_rect = QRectF()
        self._with_wort = False
        self._highest = self._px_per_min = 1.0
        self._lanes = 1
        self._metrics = QFontMetricsF(self.font())
        self._widths: dict[str, float] = {}
        self.setAccessibleName(tr("The day, as a time line"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)  # it stands on a panel of paper
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        display.settings.changed.connect(self.refresh)

    @property
    def is_worked_on(self) -> bool:
        """Whether an addition is dragged along it or moved by keys: it has to keep up then."""
        return bool(self._dragging) or self.hasFocus()

    def show_runs(self, runs: tuple[Run, ...], ready: tuple[tuple[float, int], ...] = ()) -> None:
        """Draw other boils; `ready` tells when yeast can be pitched, if not at their ends."""
        shown = [each.day for each in self._runs]
        if len(runs) != len(shown) or any(
            run.day is not day or run.alone is not before.alone
            for run, day, before in zip(runs, shown, self._runs, strict=True)
        ):
            self._runs, self._ready = runs, ready
            self.refresh()

    def refresh(self) -> None:
        """Draw the day as it now is."""
        self._markers = tuple(
            marker
            for number_, run in enumerate(self._runs)
            for marker in markers(run.day, run.at_min, number_)
        )
        self._lanes = 1 + max((run.lane for run in self._runs), default=0)
        self._highest = self._highest_l()
        self._scale_time()
        self.setAccessibleDescription(self.in_words())
        self.update()

    def show_wort(self, wanted: bool) -> None:
        """Draw gravity and bitterness of the wort in the pot too, or no longer."""
        self._with_wort = wanted
        self.update()

    def _start(self) -> int:
        """The clock at which each day starts, in minutes after midnight."""
        return start_minutes(self._opened.recipe.process.start_time)

    def _clock(self, run: Run, after_min: float) -> str:
        return clock(self._start(), run.clock_min + after_min)

    def in_words(self) -> str:
        """Return the day in words, for a screen reader."""
        return ". ".join(
            said for number_, run in enumerate(self._runs) for said in self._said(number_, run)
        )

    def _said(self, number_: int, run: Run) -> Iterator[str]:
        if run.name:
            yield run.name
        for each in run.day.spans:
            yield f"{self._clock(run, each.start_min)} {each.label}"
        for marker in self._markers:
            if marker.run == number_:
                time = self._clock(run, marker.time_min - run.at_min)
                yield tr("{time} {names} in", time=time, names=marker.names)

    def summary(self) -> str:
        """Return when the day starts and the yeast goes in, and the ice that a bath takes."""
        start, first = self._start(), self._runs[0]
        ready = self._ready or tuple(
            (run.clock_min + float(run.day.total_min), run.on_day) for run in self._runs
        )
        ends = [clock_and_day(start, 1440.0 * day + after) for after, day in ready]
        begin = self._clock(first, 0.0)
        said = tr("starts {begin} · ready for yeast about {end}", begin=begin, end=_row(ends))
        ice_kg = to_put_round(sum(float(run.day.fermenter.bath_ice_kg) for run in self._runs))
        if ice_kg == 0.0:
            return said
        ice = self._display.short(Kind.MASS, ice_kg)
        return tr("{ice} of ice for the bath · {day}", ice=ice, day=said)

    def sizeHint(self) -> QSize:
        return QSize(900, 190)

    def minimumSizeHint(self) -> QSize:
        return QSize(400, 140)

    # places

    def _plot(self) -> QRectF:
        return self._plot_rect

    def _measure(self) -> None:
        """Find the place of the plot between its scales and names."""
        metrics = self._metrics = QFontMetricsF(self.font())
        self._widths = {}
        line = metrics.height()
        scales = 26 + metrics.horizontalAdvance("100 °C") + metrics.horizontalAdvance("00.0 L")
        area = QRectF(self.rect())
        self._plot_rect = area.adjusted(scales, line + 6, -132, -(3 * line + 12))
        self._scale_time()

    def _total_min(self) -> float:
        return max((run.end_min for run in self._runs), default=1.0)

    def _scale_time(self) -> None:
        self._px_per_min = self._plot_rect.width() / max(self._total_min(), 1.0)

    def _lane(self, run: Run) -> QRectF:
        """The part of the plot that a run is drawn in, as wide as all."""
        plot = self._plot_rect
        if self._lanes == 1:
            return plot
        height = (plot.height() - LANE_GAP * (self._lanes - 1)) / self._lanes
        top = plot.top() + run.lane * (height + LANE_GAP)
        return QRectF(plot.left(), top, plot.width(), height)

    def _width_of(self, text: str) -> float:
        """Return how wide a text is; most of them come again at each key."""
        found = self._widths.get(text)
        if found is None:
            if len(self._widths) >= MOST_WIDTHS:
                self._widths.clear()
            found = self._widths[text] = self._metrics.horizontalAdvance(text)
        return found

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._measure()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        self._measure()

    def _x(self, time_min: float) -> float:
        return self._plot_rect.left() + self._px_per_min * time_min

    def _time(self, x: float) -> float:
        plot = self._plot()
        share = (x - plot.left()) / max(plot.width(), 1.0)
        return min(max(share, 0.0), 1.0) * self._total_min()

    def _highest_l(self) -> float:
        rims = [number_or_none(run.recipe.pot, "volume") or 0.0 for run in self._runs]
        tallest = [each.pot_volume_l for run in self._runs for each in run.day.moments]
        return 1.1 * max([*rims, *tallest, 0.1])

    def _volume_y(self, litres: float, plot: QRectF) -> float:
        return plot.bottom() - plot.height() * litres / self._highest

    def _temp_y(self, celsius: float, plot: QRectF) -> float:
        return plot.bottom() - plot.height() * min(max(celsius, 0.0), HOTTEST_C) / HOTTEST_C

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks = inks_for(self.palette())
        painter.fillRect(self.rect(), QColor(inks.paper))
        painter.setFont(self.font())
        self._draw_spans(painter, inks)
        self._draw_axis(painter, inks)
        for run in self._runs:
            self._draw_volume(painter, inks, run)
        self._draw_limits(painter, inks)
        for run in self._runs:
            self._draw_temperature(painter, inks, run)
        self._draw_names(painter, inks)
        if self._with_wort:
            for run in self._runs:
                self._draw_wort(painter, inks, run)
        self._draw_markers(painter, inks)
        if self._cursor_x is not None and not self._dragging:
            self._draw_cursor(painter, inks, self._cursor_x)
        if self.hasFocus():
            painter.setPen(QPen(QColor(inks.green), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)

    def _draw_spans(self, painter: QPainter, inks: Inks) -> None:
        """The stages as bands; what each is called stands above the uppermost lane."""
        free = self._plot().left()
        for run in self._runs:
            lane = self._lane(run)
            for span in run.day.spans:
                left, right = (self._x(run.at_min + at) for at in (span.start_min, span.end_min))
                band = BANDS.get(span.key)
                if band is not None:
                    area = QRectF(left, lane.top(), max(right - left, 1.0), lane.height())
                    painter.fillRect(area, QColor(getattr(inks, band)))
                if span.key in BAND_TEXTS and run.lane == 0:
                    free = self._draw_band_text(painter, inks, span, left, free)

    def _draw_band_text(
        self, painter: QPainter, inks: Inks, span: Span, left: float, free: float
    ) -> float:
        """Write what a stage is called, from `free` on; return where the next has room."""
        text = _band_text(span)
        width = self._width_of(text)
        at = max(min(left + 2, self.width() - width - 4), free)
        painter.setPen(QColor(inks.ink_soft))
        painter.drawText(QPointF(at, self._plot().top() - 5), text)
        return at + width + 10

    def _draw_names(self, painter: QPainter, inks: Inks) -> None:
        """Which boil each is, where there are several."""
        font = QFont(self.font())
        font.setBold(True)
        width, height = self._metrics.height() / 2, self._metrics.height()
        for run in self._runs:
            if run.name:
                room = QFontMetricsF(font).horizontalAdvance(run.name) + width
                place = QRectF(self._x(run.at_min) + 2, self._lane(run).top() + 2, room, height)
                painter.fillRect(place, QColor(inks.paper))
                painter.setFont(font)
                painter.setPen(QColor(inks.ink))
                painter.drawText(place, Qt.AlignmentFlag.AlignCenter, run.name)
        painter.setFont(self.font())

    def _draw_axis(self, painter: QPainter, inks: Inks) -> None:
        plot, metrics = self._plot(), self._metrics
        start = self._start()
        total = max(self._total_min(), 1.0)
        room = 1.6 * self._width_of("00:00")
        tick = next((t for t in TICKS_MIN if plot.width() * t / total >= room), 1440)
        below, bottom = plot.bottom() + metrics.ascent() + 6, plot.bottom()
        painter.setPen(QPen(QColor(inks.line_strong), 1))
        for run in self._runs:
            lane = self._lane(run)
            painter.drawLine(lane.bottomLeft(), lane.bottomRight())
        minutes = list(self._ticks(start, tick))
        for at, _ in minutes:
            x = self._x(at)
            painter.drawLine(QPointF(x, bottom), QPointF(x, bottom + 4))
        painter.setPen(QColor(inks.ink_soft))
        following = [self._x(at) for at, _ in minutes[1:]]
        for (at, minute), then in zip(minutes, [*following, plot.right() + room], strict=True):
            text, x = clock(start, minute), self._x(at)
            if then - x >= self._width_of(text):  # else another day begins upon it
                painter.drawText(QPointF(x - self._width_of(text) / 2, below), text)
        for run in {run.lane: run for run in self._runs}.values():
            self._draw_scales(painter, inks, self._lane(run))

    def _ticks(self, start: int, tick: int) -> Iterator[tuple[float, int]]:
        """Yield where on the line a tick stands, and how long after the start of its day it is."""
        days: dict[float, list[float]] = {}
        for run in self._runs:
            both = (run.clock_min, run.clock_min + float(run.day.total_min))
            days.setdefault(round(run.at_min - run.clock_min, 6), []).extend(both)
        for base, ends in days.items():
            first = int(min(ends))
            for minute in range(first + (-start - first) % tick, int(max(ends)) + 1, tick):
                yield base + minute, minute

    def _draw_scales(self, painter: QPainter, inks: Inks, plot: QRectF) -> None:
        """Two scales left of a lane: temperatures outside, the pot's volumes inside."""
        metrics = self._metrics

        def scale(text: str, right: float, y: float, ink: str) -> None:
            painter.setPen(QColor(ink))
            left = right - self._width_of(text)
            painter.drawText(QPointF(left, y + metrics.ascent() / 2 - 1), text)

        inner = plot.left() - 6
        outer = inner - self._width_of("00.0 L") - 8
        for celsius in (20.0, 60.0, 100.0) if self._lanes == 1 else (20.0, 100.0):
            text = self._display.single(Kind.TEMPERATURE, celsius)
            scale(text, outer, self._temp_y(celsius, plot), inks.heat)
        for litres in self._volume_ticks():
            text = self._display.single(Kind.VOLUME, litres)
            scale(text, inner, self._volume_y(litres, plot), inks.wort_edge)

    def _volume_ticks(self) -> list[float]:
        """Round volumes, few enough to stand above each other."""
        unit = FACTORS[Kind.VOLUME]["gal"] if self._display.one_system is ShownUnits.US else 1.0
        highest = self._highest / unit
        most = 4.5 / self._lanes
        steps = (0.5, 1, 2, 3, 5, 10, 20, 50, 100)
        step = next((each for each in steps if highest / each <= most), 500.0)
        return [unit * step * n for n in range(1, int(highest / step) + 1)]

    def _points(self, run: Run, heights: list[float]) -> list[QPointF]:
        """Return the points of a curve over the moments of a run."""
        return [
            QPointF(self._x(run.at_min + each.time_min), y)
            for each, y in zip(run.day.moments, heights, strict=True)
        ]

    def _draw_volume(self, painter: QPainter, inks: Inks, run: Run) -> None:
        moments = run.day.moments
        if not moments:
            return
        plot = self._lane(run)
        points = self._points(run, [self._volume_y(m.pot_volume_l, plot) for m in moments])
        area = QPolygonF(
            [QPointF(points[0].x(), plot.bottom()), *points, QPointF(points[-1].x(), plot.bottom())]
        )
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(inks.wort, 120))
        # Smooth edges of so large an area take most of a frame; the line over them hides it.
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        in_strips(painter, area.boundingRect(), lambda: painter.drawPolygon(area))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(inks.wort_edge), 2))
        draw_curve(painter, points)

    def _draw_limits(self, painter: QPainter, inks: Inks) -> None:
        """Rim and foam lines; their names stand right of the plot and never on each other.

        One pot after the other in a lane has its lines where it is used, alike pots one name.
        """
        plot, metrics = self._plot(), self._metrics
        by_lane: dict[int, dict[tuple[float, float], list[Run]]] = {}
        for run in self._runs:
            rim, foam = number_or_none(run.recipe.pot, "volume"), foam_line_l(run.recipe.pot)
            if rim is not None and foam is not None:
                by_lane.setdefault(run.lane, {}).setdefault((rim, foam), []).append(run)
        for pots in by_lane.values():
            below = -1e9
            for (rim, foam), runs in pots.items():
                left, right = plot.left(), plot.right()
                if len(pots) > 1:
                    left, right = self._x(runs[0].at_min), self._x(runs[-1].end_min)
                for limit in self._limits(rim, foam, inks):
                    y = self._volume_y(limit.volume_l, self._lane(runs[0]))
                    painter.setPen(QPen(QColor(limit.ink), 1.5, limit.style))
                    painter.drawLine(QPointF(left, y), QPointF(right, y))
                    text_y = max(y + metrics.ascent() / 2 - 1, below + metrics.height())
                    room = self.width() - plot.right() - 8
                    painter.drawText(
                        QPointF(plot.right() + 6, text_y),
                        metrics.elidedText(limit.text, _ELIDED, room),
                    )
                    below = text_y

    def _limits(self, rim: float, foam: float, inks: Inks) -> tuple[_Limit, _Limit]:
        rim_text, foam_text = (self._display.short(Kind.VOLUME, each) for each in (rim, foam))
        return (
            _Limit(rim, tr("pot rim {volume}", volume=rim_text), inks.rim, Qt.PenStyle.DashLine),
            _Limit(
                foam, tr("foam room {volume}", volume=foam_text), inks.foam, Qt.PenStyle.DotLine
            ),
        )

    def _draw_temperature(self, painter: QPainter, inks: Inks, run: Run) -> None:
        painter.setPen(QPen(QColor(inks.heat), 1.8))
        plot, moments = self._lane(run), run.day.moments
        draw_curve(
            painter, self._points(run, [self._temp_y(m.temperature_c, plot) for m in moments])
        )

    def _draw_wort(self, painter: QPainter, inks: Inks, run: Run) -> None:
        """Gravity (long dashes) and bitterness (dots), each up to its own highest value."""
        moments = [each for each in run.day.moments if each.wort_l > 0.0]
        curves = (
            ([1000.0 * (m.gravity_sg - 1.0) for m in moments], Qt.PenStyle.DashLine, inks.heading),
            ([m.bitterness_ibu for m in moments], Qt.PenStyle.DotLine, inks.green),
        )
        plot, metrics = self._lane(run), self._metrics
        last = [each for each in self._runs if each.lane == run.lane][-1]
        for values, style, ink in curves:
            highest = max(values, default=0.0)
            if highest <= 0.0:
                continue
            reach = 0.62 * plot.height() / highest
            points = [
                QPointF(self._x(run.at_min + m.time_min), plot.bottom() - reach * value)
                for m, value in zip(moments, values, strict=True)
            ]
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(ink), 1.8, style))
            painter.drawPolyline(QPolygonF(points))
            if run is not last:
                continue  # of each lane the last is told beside it
            if ink == inks.heading:
                gravity = self._display.value(Kind.GRAVITY, 1.0 + highest / 1000.0)
                text = tr("gravity to {gravity}", gravity=gravity)
            else:
                bitterness = self._display.rounded(Kind.BITTERNESS, highest)
                text = tr("bitterness to {bitterness}", bitterness=bitterness)
            left = plot.right() + 6
            y = plot.bottom() - (4.0 if ink == inks.green else metrics.height() + 4.0)
            painter.drawText(
                QPointF(left, y),
                metrics.elidedText(text, _ELIDED, self.width() - left - 2),
            )

    def _draw_markers(self, painter: QPainter, inks: Inks) -> None:
        plot, metrics = self._plot(), self._metrics
        first = plot.bottom() + 2 * metrics.height() + 6
        free = {first: -1e9, first + metrics.height(): -1e9}
        for marker in self._markers:
            x = self._x(marker.time_min)
            ink = {"hops": inks.green, "fermentables": inks.wort_edge}.get(
                marker.lines, inks.ink_soft
            )
            chosen = self._key(marker) == self._chosen
            size = 7.5 if chosen else 6.0
            painter.setBrush(QColor(ink))
            painter.setPen(QPen(QColor(inks.ink), 2) if chosen else Qt.PenStyle.NoPen)
            foot = self._lane(self._runs[marker.run]).bottom()
            painter.drawPolygon(_shape(marker.lines, x, foot, size))
            self._draw_name(painter, marker, x, free, QColor(ink), chosen=chosen)

    def _draw_name(
        self,
        painter: QPainter,
        marker: Marker,
        x: float,
        free: dict[float, float],
        ink: QColor,
        *,
        chosen: bool,
    ) -> None:
        """Write what a marker stands for into the first row with room, `free` from where it is."""
        if min(free.values()) > x + NAME_OFF_PX:
            return  # most of many: what they would say is not even asked
        text = self._label(marker)
        if chosen:
            font = QFont(self.font())
            font.setBold(True)
            whole = QFontMetricsF(font).horizontalAdvance(text)
        else:
            font, whole = self.font(), self._width_of(text)
        width = min(whole, LONGEST_NAME_PX)
        for row, start in free.items():
            left = max(x - width / 2, start)
            if left <= x + NAME_OFF_PX and left + width < self.width():
                if whole > width:
                    text = QFontMetricsF(font).elidedText(text, _ELIDED, width + 1)
                painter.setFont(font)
                painter.setPen(ink)
                painter.drawText(QPointF(left, row), text)
                free[row] = left + width + 8
                return

    def _label(self, marker: Marker) -> str:
        """Amount and name of one addition, how many for several: all are in the tip."""
        if len(marker.additions) > 1:
            count = len(marker.additions)
            if marker.lines == "hops":
                return trn("{number} hop", "{number} hops", count)
            return trn("{number} line", "{number} lines", count)
        return f"{self._amount(marker, 0)} {marker.names}".strip()

    def _amount(self, marker: Marker, number_: int) -> str:
        addition = marker.additions[number_]
        line = next(
            (
                each
                for each in lines_of(self._runs[marker.run].recipe, addition.lines)
                if each.line_id == addition.line_id
            ),
            None,
        )
        if line is None or line.amount is None:
            return ""
        kind = facts_of(type(line), "amount").kind
        return self._display.to_edit(kind, line.amount)

    def _draw_cursor(self, painter: QPainter, inks: Inks, x: float) -> None:
        """A thin line at the pointer, and what all curves read there."""
        plot, metrics = self._plot(), self._metrics
        run = self._run_at(self._time(x))
        if run is None or not plot.left() <= x <= plot.right():
            return
        moment = at_time(run.day, self._time(x) - run.at_min)
        if moment is None:
            return
        read = [
            *([run.name] if run.name else []),
            self._clock(run, moment.time_min),
            self._display.rounded(Kind.VOLUME, moment.pot_volume_l),
            self._display.rounded(Kind.TEMPERATURE, moment.temperature_c),
            self._display.value(Kind.GRAVITY, moment.gravity_sg),
            self._display.rounded(Kind.BITTERNESS, moment.bitterness_ibu),
        ]
        text = "  ·  ".join(read)
        width = metrics.horizontalAdvance(text) + 14
        left = min(max(x + 8, plot.left()), plot.right() - width)
        box = QRectF(left, plot.top() + 4, width, metrics.height() + 8)
        painter.setPen(QPen(QColor(inks.line_strong), 1))
        painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()))
        painter.setBrush(QColor(inks.paper))
        painter.drawRoundedRect(box, 3, 3)
        painter.setPen(QColor(inks.ink))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)

    # choosing and moving

    def _key(self, marker: Marker) -> tuple[int, str, int]:
        return marker.run, marker.lines, marker.additions[0].line_id

    def _run_at(self, time_min: float) -> Run | None:
        """The run under the pointer: of several at once that in whose lane it is."""
        there = [run for run in self._runs if run.at_min <= time_min <= run.end_min]
        y = self._cursor_y
        return next(
            (run for run in there if self._lane(run).bottom() >= y), there[-1] if there else None
        )

    def _near(self, place: QPointF) -> Marker | None:
        near = [
            m
            for m in self._markers
            if abs(self._x(m.time_min) - place.x()) <= GRAB_PX
            and self._is_at_foot(self._lane(self._runs[m.run]).bottom(), place.y())
        ]
        return min(near, key=lambda m: abs(self._x(m.time_min) - place.x()), default=None)

    def _is_at_foot(self, foot: float, y: float) -> bool:
        """Whether a height is that of the markers of a lane; below the lowest are their names."""
        return y >= foot - 2 * GRAB_PX and (y <= foot + 4 or foot >= self._plot().bottom() - 1)

    def _chosen_marker(self) -> Marker | None:
        return next((m for m in self._markers if self._key(m) == self._chosen), None)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        marker = self._near(event.position())
        self._chosen = self._key(marker) if marker is not None else None
        if marker is not None and marker.movable:
            self._dragging = self._opened.start_typing()
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._cursor_x, self._cursor_y = event.position().x(), event.position().y()
        marker = self._chosen_marker()
        if self._dragging and marker is not None:
            run = self._runs[marker.run]
            end = run.at_min + boil_span(run.day)[1]
            self._move_to(marker, end - self._time(event.position().x()), self._dragging)
        else:
            self._tell(event)
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._dragging = ""
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        self._cursor_x = None
        self.update()

    def _tell(self, event: QMouseEvent) -> None:
        marker = self._near(event.position())
        movable = marker is not None and marker.movable
        self.setCursor(Qt.CursorShape.SizeHorCursor if movable else Qt.CursorShape.ArrowCursor)
        if marker is not None:
            QToolTip.showText(event.globalPosition().toPoint(), tip(self.told(marker)), self)

    def told(self, marker: Marker) -> str:
        """Return what a marker stands for."""
        run = self._runs[marker.run]
        rows = [run.name] if run.name else []
        for number_, each in enumerate(marker.additions):
            amount = self._amount(marker, number_)
            row = f"{self._clock(run, each.time_min)} {amount} {each.name}"
            if each.boil_left_min is not None:
                row = tr(
                    "{addition}, {minutes:g} min left", addition=row, minutes=each.boil_left_min
                )
            rows.append(row.strip())
        return "\n".join(rows)

    def _move_to(self, marker: Marker, boil_left: float, merge_key: str) -> None:
        run = self._runs[marker.run]
        start, end = boil_span(run.day)
        left = float(round(min(max(boil_left, 0.0), end - start)))
        edits = moved_edits(run.recipe, marker, left, merge_key)
        if edits:
            one = Together(tuple(edits), edits[0].text, merge_key) if len(edits) > 1 else edits[0]
            self.edit_wanted.emit(self._put(one, run, marker.lines))

    def _put(self, edit: Edit, run: Run, lines: str) -> Edit:
        """Return an edit of a line as it is made: in the recipe where the boil has it from there.

        What is moved while its boil is worked on, or is of that boil alone, is moved in it.
        """
        boils = self._opened.recipe.boils
        if run.boil is None or not boils:
            return edit
        is_own = getattr(boils[run.boil - 1], lines) is not None
        return InBoil(edit, run.boil) if run.alone or is_own else edit

    def keyPressEvent(self, event: QKeyEvent) -> None:
        sideways = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if sideways is None or not self._markers:
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self._nudge(sideways)
        else:
            self._choose_next(sideways)

    def _choose_next(self, by: int) -> None:
        keys = [self._key(each) for each in self._markers]
        now = keys.index(self._chosen) if self._chosen in keys else (-1 if by > 0 else 0)
        self._chosen = keys[(now + by) % len(keys)]
        marker = self._chosen_marker()
        if marker is not None:
            self.setAccessibleDescription(self.told(marker))
        self.update()

    def _nudge(self, by: int) -> None:
        """Later on the clock is fewer minutes left."""
        marker = self._chosen_marker()
        if marker is not None and marker.movable:
            left = marker.additions[0].boil_left_min or 0.0
            self._move_to(marker, left - by, f"nudge {self._chosen}")


def _row(parts: list[str]) -> str:
    """Return parts behind each other, those that are alike once."""
    return ", ".join(dict.fromkeys(parts))


def _band_text(span: Span) -> str:
    took = f"{span.end_min - span.start_min:.0f}"
    minutes = dict(span.label.names).get("minutes", took)
    return tr(BAND_TEXTS[span.key], minutes=minutes)


def _shape(lines: str, x: float, y: float, size: float) -> QPolygonF:
    """Hops are diamonds, fermentables triangles, extras squares: not told by colour alone."""
    if lines == "hops":
        corners = [(0, 0), (0.9, -size), (0, -2 * size), (-0.9, -size)]
        return QPolygonF([QPointF(x + dx * size, y + dy) for dx, dy in corners])
    if lines == "fermentables":
        return QPolygonF([QPointF(x, y - 1.8 * size), QPointF(x - size, y), QPointF(x + size, y)])
    half = 0.7 * size
    return QPolygonF(
        [
            QPointF(x - half, y - 2 * half),
            QPointF(x + half, y - 2 * half),
            QPointF(x + half, y),
            QPointF(x - half, y),
        ]
    )
