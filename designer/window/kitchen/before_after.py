"""The forecast of the open recipe, without what the kitchen taught and with it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QWidget

from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Outlook, Range
from designer.translation import tr
from designer.window.kitchen.learned_cells import empty, label, rule
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import inks_for

SHOWN = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu")
HIGH, BAR = 22, 12.0
MARGIN_SHARE = 0.35
"""So much of the wider range is shown beyond it at both ends."""


class TwoRanges(QWidget):
    """A range as it was, dashed, and as it is now, filled, on one line."""

    def __init__(self, before: Range | None, after: Range | None) -> None:
        super().__init__()
        self._before, self._after = before, after
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        keep_direction(self)

    def sizeHint(self) -> QSize:
        return QSize(180, HIGH)

    def minimumSizeHint(self) -> QSize:
        return QSize(90, HIGH)

    def paintEvent(self, event: QPaintEvent) -> None:
        shown = [each for each in (self._before, self._after) if each is not None]
        if not shown:
            return
        low, high = min(e.low for e in shown), max(e.high for e in shown)
        room = max(high - low, 1e-9)
        low, high = low - MARGIN_SHARE * room, high + MARGIN_SHARE * room
        middle, wide = self.height() / 2.0, self.width() - 4.0

        def at(value: float) -> float:
            return 2.0 + wide * (value - low) / (high - low)

        inks = inks_for(self.palette())
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(inks.strip), 2))
            painter.drawLine(QPointF(2, middle), QPointF(2 + wide, middle))
            if self._after is not None:
                bar = QRectF(
                    at(self._after.low),
                    middle - BAR / 2,
                    at(self._after.high) - at(self._after.low),
                    BAR,
                )
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(QColor(inks.span))
                painter.drawRoundedRect(bar, 3, 3)
            if self._before is not None:
                frame = QRectF(
                    at(self._before.low),
                    middle - BAR / 2 - 2,
                    at(self._before.high) - at(self._before.low),
                    BAR + 4,
                )
                painter.setPen(QPen(QColor(inks.line_strong), 1.3, Qt.PenStyle.DashLine))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRoundedRect(frame, 3, 3)
            value = (self._after or shown[0]).value
            painter.setPen(QPen(QColor(inks.mark), 3))
            painter.drawLine(QPointF(at(value), middle - 9), QPointF(at(value), middle + 9))


class _Key(QWidget):
    """What the two kinds of bars mean."""

    def __init__(self, *, dashed: bool) -> None:
        super().__init__()
        self._dashed = dashed
        self.setFixedSize(24, 14)
        self.setAccessibleName(tr("Dashed bar") if dashed else tr("Filled bar"))

    def paintEvent(self, event: QPaintEvent) -> None:
        inks = inks_for(self.palette())
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            if self._dashed:
                painter.setPen(QPen(QColor(inks.line_strong), 1.3, Qt.PenStyle.DashLine))
            else:
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(QColor(inks.span))
            painter.drawRoundedRect(QRectF(1, 1, 21, 11), 3, 3)


class BeforeAfter(QWidget):
    """Four forecasts, each with both ranges in figures and as bars."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)

    def show_both(self, before: Outlook | None, after: Outlook | None) -> None:
        """Show two forecasts; without `after` nothing is taught yet."""
        empty(self._grid)
        if before is None:
            return
        self._grid.addWidget(self._keys(has_after=after is not None), 0, 0, 1, 3)
        for number, key in enumerate(SHOWN):
            was = before.forecasts.get(key)
            now = after.forecasts.get(key) if after is not None else None
            if was is not None:
                self._add(3 * number + 1, key, was, now)

    def _keys(self, *, has_after: bool) -> QWidget:
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(_Key(dashed=True))
        row.addWidget(label(tr("before"), "soft"))
        if has_after:
            row.addSpacing(10)
            row.addWidget(_Key(dashed=False))
            row.addWidget(label(tr("with what it taught"), "soft"))
        row.addStretch(1)
        return line

    def _add(self, row: int, key: str, was: Range, now: Range | None) -> None:
        self._grid.addWidget(rule(), row, 0, 1, 3)
        name = tr(BY_KEY[key].label)
        self._grid.addWidget(label(name), row + 1, 0)
        before = self._range(key, was)
        self._grid.addWidget(label(before, "soft"), row + 1, 1)
        after = self._range(key, now) if now is not None else ""
        self._grid.addWidget(label(after, "strong"), row + 1, 2)
        bars = TwoRanges(was, now)
        bars.setAccessibleName(
            tr("{name}: {before} before, {after} now", name=name, before=before, after=after)
            if after
            else tr("{name}: {before}", name=name, before=before)
        )
        self._grid.addWidget(bars, row + 2, 0, 1, 3)

    def _range(self, key: str, known: Range) -> str:
        low = figure(key, known.low, self._display, unit=False)
        return tr("{low} to {high}", low=low, high=figure(key, known.high, self._display))
