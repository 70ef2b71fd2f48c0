"""Compose: editors left, forecast, vessels and findings right, the day below."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.results import Outlook
from designer.library.catalogue import find_style
from designer.window.day_line import DayLine
from designer.window.forecast_panel import ForecastPanel
from designer.window.lines_columns import EXTRAS, FERMENTABLES, HOPS
from designer.window.lines_view import LinesPanel
from designer.window.open_recipe import OpenRecipe
from designer.window.process_form import ProcessForm
from designer.window.shown import Shown
from designer.window.vessels_drawing import VesselsDrawing
from designer.window.watch_out import WatchOut

MARGIN = 18


def heading(text: str) -> QLabel:
    """Return the heading of a panel."""
    label = QLabel(text.upper())
    label.setObjectName("sectionHeading")
    return label


def scrolled(content: QWidget) -> QScrollArea:
    """Return a column that scrolls when it is taller than the window."""
    area = QScrollArea()
    area.setWidget(content)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.viewport().setAutoFillBackground(False)
    content.setAutoFillBackground(False)
    return area


class ComposePage(QWidget):
    """The page on which a recipe is made."""

    refused = Signal(str)

    def __init__(self, opened: OpenRecipe, shown: Shown, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened, self._shown = opened, shown
        self.fermentables = LinesPanel(opened, FERMENTABLES, shown)
        self.hops = LinesPanel(opened, HOPS, shown)
        self.extras = LinesPanel(opened, EXTRAS, shown)
        self.process = ProcessForm(opened, shown)
        self.forecast = ForecastPanel(opened, shown)
        self.vessels = VesselsDrawing(shown)
        self.watch_out = WatchOut(shown)
        self.day_line = DayLine(opened, shown)
        self._against = QLabel()
        self._against.setObjectName("soft")
        self._summary = QLabel()
        self._summary.setObjectName("soft")
        for panel in (self.fermentables, self.hops, self.extras, self.process):
            panel.refused.connect(self.refused)
        self.watch_out.cure_wanted.connect(opened.make)
        self.watch_out.place_wanted.connect(self.go_to)
        self.day_line.edit_wanted.connect(opened.make)
        opened.outlook_changed.connect(self.show_outlook)
        self._lay_out()
        self.show_outlook(opened.outlook)

    def _lay_out(self) -> None:
        columns = QSplitter(Qt.Orientation.Horizontal)
        columns.setChildrenCollapsible(False)
        columns.addWidget(scrolled(self._left()))
        columns.addWidget(scrolled(self._right()))
        columns.setStretchFactor(0, 11)
        columns.setStretchFactor(1, 9)
        columns.setSizes([700, 580])
        rows = QSplitter(Qt.Orientation.Vertical)
        rows.setChildrenCollapsible(False)
        rows.addWidget(columns)
        rows.addWidget(self._below())
        rows.setStretchFactor(0, 3)
        rows.setStretchFactor(1, 1)
        rows.setSizes([520, 205])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(rows)

    def _left(self) -> QWidget:
        column = QWidget()
        layout = QVBoxLayout(column)
        layout.setContentsMargins(MARGIN, 10, 10, 12)
        layout.setSpacing(10)
        for panel in (self.fermentables, self.hops, self.process, self.extras):
            layout.addWidget(panel)
        layout.addStretch(1)
        return column

    def _right(self) -> QWidget:
        column = QWidget()
        layout = QVBoxLayout(column)
        layout.setContentsMargins(10, 10, MARGIN, 12)
        layout.setSpacing(4)
        top = QHBoxLayout()
        top.addWidget(heading("Forecast"))
        top.addStretch(1)
        top.addWidget(self._against)
        layout.addLayout(top)
        layout.addWidget(self.forecast)
        layout.addSpacing(6)
        layout.addWidget(heading("Pot and fermenter, to scale"))
        layout.addWidget(self.vessels, 3)
        layout.addSpacing(6)
        layout.addWidget(heading("Watch out"))
        layout.addWidget(self.watch_out)
        layout.addStretch(1)
        return column

    def _below(self) -> QWidget:
        panel = QWidget()
        panel.setObjectName("dayPanel")
        panel.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        layout = QVBoxLayout(panel)
        layout.setContentsMargins(MARGIN, 6, MARGIN, 6)
        layout.setSpacing(2)
        top = QHBoxLayout()
        top.addWidget(heading("The day"))
        self.wort_button = QPushButton("Gravity and bitterness")
        self.wort_button.setObjectName("quiet")
        self.wort_button.setCheckable(True)
        self.wort_button.setToolTip("Draw gravity and bitterness of the wort in the pot too")
        self.wort_button.setAccessibleName("Draw gravity and bitterness of the wort too")
        self.wort_button.toggled.connect(self.day_line.show_wort)
        top.addWidget(self.wort_button)
        top.addStretch(1)
        top.addWidget(self._summary)
        layout.addLayout(top)
        layout.addWidget(self.day_line, 1)
        return panel

    def show_outlook(self, outlook: Outlook) -> None:
        """Show another forecast in every panel."""
        recipe = self._opened.recipe
        style = find_style(recipe.style) if recipe.style else None
        self.forecast.show_outlook(outlook, style)
        self._against.setText(f"bracket: {style.name}" if style is not None else "")
        self.vessels.show_day(recipe, outlook.day)
        self.watch_out.show_findings(outlook.findings)
        self._summary.setText(self.day_line.summary())

    def go_to(self, place: str) -> None:
        """Put the cursor where a finding points to."""
        lines, _, line_id = place.partition(".")
        panels = {"fermentables": self.fermentables, "hops": self.hops, "extras": self.extras}
        if lines in panels:
            panel = panels[lines]
            row = panel.model.row_of(int(line_id)) if line_id.isdigit() else 0
            panel.view.setFocus()
            panel.view.setCurrentIndex(panel.model.index(max(row, 0), 0))
        else:
            self.process.go_to(place)
