"""Compose: editors left, forecast, vessels and findings right, the day below.

At the start of the program the editors of fermentables and hops stand alone for one turn of the
event loop, so that they can be typed in at once; `complete()` then adds all that is reckoned.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from designer.library.catalogue import find_style
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.document import PLAN_TYPES
from designer.recipe.plan import is_planned, recipe_at
from designer.translation import named, tr
from designer.window.compose.lines_columns import EXTRAS, FERMENTABLES, HOPS
from designer.window.compose.lines_view import LinesPanel
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import MARGIN, Page, heading, scrolled
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.worked_on import WorkedOn, has_part

if TYPE_CHECKING:
    from designer.brewday.results import Finding, Glimpse, Outlook
    from designer.recipe.document import Recipe
    from designer.recipe.edits import Edit
    from designer.recipe.place import Place
    from designer.window.compose.day_line import DayLine
    from designer.window.compose.forecast_out import ForecastOut
    from designer.window.compose.forecast_panel import ForecastPanel
    from designer.window.compose.forecast_told import ForecastTold
    from designer.window.compose.grave_line import GraveLine
    from designer.window.compose.plan_strip import PlanStrip
    from designer.window.compose.process_form import ProcessForm
    from designer.window.compose.style_card import StyleLink
    from designer.window.compose.watch_out import WatchOut
    from designer.window.compose.what_if import WhatIf
    from designer.window.parts.vessels_drawing import VesselsDrawing


FIT = "fit"
"""The page with the ways, as findings name it."""
STYLES = "styles"
"""The card with the nearest styles, likewise."""


class ComposePage(Page):
    """The page on which a recipe is made."""

    refused = Signal(str)
    removed = Signal(str)
    choice_wanted = Signal(object)
    page_wanted = Signal(str)
    said = Signal(str)
    process: ProcessForm
    forecast: ForecastPanel
    vessels: VesselsDrawing
    watch_out: WatchOut
    grave: GraveLine
    day_line: DayLine
    styles: StyleLink

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self.worked_on = WorkedOn(opened)
        self.fermentables = LinesPanel(self.worked_on, FERMENTABLES, display)
        self.hops = LinesPanel(self.worked_on, HOPS, display)
        for panel in (self.fermentables, self.hops):
            self._listen(panel)
        self._left, self._right, self._below = QWidget(), QWidget(), QWidget()
        # It grows and shrinks with the findings; what stands above them need not be painted anew.
        self._right.setAttribute(Qt.WidgetAttribute.WA_StaticContents)
        self._lay_out()
        self._complete = False
        self.plan: PlanStrip | None = None
        self._told: ForecastTold | None = None
        self._out: ForecastOut | None = None
        if not opened.waiting:
            self.complete()

    def _listen(self, panel: LinesPanel) -> None:
        panel.refused.connect(self.refused)
        panel.removed.connect(self.removed)
        panel.view.what_if_wanted.connect(self.what_if)
        panel.model.choice_wanted.connect(self.choice_wanted)

    def complete(self) -> None:
        """Add what is reckoned of the recipe, and the editors below the first two; once."""
        if self._complete:
            return
        self._complete = True
        self._make_panels()
        self._fill_left()
        self._fill_right()
        self._fill_below()
        outlook = self._opened.outlook
        self.show_outlook(outlook)
        self._style_cure.follow(outlook)  # it was told of before anything here followed it

    def _make_panels(self) -> None:
        # The editors are seen first; what is reckoned is drawn after them.
        from designer.window.compose.day_line import DayLine
        from designer.window.compose.forecast_panel import ForecastPanel
        from designer.window.compose.grave_line import GraveLine
        from designer.window.compose.process_form import ProcessForm
        from designer.window.compose.style_card import StyleLink
        from designer.window.compose.style_cure import StyleCure
        from designer.window.compose.watch_out import WatchOut
        from designer.window.parts.vessels_drawing import VesselsDrawing

        opened, display = self._opened, self._display
        self.extras = LinesPanel(self.worked_on, EXTRAS, display)
        self.process = ProcessForm(self.worked_on, display)
        self.forecast = ForecastPanel(opened, display)
        self.vessels = VesselsDrawing(display, across=3)
        self.watch_out = WatchOut(display)
        self.grave = GraveLine(self.watch_out, self._scrolled, self._column)
        self.styles = StyleLink(opened, display)
        self._style_cure = StyleCure(opened, self)
        self.day_line = DayLine(opened, display)
        self._listen(self.extras)
        self.process.what_if_wanted.connect(self.what_if)
        self.watch_out.cure_wanted.connect(self._make_seen)
        self.watch_out.place_wanted.connect(self.go_to)
        self.watch_out.page_wanted.connect(self._lead)
        self.styles.edit_wanted.connect(self._make_seen)
        self._style_cure.found.connect(self._show_findings)
        self.day_line.edit_wanted.connect(self._make_seen)
        self.forecast.copy_wanted.connect(lambda: self.out.copy_text())
        self.forecast.menu_wanted.connect(lambda at, key: self.out.open_forecast_menu(at, key))
        self.day_line.copy_wanted.connect(lambda: self.out.copy_day())
        self.day_line.menu_wanted.connect(lambda at: self.out.open_day_menu(at))
        opened.stepped.connect(self.show_change)
        display.settings.changed.connect(self._tell_beers)
        opened.values_changed.connect(self._show_glimpse)
        opened.outlook_changed.connect(self.show_outlook)
        self.worked_on.part_changed.connect(self._show_part)

    def _lay_out(self) -> None:
        columns = QSplitter(Qt.Orientation.Horizontal)
        columns.setChildrenCollapsible(False)
        columns.addWidget(scrolled(self._left))
        self._column = QWidget()
        self._scrolled = scrolled(self._right)
        beside = QVBoxLayout(self._column)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.setSpacing(0)
        beside.addWidget(self._scrolled, 1)
        columns.addWidget(self._column)
        columns.setStretchFactor(0, 11)
        columns.setStretchFactor(1, 9)
        columns.setSizes([700, 580])
        rows = QSplitter(Qt.Orientation.Vertical)
        rows.setChildrenCollapsible(False)
        rows.addWidget(columns)
        rows.addWidget(self._below)
        rows.setStretchFactor(0, 3)
        rows.setStretchFactor(1, 1)
        rows.setSizes([520, 205])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(rows)
        self._below.setObjectName("dayPanel")
        self._below.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._editors = QVBoxLayout(self._left)
        self._editors.setContentsMargins(MARGIN, 10, 10, 12)
        self._editors.setSpacing(10)
        self._editors.addWidget(self.fermentables)
        self._editors.addWidget(self.hops)
        self._editors.addStretch(1)

    def _fill_left(self) -> None:
        for panel in (self.process, self.extras):
            self._editors.insertWidget(self._editors.count() - 1, panel)
        self._opened.recipe_changed.connect(self._show_plan)
        self._show_plan()

    def _show_plan(self) -> None:
        """Put the strip of a plan above the lines once a recipe has one."""
        if self.plan is not None or not is_planned(self._opened.recipe):
            return
        # Most recipes are brewed as they are written.
        from designer.window.compose.plan_strip import PlanStrip

        self.plan = PlanStrip(self.worked_on, self._display, self._left)
        self.plan.fit_wanted.connect(partial(self.page_wanted.emit, FIT))
        self._editors.insertWidget(0, self.plan)

    def _fill_right(self) -> None:
        layout = QVBoxLayout(self._right)
        layout.setContentsMargins(10, 10, MARGIN, 8)
        layout.setSpacing(4)
        top = QHBoxLayout()
        self._against = QLabel()
        self._against.setTextFormat(Qt.TextFormat.PlainText)
        self._against.setObjectName("soft")
        self._against.setToolTip(STYLE_NUMBERS)
        top.addWidget(heading(tr("Forecast")))
        top.addStretch(1)
        top.addWidget(self._against)
        layout.addLayout(top)
        layout.addWidget(self.forecast)
        layout.addWidget(self.styles)
        layout.addSpacing(6)
        layout.addWidget(heading(tr("Pot and fermenter, to scale")))
        layout.addWidget(self.vessels, 3)
        layout.addSpacing(6)
        layout.addWidget(heading(tr("Watch out")))
        layout.addWidget(self.watch_out)
        layout.addStretch(1)
        column = self._column.layout()
        if column is not None:
            column.addWidget(self.grave)

    def _fill_below(self) -> None:
        layout = QVBoxLayout(self._below)
        layout.setContentsMargins(MARGIN, 6, MARGIN, 6)
        layout.setSpacing(2)
        top = QHBoxLayout()
        top.addWidget(heading(tr("The day")))
        self.wort_button = QPushButton(tr("Gravity and bitterness"))
        self.wort_button.setObjectName("quiet")
        self.wort_button.setCheckable(True)
        self.wort_button.setToolTip(
            tr("Also draw the gravity and bitterness of the wort in the pot")
        )
        self.wort_button.setAccessibleName(tr("Also draw the gravity and bitterness of the wort"))
        self.wort_button.toggled.connect(self.day_line.show_wort)
        top.addWidget(self.wort_button)
        top.addStretch(1)
        self._summary = QLabel()
        self._summary.setTextFormat(Qt.TextFormat.PlainText)
        self._summary.setObjectName("soft")
        top.addWidget(self._summary)
        layout.addLayout(top)
        layout.addWidget(self.day_line, 1)

    def show_outlook(self, outlook: Outlook) -> None:
        """Show another forecast in every panel."""
        self._show_values(outlook)
        self._show_line(outlook)
        self.forecast.show_behind()
        self.forecast.show_beers(self._beers(outlook))
        self._show_findings(outlook.findings)
        self._tell(outlook)

    def _tell(self, outlook: Outlook) -> None:
        """Let a screen reader hear what has changed, if one listens."""
        if self._told is None and QAccessible.isActive():
            # Most brewers see it.
            from designer.window.compose.forecast_told import ForecastTold

            self._told = ForecastTold(self, self._opened, self._display)
        if self._told is not None:
            self._told.follow(outlook)

    def _show_findings(self, findings: tuple[Finding, ...]) -> None:
        self.watch_out.show_findings(findings)
        self.grave.look()

    def _beers(self, outlook: Outlook) -> str:
        if outlook.plan is None:
            return ""
        # Most recipes have no plan.
        from designer.window.compose.plan_beers import beers_told

        written = self.worked_on.written_day()
        return beers_told(outlook.plan, outlook.forecasts, written, self._display)

    def _show_glimpse(self, glimpse: Glimpse) -> None:
        """Show new values; findings and what stands behind a number stay till theirs are known.

        So does the time line, the largest of the pictures, unless it is there that one works.
        """
        self._show_values(glimpse)
        if self.day_line.is_worked_on:
            self._show_line(glimpse)

    def _show_values(self, seen: Outlook | Glimpse) -> None:
        recipe = self._opened.recipe
        style = find_style(recipe.style) if recipe.style else None
        self.forecast.show_forecasts(seen.forecasts, style)
        self._against.setText(
            tr("style range: {style}", style=named(style.name))
            if style is not None
            else tr("nine brews in ten land in these bands")
        )
        if seen.plan is None:
            self.vessels.show_day(recipe, seen.day)
        else:
            self.vessels.show_plan(seen.plan)

    def _tell_beers(self) -> None:
        """Tell of the beers in the units now preferred."""
        if not self._opened.waiting:
            self.forecast.show_beers(self._beers(self._opened.outlook))

    def _show_part(self) -> None:
        """Show the day of what the editors show."""
        if not self._opened.waiting:
            self._show_line(self._opened.outlook)

    def _show_line(self, seen: Outlook | Glimpse) -> None:
        # Loaded with the line that it is for.
        from designer.workbench.day_runs import runs_of, yeast_times

        runs = runs_of(self._opened.recipe, seen.day, seen.plan, self.worked_on.boil)
        self.day_line.show_runs(runs, yeast_times(runs, seen.plan))
        self._summary.setText(self.day_line.summary())

    def take_focus(self) -> None:
        self.fermentables.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def add_line(self, lines: str) -> None:
        """Begin a new line in one of the three editors."""
        self._panels()[lines].view.add_line()

    def add_named(self, lines: str, name: str) -> None:
        """Add a line of something of the catalogue, and ask for its amount."""
        panel = self._panels()[lines]
        if panel.model.add_named(name):
            panel.view.setFocus(Qt.FocusReason.OtherFocusReason)
            row = panel.model.rowCount() - 2
            panel.view.open_cell(panel.model.index(row, panel.model.column_of("amount")))

    def _panels(self) -> dict[str, LinesPanel]:
        self.complete()
        return {"fermentables": self.fermentables, "hops": self.hops, "extras": self.extras}

    @property
    def out(self) -> ForecastOut:
        """What takes forecast and day out of the window; loaded when first wanted."""
        self.complete()
        if self._out is None:
            from designer.window.compose.forecast_out import ForecastOut

            self._out = ForecastOut(self._opened, self._display, self.forecast, self.day_line)
            self._out.said.connect(self.said)
        return self._out

    def what_if(self, place: Place | None = None) -> WhatIf:
        """Open variants of the recipe, in which what stands at a place is turned first."""
        self.complete()
        # Loaded when somebody tries something.
        from designer.window.compose.what_if import WhatIf

        tried = WhatIf(self.worked_on, self._display, place, self.window())
        tried.open()
        return tried

    def focused_place(self) -> Place | None:
        """Return the place of the recipe that has the keyboard; None for none."""
        focus = QApplication.focusWidget()
        for panel in self._panels().values():
            if focus is not None and panel.isAncestorOf(focus):
                return panel.place_of(focus)
        return self.process.place_of(focus)

    def _lead(self, to: str) -> None:
        """Lead to where more is told of a finding: a card of this page, or another page."""
        if to == STYLES:
            self.styles.open_card()
        else:
            self.page_wanted.emit(to)

    def close_down(self) -> None:
        if self._complete:
            self._style_cure.close_down()
            self.styles.close_down()

    def _make_seen(self, edit: Edit) -> None:
        """Make an edit that came from elsewhere on the page, and show what it changed."""
        before = self._opened.recipe
        if self._opened.make(edit):
            self.show_change(before, self._opened.recipe)

    def show_change(self, before: Recipe, after: Recipe, step: str = "") -> None:
        """Scroll to the first cell or field in which two recipes differ, and mark it."""
        if not self.isVisible():
            return
        self.complete()
        # Only an undo needs it, not the start.
        from designer.recipe.changed_places import places_changed

        for place in places_changed(before, after):
            if place.of in PLAN_TYPES:
                self._show_in_plan(place, before, after)
                return
            if self._show_place(place):
                return

    def _show_place(self, place: Place) -> bool:
        panels = self._panels()
        if place.of in panels:
            panels[place.of].show_change(place.line, place.field)
            return True
        return self.process.show_change(place)

    def _show_in_plan(self, place: Place, before: Recipe, after: Recipe) -> None:
        """Show what has changed in the boil or fermenter where it has, or that the plan has."""
        self.choose(place)
        boil, fermenter = self.worked_on.boil, self.worked_on.fermenter
        if boil is not None and has_part(before, boil, fermenter):
            from designer.recipe.changed_places import places_changed

            now = recipe_at(after, boil, fermenter)
            for each in places_changed(recipe_at(before, boil, fermenter), now):
                if self._show_place(each):
                    return
        if self.plan is not None and self.plan.isVisible():
            self.plan.show_change()

    def choose(self, place: Place) -> None:
        """Let the editors show the boil or the fermenter that a place names."""
        number = place.line
        if number is None or not is_planned(self._opened.recipe):
            self.worked_on.choose(None)
        elif place.of == "boils":
            self.worked_on.choose_boil(number)
        else:
            self.worked_on.choose_fermenter(number)

    def go_to(self, place: Place) -> None:
        """Put the cursor where a finding points to."""
        if place.of == "style":
            self.styles.open_card()
            return
        panels = self._panels()
        if place.of in PLAN_TYPES:
            self.choose(place)
            if self.plan is not None:
                self.plan.take_focus()
        elif place.of in panels:
            panel = panels[place.of]
            row = panel.model.row_of(place.line) if place.line is not None else 0
            panel.view.setFocus()
            panel.view.setCurrentIndex(panel.model.index(max(row, 0), 0))
            panel.view.scrollTo(panel.view.currentIndex())
        else:
            self.process.go_to(place)
