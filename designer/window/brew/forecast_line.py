"""The five forecasts in one line: what is expected now, from what to what, and what was planned."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.brewday.predictions import MAIN
from designer.translation import tr
from designer.window.parts.announcing import Rested
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import inks_for
from designer.window.parts.sized_text import grown, sized

if TYPE_CHECKING:
    from designer.brewday.results import Range

GAP_PX = 18.0


class Told(NamedTuple):
    """One forecast: its name, what it is now, its band, and what was planned if that differs."""

    name: str
    value: str
    band: str
    was: str

    @property
    def said(self) -> str:
        """All of it, for a screen reader."""
        return " ".join(each for each in self if each)


def told_of(
    now: Mapping[str, Range], planned: Mapping[str, Range], display: DisplayFormat
) -> tuple[Told, ...]:
    """Return the forecasts as the line tells them."""
    found = []
    for each in MAIN:
        if each.key not in now:
            continue
        expected = now[each.key]
        value = figure(each.key, expected.value, display)
        before = planned.get(each.key, expected)
        was = figure(each.key, before.value, display)
        low, high = (
            figure(each.key, end, display, unit=False) for end in (expected.low, expected.high)
        )
        band = tr("{low}–{high}", low=low, high=high) if low != high else ""
        plan = tr("plan {figure}", figure=was) if was != value else ""
        found.append(Told(tr(each.heading), value, band, plan))
    return tuple(found)


class ForecastLine(QWidget):
    """Painted, so that new figures ask for no new layout."""

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self.told: tuple[Told, ...] = ()
        self._heard: tuple[Told, ...] = ()
        self._rested = Rested(self, self._what_changed)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        keep_direction(self)

    def show_forecasts(self, now: Mapping[str, Range], planned: Mapping[str, Range]) -> None:
        """Show what is expected now beside what was planned."""
        told = told_of(now, planned, self._display)
        if told != self.told:
            self.told = told
            self.setAccessibleName(tr("Forecast now"))
            self.setAccessibleDescription(". ".join(each.said for each in told))
            self.setToolTip(
                tr("What is expected now, from what to what in nine brews of ten; and the plan")
            )
            self._rested.changed()
            self.update()

    def _what_changed(self) -> str:
        """Return the forecasts that are not what a screen reader was told last."""
        heard, self._heard = self._heard, self.told
        return ". ".join(each.said for each in self.told if each not in heard)

    def sizeHint(self) -> QSize:
        return QSize(600, round(grown(self, 18)))

    def minimumSizeHint(self) -> QSize:
        return QSize(200, round(grown(self, 18)))

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.told:
            return
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            pixels = self.fitting_pixels()
            plain = sized(self.font(), pixels)
            x = float(self.width()) - self._width(pixels)
            for each in self.told:
                for text, font, ink in self._runs(each, plain):
                    painter.setFont(font)
                    painter.setPen(QColor(getattr(inks_for(self.palette()), ink)))
                    wide = QFontMetricsF(font).horizontalAdvance(text)
                    place = QRectF(x, 0, wide + 2, self.height())
                    painter.drawText(place, int(Qt.AlignmentFlag.AlignVCenter), text)
                    x += wide + 0.4 * pixels
                x += self._gap(pixels)

    def fitting_pixels(self) -> float:
        """Return the size of type in which all of it has room, down to a least one."""
        pixels = grown(self, 12.5)
        while self._width(pixels) > self.width() and pixels > 8.0:
            pixels -= 0.5
        return pixels

    def _gap(self, pixels: float) -> float:
        return GAP_PX * pixels / 12.5

    def _runs(self, told: Told, plain: QFont) -> list[tuple[str, QFont, str]]:
        bold = QFont(plain)
        bold.setBold(True)
        ink = "green" if told.was else "ink"
        runs = [
            (told.name, plain, "ink_soft"),
            (told.value, bold, ink),
            (told.band, plain, "ink_soft"),
            (told.was, plain, "ink_soft"),
        ]
        return [each for each in runs if each[0]]

    def _width(self, pixels: float) -> float:
        plain = sized(self.font(), pixels)
        width = 0.0
        for told in self.told:
            for text, font, _ in self._runs(told, plain):
                width += QFontMetricsF(font).horizontalAdvance(text) + 0.4 * pixels
            width += self._gap(pixels)
        return width - self._gap(pixels) - 0.4 * pixels
