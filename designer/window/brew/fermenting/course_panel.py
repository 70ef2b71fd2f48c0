"""The panel of the readings: since when it ferments, the picture, and what is typed into it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout

from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.sheet.plan import yeast_band_c
from designer.translation import tr, trn
from designer.window.brew.fermenting.beer_shown import course_shown, pitched_words
from designer.window.brew.fermenting.course_chart import CourseChart
from designer.window.brew.fermenting.standing_panel import words_in
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Choice
from designer.window.parts.page_frame import heading
from designer.window.parts.targets import TARGET_PX
from designer.workbench.brew.beer import BeerNow

FIRST_DAY = 3
"""Before it a reading says little; common practice, no source."""


class CoursePanel(QFrame):
    """`reading_asked` and `warmth_asked` want to type one; `fermenter_chosen` has its number."""

    reading_asked = Signal()
    warmth_asked = Signal()
    fermenter_chosen = Signal(int)

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display = display
        self.chart = CourseChart(display)
        self.pitched = words_in()
        self.count = QLabel()
        for each in (self.pitched, self.count):
            each.setObjectName("soft")
        self.reading_button = LargeButton(
            tr("Type a reading"), tr("What the hydrometer shows (N)"), self.reading_asked.emit
        ).as_primary(1.1)
        self.warmth_button = LargeButton(
            tr("Type a temperature"),
            tr("How warm the beer or its room is"),
            self.warmth_asked.emit,
        )
        self.fermenters = Choice()
        self.fermenters.setMinimumHeight(TARGET_PX)
        self.fermenters.setSizeAdjustPolicy(Choice.SizeAdjustPolicy.AdjustToContents)
        self.fermenters.setAccessibleName(tr("Which fermenter is shown"))
        self.fermenters.activated.connect(
            lambda at: self.fermenter_chosen.emit(int(self.fermenters.itemData(at)))
        )
        buttons = FlowLayout(across=8, down=6)
        for widget in (self.fermenters, self.warmth_button, self.reading_button):
            buttons.addWidget(widget)
        top = QHBoxLayout()
        top.addWidget(heading(tr("Readings against the forecast")))
        top.addStretch(1)
        top.addWidget(self.count)
        inside = QVBoxLayout(self)
        inside.setContentsMargins(14, 10, 14, 8)
        inside.setSpacing(4)
        inside.addLayout(top)
        inside.addWidget(self.pitched)
        inside.addWidget(self.chart, 1)
        inside.addLayout(buttons)

    def show_beer(self, beer: BeerNow, recipe: Recipe | None, fermenters: Sequence[int]) -> None:
        """Show a beer of that recipe; of several `fermenters` which of them it is in."""
        self.pitched.setText(pitched_words(beer, self._display))
        self.count.setText(
            trn("{number} reading", "{number} readings", len(beer.readings))
            if beer.readings
            else tr("type the first reading after day {day}", day=FIRST_DAY)
        )
        keep = "" if recipe is None else self._keep(recipe)
        self.chart.show_course(course_shown(beer, self._display, keep))
        self.fermenters.setVisible(len(fermenters) > 1)
        offered = [self.fermenters.itemData(n) for n in range(self.fermenters.count())]
        if list(fermenters) != offered:
            self.fermenters.clear()
            for each in fermenters:
                self.fermenters.addItem(tr("fermenter {number}", number=each), each)
        self.fermenters.setCurrentIndex(max(self.fermenters.findData(beer.fermenter), 0))

    def _keep(self, recipe: Recipe) -> str:
        """Say how warm the beer is to be kept."""
        low, high = (self._display.short(Kind.TEMPERATURE, each) for each in yeast_band_c(recipe))
        return tr("keep {low} to {high}", low=low, high=high)
