"""Fermenting and packaging: a part of the brew day for the weeks after it.

Everything is folded from the log and reckoned of it; the part keeps only what is being chosen. A
beer is known beside the window (`OpenBrew.beers`), what packaging takes of it with each key.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QLineEdit,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.explaining.asked import GravitySample, Scale, Taken
from designer.recipe.choices import Package
from designer.recipe.day_words import day_words
from designer.recipe.fields import number
from designer.recipe.quantity import Kind
from designer.translation import tr, trn
from designer.window.brew.fermenting.beer_shown import (
    said,
    standing_shown,
)
from designer.window.brew.fermenting.course_panel import CoursePanel
from designer.window.brew.fermenting.form_rows import OneOf
from designer.window.brew.fermenting.handing_out import HandingOut
from designer.window.brew.fermenting.no_beer import NoBeer
from designer.window.brew.fermenting.packaged_card import packaged_shown
from designer.window.brew.fermenting.packing_choices import PackingChoices
from designer.window.brew.fermenting.packing_panel import PackingPanel
from designer.window.brew.fermenting.reading_form import ReadingForm
from designer.window.brew.fermenting.standing_panel import StandingPanel
from designer.window.brew.fermenting.warmth_form import WarmthForm
from designer.window.brew.page_parts import BrewPart
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import MARGIN, scrolled
from designer.window.parts.scrolling import bring_into_view
from designer.window.parts.sized_text import grown
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.packing_of_beer import (
    BeerPacked,
    label_facts,
    packed_of,
)

if TYPE_CHECKING:
    from designer.window.brew.fermenting.warmth_taking import WarmthTaking
    from designer.workbench.brew.afterwards import KeptSample
    from designer.workbench.brew.beer import BeerNow

BESIDE_PX = 860
"""From this width on the verdict stands beside the picture."""
AGAIN_MS = 600_000
"""A beer is looked at again so often: time goes by for it too."""
REMIND_AT = time(9, 0)
SCROLL_BAR_PX = 12
NOTHING, BEER = 0, 1


class FermentingPart(BrewPart):
    """`file_made` carries a file to be written: where, its bytes, what is said once it is there.

    `failed` says what cannot be done, `brew_wanted` names another brew.
    """

    file_made = Signal(object, object, str)
    failed = Signal(str)
    told = Signal(str)
    brew_wanted = Signal(str)

    def __init__(self, brew: OpenBrew, display: DisplayFormat) -> None:
        super().__init__()
        self._brew, self._display = brew, display
        self._fermenter = 1
        self.choices = PackingChoices(brew, self)
        self.course = CoursePanel(display)
        self.standing = StandingPanel()
        self.reading_form, self.warmth_form = ReadingForm(display), WarmthForm(display)
        self.side = OneOf(self.standing, self.reading_form, self.warmth_form)
        self.packing = PackingPanel(self.choices, display)
        self.packaged = self.packing.done
        self.nothing = NoBeer(brew)
        self._out = HandingOut(brew, display, self)
        self._beside: bool | None = None
        self._taking: WarmthTaking | None = None
        self._lay_out()
        self._connect()
        self._again = QTimer(self, interval=AGAIN_MS)
        self._again.timeout.connect(brew.look_at_beer)

    # places

    def _lay_out(self) -> None:
        self._content = QWidget()
        self._grid = QGridLayout(self._content)
        self._grid.setContentsMargins(MARGIN, 2, MARGIN, 12)
        self._grid.setSpacing(12)
        self.pages = QStackedWidget()
        self.area = scrolled(self._content)
        self.pages.addWidget(scrolled(self.nothing))
        self.pages.addWidget(self.area)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.pages)
        self._place()

    def _place(self) -> None:
        beside = self.width() >= grown(self, BESIDE_PX)
        if beside is self._beside:
            return
        self._beside = beside
        parts: tuple[QWidget, ...] = (self.course, self.side, self.packing)
        for part in parts:
            self._grid.removeWidget(part)
        places = [(0, 0, 1, 1), (0, 1, 1, 1), (1, 0, 1, 2)]
        if not beside:
            places = [(row, 0, 1, 2) for row in range(len(parts))]
        for part, place in zip(parts, places, strict=True):
            self._grid.addWidget(part, *place)
        self._grid.setColumnStretch(0, 64)
        self._grid.setColumnStretch(1, 36)
        self._grid.setRowStretch(len(parts), 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()
        self.packing.fit_into(self.width() - 2 * MARGIN - SCROLL_BAR_PX)

    def _connect(self) -> None:
        brew, out, label = self._brew, self._out, self.packing.label
        out.file_made.connect(self.file_made)
        out.failed.connect(self.failed)
        out.told.connect(self.told)
        brew.beer_changed.connect(self._show_soon)
        brew.running_changed.connect(self._show_soon)
        self.choices.changed.connect(self._show_packing)
        self.course.chart.of_beer = lambda: self._out.name
        self.course.chart.reading_wanted.connect(self._correct)
        self.course.reading_asked.connect(self.ask_reading)
        self.course.warmth_asked.connect(self.ask_warmth)
        self.course.fermenter_chosen.connect(self._choose_fermenter)
        self.nothing.brew_wanted.connect(self.brew_wanted)
        for form in (self.reading_form, self.warmth_form):
            form.closed.connect(self._close_form)
        self.reading_form.taken.connect(self._take_reading)
        self.reading_form.taken_back.connect(brew.take_back)
        self.warmth_form.taken.connect(
            lambda wall, temp_c, typed: brew.note_warmth([(wall, temp_c)], typed)
        )
        self.warmth_form.file_wanted.connect(self._ask_table)
        self.standing.calendar_wanted.connect(lambda: out.save_calendar(self.beer))
        self.packing.bears.package_wanted.connect(self.package)
        self.packing.bears.remind_wanted.connect(self._remind)
        label.pdf_wanted.connect(lambda: out.save_labels(label.labels()))
        label.printing_wanted.connect(lambda: out.print_labels(label.labels()))
        self.packaged.tasted.connect(brew.taste)

    # what is shown

    @property
    def beer(self) -> BeerNow | None:
        """The beer that is shown."""
        beers = self._brew.beers
        return next((e for e in beers if e.fermenter == self._fermenter), self._brew.beer)

    def _show_soon(self) -> None:
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Show the beer as it is known."""
        beer = self.beer
        if beer is None:
            self._brew.look_at_beer()
            self.pages.setCurrentIndex(NOTHING)
            self.side.show_panel(self.standing)
            self.nothing.refresh()
            return
        self._again.start()
        self.pages.setCurrentIndex(BEER)
        numbers = [each.fermenter for each in self._brew.beers]
        self.course.show_beer(beer, self._brew.as_brewed, numbers)
        self.standing.show_standing(standing_shown(beer, self._display))
        again = beer.read_again
        self.choices.follow(beer.packing, None if again is None else again.date())

    def _choose_fermenter(self, number: int) -> None:
        self.choices.settle()
        self._fermenter = number
        self.refresh()

    def _show_packing(self) -> None:
        beer, brewing = self.beer, self._brew.brewing
        if beer is None or brewing is None:
            return
        done = brewing.after.packaged_in(beer.fermenter)
        self.packing.be_done(done is not None)
        reminded = frozenset(
            datetime.fromtimestamp(each.wall).date()
            for each in brewing.after.reminders
            if not each.done
        )
        if done is None:
            self.packing.show_packing(reminded=reminded)
        else:
            packing, at = done
            day = datetime.fromtimestamp(at.wall).date()
            shown = packaged_shown(packing, day, brewing.tastings, self._display)
            self.packaged.show_packaged(shown)
        self._show_label(beer)

    def _show_label(self, beer: BeerNow) -> None:
        """Show the label of the beer, as it was packaged or as it is being chosen."""
        brewing, known = self._brew.brewing, self._brew.seen
        packing, result = self.choices.packing, self.choices.result
        if brewing is None or known is None or packing is None or result is None:
            return
        packed = BeerPacked(packing, result)
        if brewing.after.packaged_in(beer.fermenter) is not None:
            packed = packed_of(brewing, beer, self.choices.today)
        facts = label_facts(self._out.name, known, beer, packed, self.choices.today)
        self.packing.show_label(facts, packed.packing)

    # typed

    def take_focus(self) -> None:
        """Give the keyboard to what is typed most."""
        if self.pages.currentIndex() == BEER:
            self.course.reading_button.setFocus(Qt.FocusReason.OtherFocusReason)
            bring_into_view(self.course.reading_button)
        elif self.nothing.buttons:
            self.nothing.buttons[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """N types a reading, where no field has the keyboard."""
        is_plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        typing = isinstance(QApplication.focusWidget(), QLineEdit)
        if event.key() == Qt.Key.Key_N and is_plain and not typing:
            self.ask_reading()
        else:
            super().keyPressEvent(event)

    def _usual(self) -> GravitySample:
        """What is known of the instrument: that of the last reading, else the recipe's."""
        brewing, recipe = self._brew.brewing, self._brew.as_brewed
        kept = [e.sample for e in brewing.after.samples] if brewing is not None else []
        same = [each for each in kept if each.taken is Taken.FERMENTING]
        if same:
            return replace(same[-1], fermenter=self._fermenter)
        scale = Scale.PLATO if self._display.settings.gravity == "plato" else Scale.SG
        if recipe is None:
            return GravitySample(0.0, scale, taken=Taken.FERMENTING, fermenter=self._fermenter)
        return GravitySample(
            0.0,
            scale,
            made_for_c=number(recipe.process, "hydrometer_made_for"),
            taken=Taken.FERMENTING,
            fermenter=self._fermenter,
        )

    def ask_reading(self) -> None:
        """Ask for a reading beside the picture."""
        if self.beer is not None:
            self._ask_for(None)

    def _correct(self, entry: str) -> None:
        brewing = self._brew.brewing
        kept = (
            next((e for e in brewing.after.samples if e.entry == entry), None) if brewing else None
        )
        if kept is not None:
            self._ask_for(kept)

    def _ask_for(self, kept: KeptSample | None) -> None:
        beer = self.beer
        if beer is None:
            return
        self.side.show_panel(self.reading_form)
        self.reading_form.ask(beer.pitched, self._brew.now().wall, self._usual(), kept)
        self.area.ensureWidgetVisible(self.side)

    def ask_warmth(self) -> None:
        """Ask how warm it is."""
        beer = self.beer
        if beer is not None:
            self.side.show_panel(self.warmth_form)
            self.warmth_form.ask(beer.pitched, self._brew.now().wall)
            self.area.ensureWidgetVisible(self.side)

    def _close_form(self) -> None:
        if self.side.shown is not self.standing:
            self.side.show_panel(self.standing)
            self.take_focus()

    def _take_reading(self, sample: GravitySample, typed: str, wall: float, corrects: str) -> None:
        self._brew.take_sample(sample, typed, corrects)

    def _ask_table(self) -> None:
        """Ask for a table of temperatures, and take it in."""
        path = self._out.which_table()
        if path is not None:
            self._tables().read(path)

    def _tables(self) -> WarmthTaking:
        if self._taking is None:
            # Few ask for it; not loaded with the part.
            from designer.window.brew.fermenting.warmth_taking import WarmthTaking

            self._taking = WarmthTaking(self._brew, self)
            self._taking.told.connect(self.told)
            self._taking.failed.connect(self.failed)
        return self._taking

    # done

    def package(self) -> None:
        """Write that the beer is in bottles or keg."""
        self.choices.settle()
        packing, result = self.choices.packing, self.choices.result
        if packing is None or result is None or not result.may_go_ahead:
            return
        wanted = result.sugar(packing.sugar) if packing.package == Package.BOTTLES else None
        volume = self._display.short(Kind.VOLUME, result.filled_l)
        if packing.package == Package.KEG:
            words = tr("{volume} in the keg", volume=volume)
        else:
            words = trn("{volume} in {number} bottle", "{volume} in {number} bottles", result.caps,
                        volume=volume)  # fmt: skip
        self._brew.package(packing, words, None if wanted is None else wanted.grams)

    def _remind(self, day: object) -> None:
        result, brew = self.choices.result, self._brew.brew
        if result is None or brew is None or not result.dates:
            return
        when, what = result.dates[0]
        wall = datetime.combine(when, REMIND_AT).timestamp()
        self._brew.remind(wall, said(what, self._display))
        self.told.emit(tr("You will be reminded on {day}.", day=day_words(when)))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._brew.look_at_beer()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.choices.settle()
        self._again.stop()

    def close_down(self) -> None:
        """Write what was being chosen."""
        self.choices.settle()
        if self._taking is not None:
            self._taking.close()
        self._again.stop()
