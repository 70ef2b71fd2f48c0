"""The lines of the day that a pot is not to be filled beyond: its rim, and the room for foam."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from designer.brewday.foam import foam_line_l
from designer.recipe.fields import number_or_none
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.parts.day_scale import DayScale, Lettering
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import LIGHT, Inks
from designer.workbench.day_runs import Run

_Pots = dict[tuple[float, float], list[Run]]
_ELIDED = Qt.TextElideMode.ElideRight


class _Limit(NamedTuple):
    """A line that the pot is not to be filled beyond; its `figure` where its name has no room."""

    volume_l: float
    text: str
    figure: str
    ink: str
    style: Qt.PenStyle


def draw_limits(
    painter: QPainter,
    inks: Inks,
    scale: DayScale,
    letters: Lettering,
    display: DisplayFormat,
    width: float,
) -> None:
    """Draw the lines; their names stand right of the plot and never on each other.

    One pot after the other in a lane has its lines where it is used, alike pots one name.
    """
    metrics, beside = letters.metrics, scale.plot.right() + 6
    for pots in _by_lane(scale).values():
        below = -1e9
        for (rim, foam), runs in pots.items():
            left, right = scale.plot.left(), scale.plot.right()
            if len(pots) > 1:
                left, right = scale.x(runs[0].at_min), scale.x(runs[-1].end_min)
            for limit in _limits(rim, foam, inks, display):
                y = scale.volume_y(limit.volume_l, scale.lane(runs[0]))
                painter.setPen(QPen(QColor(limit.ink), 1.5, limit.style))
                painter.drawLine(QPointF(left, y), QPointF(right, y))
                text_y = max(y + metrics.ascent() / 2 - 1, below + metrics.height())
                room = width - beside - 2
                fits = letters.width_of(limit.text) <= room
                shown = limit.text if fits else metrics.elidedText(limit.figure, _ELIDED, room)
                painter.drawText(QPointF(beside, text_y), shown)
                below = text_y


def limits_px(scale: DayScale, letters: Lettering, display: DisplayFormat) -> float:
    """Return how wide the names of all these lines are."""
    limits = [
        limit
        for pots in _by_lane(scale).values()
        for rim, foam in pots
        for limit in _limits(rim, foam, LIGHT, display)
    ]
    usual = letters.width_of(tr("foam line {volume}", volume="00.0 L"))
    return max([usual, *(letters.width_of(each.text) for each in limits)])


def _by_lane(scale: DayScale) -> dict[int, _Pots]:
    found: dict[int, _Pots] = {}
    for run in scale.runs:
        rim, foam = number_or_none(run.recipe.pot, "volume"), foam_line_l(run.recipe.pot)
        if rim is not None and foam is not None:
            found.setdefault(run.lane, {}).setdefault((rim, foam), []).append(run)
    return found


def _limits(rim: float, foam: float, inks: Inks, display: DisplayFormat) -> tuple[_Limit, _Limit]:
    rim_text, foam_text = (display.short(Kind.VOLUME, each) for each in (rim, foam))
    return (
        _Limit(
            rim, tr("pot rim {volume}", volume=rim_text), rim_text, inks.rim, Qt.PenStyle.DashLine
        ),
        _Limit(
            foam,
            tr("foam line {volume}", volume=foam_text),
            foam_text,
            inks.foam,
            Qt.PenStyle.DotLine,
        ),
    )
