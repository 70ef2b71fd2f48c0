"""The clock below the day, and the scales of temperature and volume left of it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from designer.recipe.quantity import Kind
from designer.units import ShownUnits
from designer.units.quick_words import FACTORS
from designer.window.parts.day_scale import DayScale, Lettering
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks
from designer.workbench.day_reading import clock

TICKS_MIN = (5, 10, 15, 30, 60, 120, 240)


def draw_axis(
    painter: QPainter,
    inks: Inks,
    scale: DayScale,
    letters: Lettering,
    start_of: Callable[[float], float],
) -> None:
    """Draw the clock; `start_of` says at which minute of its day it is where a day begins."""
    plot, metrics = scale.plot, letters.metrics
    room = 1.6 * letters.width_of("00:00")
    tick = next((t for t in TICKS_MIN if scale.px_per_min * t >= room), 1440)
    below, bottom = plot.bottom() + metrics.ascent() + 6, plot.bottom()
    painter.setPen(QPen(QColor(inks.line_strong), 1))
    for run in scale.runs:
        lane = scale.lane(run)
        painter.drawLine(lane.bottomLeft(), lane.bottomRight())
    minutes = list(_ticks(scale, start_of, tick))
    for at, _ in minutes:
        x = scale.x(at)
        painter.drawLine(QPointF(x, bottom), QPointF(x, bottom + 4))
    painter.setPen(QColor(inks.ink_soft))
    following = [*(scale.x(at) for at, _ in minutes[1:]), plot.right() + room]
    for (at, of_day), then in zip(minutes, following, strict=False):  # a short strip may have none
        text, x = clock(of_day, 0.0), scale.x(at)
        if then - x >= letters.width_of(text):  # else another day begins upon it
            painter.drawText(QPointF(x - letters.width_of(text) / 2, below), text)


def _ticks(
    scale: DayScale, start_of: Callable[[float], float], tick: int
) -> Iterator[tuple[float, int]]:
    """Yield where on the line a tick stands, and at which minute of its day."""
    lasting: dict[float, float] = {}
    for run in scale.runs:
        base = round(run.at_min - run.clock_min, 6)
        lasting[base] = max(lasting.get(base, 0.0), run.clock_min + float(run.day.total_min))
    for base, lasts in lasting.items():
        start = start_of(base)
        for of_day in range(math.ceil(start / tick) * tick, math.floor(start + lasts) + 1, tick):
            yield base + of_day - start, of_day


def draw_scales(
    painter: QPainter, inks: Inks, scale: DayScale, letters: Lettering, display: DisplayFormat
) -> None:
    """Draw two scales left of each lane: temperatures outside, the pot's volumes inside."""
    for run in {run.lane: run for run in scale.runs}.values():
        _draw_scales_of(painter, inks, scale, letters, display, scale.lane(run))


def _draw_scales_of(
    painter: QPainter,
    inks: Inks,
    scale: DayScale,
    letters: Lettering,
    display: DisplayFormat,
    lane: QRectF,
) -> None:
    def write(text: str, right: float, y: float, ink: str) -> None:
        painter.setPen(QColor(ink))
        left = right - letters.width_of(text)
        painter.drawText(QPointF(left, y + letters.metrics.ascent() / 2 - 1), text)

    inner = lane.left() - 6
    outer = inner - letters.width_of("00.0 L") - 8
    for celsius in (20.0, 60.0, 100.0) if scale.lanes == 1 else (20.0, 100.0):
        text = display.single(Kind.TEMPERATURE, celsius)
        write(text, outer, scale.temp_y(celsius, lane), inks.heat)
    for litres in _volume_ticks(scale, display):
        text = display.single(Kind.VOLUME, litres)
        write(text, inner, scale.volume_y(litres, lane), inks.wort_edge)


def _volume_ticks(scale: DayScale, display: DisplayFormat) -> list[float]:
    """Round volumes, few enough to stand above each other."""
    unit = FACTORS[Kind.VOLUME]["gal"] if display.one_system is ShownUnits.US else 1.0
    highest = scale.highest_l / unit
    most = 4.5 / scale.lanes
    steps = (0.5, 1, 2, 3, 5, 10, 20, 50, 100)
    step = next((each for each in steps if highest / each <= most), 500.0)
    return [unit * step * n for n in range(1, int(highest / step) + 1)]
