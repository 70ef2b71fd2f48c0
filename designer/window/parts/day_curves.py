"""The curves of the day: stages behind them, the pot's volume, temperature, gravity, bitterness."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from designer.brewday.time_line import Moment, Span
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.parts.curve import draw_curve
from designer.window.parts.day_scale import DayScale, Lettering
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.in_strips import in_strips
from designer.window.parts.inks import Inks, colour
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
WORT_SHARE = 0.62
"""So high of the plot the highest gravity and bitterness reach."""
_ELIDED = Qt.TextElideMode.ElideRight


def draw_bands(painter: QPainter, inks: Inks, scale: DayScale) -> None:
    """Draw the stages as bands."""
    for run in scale.runs:
        lane = scale.lane(run)
        for span in run.day.spans:
            band = BANDS.get(span.key)
            if band is not None:
                left, right = (scale.x(run.at_min + at) for at in (span.start_min, span.end_min))
                area = QRectF(left, lane.top(), max(right - left, 1.0), lane.height())
                painter.fillRect(area, QColor(getattr(inks, band)))


def draw_band_texts(
    painter: QPainter,
    inks: Inks,
    scale: DayScale,
    letters: Lettering,
    width: float,
    *,
    taken: QRectF | None = None,
) -> None:
    """Write what the stages are called above the uppermost lane, none upon another.

    A name that would lie behind what is `taken` is left out.
    """
    free = scale.plot.left()
    painter.setPen(QColor(inks.ink_soft))
    for run in scale.runs:
        for span in run.day.spans:
            if span.key in BAND_TEXTS and run.lane == 0:
                text = _band_text(span)
                wide, left = letters.width_of(text), scale.x(run.at_min + span.start_min)
                at = max(min(left + 2, width - wide - 4), free)
                free = at + wide + 10
                if taken is None or at + wide < taken.left() or at > taken.right():
                    painter.drawText(QPointF(at, scale.plot.top() - 5), text)


def _band_text(span: Span) -> str:
    took = f"{span.end_min - span.start_min:.0f}"
    minutes = dict(span.label.names).get("minutes", took)
    return tr(BAND_TEXTS[span.key], minutes=minutes)


def draw_run_names(painter: QPainter, inks: Inks, scale: DayScale, letters: Lettering) -> None:
    """Write which boil each is, where there are several."""
    around, height = letters.metrics.height() / 2, letters.metrics.height()
    for run in scale.runs:
        if run.name:
            room = QFontMetricsF(letters.bold).horizontalAdvance(run.name) + around
            place = QRectF(scale.x(run.at_min) + 2, scale.lane(run).top() + 2, room, height)
            painter.fillRect(place, QColor(inks.paper))
            painter.setFont(letters.bold)
            painter.setPen(QColor(inks.ink))
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, run.name)
    painter.setFont(letters.font)


def _points(scale: DayScale, run: Run, heights: list[float]) -> list[QPointF]:
    """Return the points of a curve over the moments of a run."""
    return [
        QPointF(scale.x(run.at_min + each.time_min), y)
        for each, y in zip(run.day.moments, heights, strict=True)
    ]


def draw_volume(painter: QPainter, inks: Inks, scale: DayScale, run: Run) -> None:
    """Draw what the pot holds, filled."""
    moments = run.day.moments
    if not moments:
        return
    lane = scale.lane(run)
    points = _points(scale, run, [scale.volume_y(m.pot_volume_l, lane) for m in moments])
    area = QPolygonF(
        [QPointF(points[0].x(), lane.bottom()), *points, QPointF(points[-1].x(), lane.bottom())]
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


def draw_temperature(painter: QPainter, inks: Inks, scale: DayScale, run: Run) -> None:
    """Draw how hot the pot is."""
    painter.setPen(QPen(QColor(inks.heat), 1.8))
    lane, moments = scale.lane(run), run.day.moments
    draw_curve(painter, _points(scale, run, [scale.temp_y(m.temperature_c, lane) for m in moments]))


class WortCurves:
    """Gravity (long dashes) and bitterness (dots) of the wort, each up to its own highest value."""

    def __init__(self, scale: DayScale, display: DisplayFormat) -> None:
        self._scale, self._display = scale, display

    def draw(self, painter: QPainter, inks: Inks, letters: Lettering, width: float) -> None:
        """Draw both for each run; of each lane the last is told beside it."""
        for run in self._scale.runs:
            moments = [each for each in run.day.moments if each.wort_l > 0.0]
            gravities = [1000.0 * (m.gravity_sg - 1.0) for m in moments]
            bitter = [m.bitterness_ibu for m in moments]
            line = letters.metrics.height()
            for values, style, ink, up in (
                (gravities, Qt.PenStyle.DashLine, inks.heading, line + 4.0),
                (bitter, Qt.PenStyle.DotLine, inks.green, 4.0),
            ):
                highest = max(values, default=0.0)
                if highest <= 0.0:
                    continue
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(QColor(ink), 1.8, style))
                painter.drawPolyline(self._curve(run, moments, values, highest))
                if self._scale.is_last(run):
                    text = self._told(highest, is_gravity=values is gravities)
                    self._write(painter, letters, text, up, width)

    def _curve(
        self, run: Run, moments: list[Moment], values: list[float], highest: float
    ) -> QPolygonF:
        lane = self._scale.lane(run)
        reach = WORT_SHARE * lane.height() / highest
        return QPolygonF(
            [
                QPointF(self._scale.x(run.at_min + m.time_min), lane.bottom() - reach * value)
                for m, value in zip(moments, values, strict=True)
            ]
        )

    def _told(self, highest: float, *, is_gravity: bool) -> str:
        if is_gravity:
            gravity = self._display.value(Kind.GRAVITY, 1.0 + highest / 1000.0)
            return tr("gravity to {gravity}", gravity=gravity)
        bitterness = self._display.rounded(Kind.BITTERNESS, highest)
        return tr("bitterness to {bitterness}", bitterness=bitterness)

    def _write(
        self, painter: QPainter, letters: Lettering, text: str, up: float, width: float
    ) -> None:
        left = self._scale.plot.right() + 6
        shown = letters.metrics.elidedText(text, _ELIDED, width - left - 2)
        painter.drawText(QPointF(left, self._scale.plot.bottom() - up), shown)
