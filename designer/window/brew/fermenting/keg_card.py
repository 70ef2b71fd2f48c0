"""A keg: what the regulator is set to at each temperature, and how long that takes."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QLabel, QSizePolicy, QVBoxLayout, QWidget

from designer.brewday.packaging.packaged import KegSetting, Packaged, Packing
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.fermenting.figure_field import FigureField
from designer.window.brew.fermenting.packing_choices import PackingChoices
from designer.window.brew.fermenting.standing_panel import words_in
from designer.window.parts.day_scale import Lettering
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.page_frame import heading
from designer.window.parts.sized_text import grown, sized

KEG_LIMITS = (-1.0, 30.0)
TYPE_PX, ROW_PX = 11.5, 22.0


class KegChart(QWidget):
    """Pressure by temperature, a row for each: a bar as long as the pressure, and its figure."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self.settings: tuple[KegSetting, ...] = ()
        self.asked_c = 0.0
        self.setAccessibleName(tr("Pressure by temperature"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_settings(self, settings: tuple[KegSetting, ...], asked_c: float) -> None:
        """Show what holds the gas that is wanted, the temperature asked for marked."""
        found = tuple(sorted(settings, key=lambda each: each.temp_c))
        if (found, asked_c) == (self.settings, self.asked_c):
            return
        self.settings, self.asked_c = found, asked_c
        short = self._display.short
        said = [
            tr("{pressure} at {temperature}", pressure=short(Kind.PRESSURE, each.bar),
               temperature=short(Kind.TEMPERATURE, each.temp_c))
            for each in found
        ]  # fmt: skip
        self.setAccessibleDescription(". ".join(said))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(300, round(grown(self, ROW_PX) * max(len(self.settings), 1)))

    def minimumSizeHint(self) -> QSize:
        return QSize(200, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.settings:
            return
        letters, inks = (
            Lettering(sized(self.font(), grown(self, TYPE_PX))),
            inks_for(self.palette()),
        )
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            for number, each in enumerate(self.settings):
                self._paint_row(painter, inks, letters, number, each)

    def _paint_row(
        self, painter: QPainter, inks: Inks, letters: Lettering, number: int, each: KegSetting
    ) -> None:
        high = grown(self, ROW_PX)
        top, asked = number * high, abs(each.temp_c - self.asked_c) < 1e-6
        painter.setFont(letters.bold if asked else letters.font)
        metrics = painter.fontMetrics()
        left = metrics.horizontalAdvance(self._display.short(Kind.TEMPERATURE, -10.0)) + 14
        right = metrics.horizontalAdvance(self._display.short(Kind.PRESSURE, 88.8)) + 8
        most = max(max(one.bar for one in self.settings), 0.1)
        if asked:
            painter.fillRect(QRectF(0, top, self.width(), high), QColor(inks.chosen))
        room = max(self.width() - left - right, 1.0)
        bar = QRectF(left, top + 0.3 * high, room * each.bar / most, 0.4 * high)
        painter.fillRect(bar, QColor(inks.green if asked else inks.span))
        painter.setPen(QColor(inks.ink))
        base = top + (high + metrics.capHeight()) / 2
        painter.drawText(QPointF(6, base), self._display.short(Kind.TEMPERATURE, each.temp_c))
        painter.drawText(
            QPointF(bar.right() + 6, base), self._display.short(Kind.PRESSURE, each.bar)
        )


class KegCard(QFrame):
    """The temperature of the keg, its setting in words, and the chart."""

    def __init__(self, choices: PackingChoices, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display = display
        name = tr("Keg at")

        def take(value: float) -> None:
            figure = display.short(Kind.TEMPERATURE, value)
            said = tr("keg at {figure}", figure=figure)
            choices.choose("keg_c", said, lambda packing: replace(packing, keg_c=value))

        self.temperature = FigureField(
            display, Kind.TEMPERATURE, name, KEG_LIMITS, take, choices.settle, choices.forget
        )
        label = QLabel(name)
        label.setObjectName("soft")
        label.setBuddy(self.temperature)
        self.setting = words_in(1.3, bold=True)
        self.how_long = words_in()
        self.chart = KegChart(display)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 10, 14, 12)
        layout.setSpacing(6)
        layout.addWidget(heading(tr("Pressure by temperature")))
        for each in (label, self.temperature, self.setting, self.how_long, self.chart):
            layout.addWidget(each)
        layout.addStretch(1)

    def show_packing(self, packing: Packing, result: Packaged) -> None:
        """Show what the regulator is set to."""
        self.temperature.show_value(packing.keg_c)
        settings = result.keg if result.refusal is None else ()
        asked = next((e for e in settings if abs(e.temp_c - packing.keg_c) < 1e-6), None)
        self.chart.show_settings(settings, packing.keg_c)
        self.chart.setVisible(bool(settings))
        self.setting.setVisible(asked is not None)
        self.how_long.setVisible(asked is not None)
        if asked is None:
            return
        short = self._display.short
        self.setting.setText(
            tr("{pressure} at {temperature}", pressure=short(Kind.PRESSURE, asked.bar),
               temperature=short(Kind.TEMPERATURE, asked.temp_c))
        )  # fmt: skip
        self.how_long.setText(
            tr(
                "{fewest} to {most} days at rest, or shaken for {minutes} min.",
                fewest=f"{asked.fewest_days:.0f}",
                most=f"{asked.days:.0f}",
                minutes=f"{asked.shaken_min:.0f}",
            )
        )
