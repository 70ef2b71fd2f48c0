"""Forecast and day out of the window: as text for a letter or a spreadsheet, and as pictures."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, QPoint, QSize, Signal
from PySide6.QtGui import QGuiApplication

from designer.brewday.predictions import BY_KEY, MAIN
from designer.brewday.results import Outlook
from designer.library.catalogue import find_style
from designer.library.formula_guard import guarded
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.compose.day_line import DayLine
from designer.window.compose.forecast_panel import ForecastPanel
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.picture_menu import open_picture_menu, pictures_of
from designer.window.parts.picture_out import Picture
from designer.window.session.open_recipe import UNNAMED, OpenRecipe

SG = message("SG")
FORECAST_WIDE, DAY_SIZE = 560, QSize(1060, 250)


class ForecastOut(QObject):
    """Takes what the forecast and the day show to the clipboard and into files."""

    said = Signal(str)

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, panel: ForecastPanel, line: DayLine
    ) -> None:
        super().__init__(panel)
        self._opened, self._display = opened, display
        self._panel, self._line = panel, line

    def copy_text(self) -> None:
        """Put the forecast on the clipboard as a table."""
        QGuiApplication.clipboard().setText(forecast_text(self._opened, self._display))
        self.said.emit(tr("The forecast is on the clipboard as text."))

    def _copy_figure(self, key: str) -> None:
        text = figure_text(key, self._opened, self._display)
        QGuiApplication.clipboard().setText(text)
        self.said.emit(tr("On the clipboard: {text}.", text=text))

    def of_forecast(self) -> Picture:
        """Return the picture of the forecast."""
        beers = self._panel.beers.text() if self._panel.beers is not None else ""
        return forecast_picture(self._opened, self._display, beers)

    def of_day(self) -> Picture:
        """Return the picture of the day."""
        return day_picture(self._opened, self._display, self._line)

    def copy_day(self) -> None:
        """Put the picture of the day on the clipboard."""
        taker = pictures_of(self._line)
        if taker is not None:
            taker.copy(self.of_day())

    def open_forecast_menu(self, at: QPoint, key: str) -> None:
        """Open the menu of the forecast; a `key` names the figure that is pointed at."""
        copy = "action-copy"
        figures: tuple[tuple[str, Callable[[], None], str], ...] = (
            (tr("Copy the forecast as text"), self.copy_text, copy),
        )
        if key:
            figures = (
                (tr("What stands behind it"), partial(self._panel.tell_behind, key), ""),
                (tr("What is this?"), partial(self._panel.explain, key), ""),
                (tr("Copy {figure}", figure=_titled(key)), partial(self._copy_figure, key), copy),
                *figures,
            )
        open_picture_menu(self._panel, at, self.of_forecast, figures)

    def open_day_menu(self, at: QPoint) -> None:
        """Open the menu of the day."""
        open_picture_menu(self._line, at, self.of_day)


def _titled(key: str) -> str:
    return tr(BY_KEY[key].title)


def whole_outlook(opened: OpenRecipe) -> Outlook:
    """Return the forecast with its ranges, whatever is reckoned so far."""
    if not opened.with_ranges:
        opened.want_ranges()
    return opened.newest_outlook()


def forecast_text(opened: OpenRecipe, display: DisplayFormat) -> str:
    """Return the forecast as a table, its cells apart by tabs as a spreadsheet takes them."""
    forecasts = whole_outlook(opened).forecasts
    heads = (tr("Forecast"), tr("Value"), tr("Lowest likely"), tr("Highest likely"), tr("Unit"))
    rows = [(guarded(_name(opened)),), heads]
    for facts in MAIN:
        found = forecasts[facts.key]
        numbers = [
            figure(facts.key, each, display, unit=False)
            for each in (found.value, found.low, found.high)
        ]
        rows.append((tr(facts.title), *numbers, _unit(facts.key, found.value, display)))
    return "".join("\t".join(row) + "\n" for row in rows)


def figure_text(key: str, opened: OpenRecipe, display: DisplayFormat) -> str:
    """Return one forecast in a line: its name, its value with its unit, and its likely range."""
    found = whole_outlook(opened).forecasts[key]
    value, low, high = (figure(key, each, display) for each in (found.value, found.low, found.high))
    return tr(
        "{forecast} {value}, likely {low} to {high}",
        forecast=_titled(key),
        value=value,
        low=low,
        high=high,
    )


def _unit(key: str, value: float, display: DisplayFormat) -> str:
    bare = figure(key, value, display, unit=False)
    unit = figure(key, value, display).removeprefix(bare).strip()
    return unit or (tr(SG) if BY_KEY[key].kind is Kind.GRAVITY else "")


def forecast_picture(opened: OpenRecipe, display: DisplayFormat, beers: str = "") -> Picture:
    """Return the picture of the forecast; `beers` tells of those of a plan."""
    outlook = whole_outlook(opened)
    style = find_style(opened.recipe.style) if opened.recipe.style else None

    def drawn() -> ForecastPanel:
        panel = ForecastPanel(opened, display)
        panel.show_forecasts(outlook.forecasts, style)
        panel.show_beers(beers)
        panel.setEnabled(False)
        return panel

    panel = drawn()
    size = QSize(FORECAST_WIDE, panel.heightForWidth(FORECAST_WIDE))
    words = ". ".join(row.sentence() for row in panel.rows)
    panel.deleteLater()
    note = (
        tr("style range: {style}", style=style.name)
        if style is not None
        else tr("nine brews in ten land in these bands")
    )
    return Picture(_name(opened), tr("Forecast"), note, size, drawn, words)


def day_picture(opened: OpenRecipe, display: DisplayFormat, line: DayLine) -> Picture:
    """Return the picture of the day that a line shows."""

    def drawn() -> DayLine:
        other = DayLine(opened, display)
        other.show_as(line)
        return other

    name, summary = _name(opened), line.summary()
    return Picture(name, tr("The day"), summary, DAY_SIZE, drawn, line.in_words())


def _name(opened: OpenRecipe) -> str:
    return opened.recipe.name or tr(UNNAMED)
