"""Fermenting and packaging: a part of the brew day for the weeks after it.

Everything is folded from the log and reckoned of it; the part keeps only what is being chosen. A
beer is known beside the window (`OpenBrew.beers`), what packaging takes of it with each key.
"""

from __future__ import annotations

from datetime import datetime, time
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.explaining.asked import GravitySample, Scale, Taken
from designer.brewday.packaging.packed import packaged
from designer.errors import DesignerError
from designer.library.file_names import file_name
from designer.recipe.choices import Package
from designer.recipe.day_words import day_words
from designer.recipe.fields import number
from designer.recipe.quantity import Kind
from designer.sheet.plan import yeast_band_c
from designer.translation import tr, trn
from designer.window.brew.fermenting.beer_shown import (
    course_shown,
    pitched_words,
    read_again,
    said,
    standing_shown,
)
from designer.window.brew.fermenting.course_chart import CourseChart
from designer.window.brew.fermenting.form_rows import OneOf
from designer.window.brew.fermenting.packing_choices import PackingChoices
from designer.window.brew.fermenting.packing_panel import PackingPanel
from designer.window.brew.fermenting.reading_form import ReadingForm
from designer.window.brew.fermenting.standing_panel import StandingPanel, words_in
from designer.window.brew.fermenting.sugar_card import grams_text
from designer.window.brew.fermenting.warmth_form import WarmthForm
from designer.window.brew.large_button import LargeButton
from designer.window.brew.page_parts import BrewPart
from designer.window.brew.stove_texts import beer_words
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Choice
from designer.window.parts.page_frame import MARGIN, heading, scrolled
from designer.window.parts.questions import Questions
from designer.window.parts.sized_text import grown
from designer.window.session.open_brew import OpenBrew
from designer.window.session.recipe_window import RecipeWindow
from designer.workbench.brew.beer import is_pitched
from designer.workbench.brew.brew_told import MARKS

if TYPE_CHECKING:
    from designer.brewday.packaging.packaged import Packing
    from designer.window.brew.fermenting.warmth_taking import WarmthTaking
    from designer.workbench.brew.afterwards import KeptSample
    from designer.workbench.brew.beer import BeerNow
    from designer.workbench.brew.brewing import Tasting

BESIDE_PX = 860
"""From this width on the verdict stands beside the picture."""
AGAIN_MS = 600_000
"""A beer is looked at again so often: time goes by for it too."""
REMIND_AT = time(9, 0)
FIRST_DAY = 3
"""Before it a reading says little; common practice, no source."""
BEFORE = ("sound-glass", "sound-plastic", "extract-differs")
"""Cautions that were for before it was packaged."""
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
        self.chart = CourseChart(display)
        self.pitched = words_in()
        self.pitched.setObjectName("soft")
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.reading_button = LargeButton(
            tr("Type a reading"), tr("What the hydrometer shows (N)"), self.ask_reading
        ).as_primary(1.1)
        self.warmth_button = LargeButton(
            tr("Type a temperature"), tr("How warm the beer or its room is"), self.ask_warmth
        )
        self.fermenters = Choice()
        self.fermenters.setMinimumHeight(44)
        self.fermenters.setAccessibleName(tr("Which fermenter is shown"))
        self.fermenters.activated.connect(self._choose_fermenter)
        self.standing = StandingPanel()
        self.reading_form, self.warmth_form = ReadingForm(display), WarmthForm(display)
        self.side = OneOf(self.standing, self.reading_form, self.warmth_form)
        self.packing = PackingPanel(self.choices, display)
        self.packaged = self.packing.done
        self.nothing = words_in(1.3, bold=True)
        self.nothing_words = words_in()
        self.beers = QWidget()
        self.beer_buttons: list[LargeButton] = []
        self._beers = FlowLayout(self.beers, across=8, down=8)
        self._beside: bool | None = None
        self._taking: WarmthTaking | None = None
        self._lay_out()
        self._connect()
        self._again = QTimer(self, interval=AGAIN_MS)
        self._again.timeout.connect(brew.look_at_beer)

    # places

    def _lay_out(self) -> None:
        card = self.course_card = QFrame()
        card.setObjectName("card")
        buttons = FlowLayout(across=8, down=6)
        for each in (self.fermenters, self.warmth_button, self.reading_button):
            buttons.addWidget(each)
        top = QHBoxLayout()
        top.addWidget(heading(tr("Readings against the forecast")))
        top.addStretch(1)
        top.addWidget(self.count)
        inside = QVBoxLayout(card)
        inside.setContentsMargins(14, 10, 14, 8)
        inside.setSpacing(4)
        inside.addLayout(top)
        inside.addWidget(self.pitched)
        inside.addWidget(self.chart, 1)
        inside.addLayout(buttons)
        self._content = QWidget()
        self._grid = QGridLayout(self._content)
        self._grid.setContentsMargins(MARGIN, 2, MARGIN, 12)
        self._grid.setSpacing(12)
        empty = QWidget()
        column = QVBoxLayout(empty)
        column.setContentsMargins(MARGIN, 24, MARGIN, 12)
        column.setSpacing(10)
        for widget in (self.nothing, self.nothing_words, self.beers):
            column.addWidget(widget)
        column.addStretch(1)
        self.pages = QStackedWidget()
        self.area = scrolled(self._content)
        self.pages.addWidget(scrolled(empty))
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
        parts: tuple[QWidget, ...] = (self.course_card, self.side, self.packing)
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
        brew = self._brew
        brew.beer_changed.connect(self._show_soon)
        brew.running_changed.connect(self._show_soon)
        self.choices.changed.connect(self._show_packing)
        self.chart.reading_wanted.connect(self._correct)
        for form in (self.reading_form, self.warmth_form):
            form.closed.connect(self._close_form)
        self.reading_form.taken.connect(self._take_reading)
        self.reading_form.taken_back.connect(brew.take_back)
        self.warmth_form.taken.connect(
            lambda wall, temp_c, typed: brew.note_warmth([(wall, temp_c)], typed)
        )
        self.warmth_form.file_wanted.connect(self._ask_table)
        self.standing.calendar_wanted.connect(self.save_calendar)
        self.packing.bears.package_wanted.connect(self.package)
        self.packing.bears.remind_wanted.connect(self._remind)
        self.packing.label.pdf_wanted.connect(self.save_labels)
        self.packing.label.printing_wanted.connect(self.print_labels)
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
            self._show_nothing()
            return
        self._again.start()
        self.pages.setCurrentIndex(BEER)
        self._show_fermenters()
        self.pitched.setText(pitched_words(beer, self._display))
        self.count.setText(
            trn("{number} reading", "{number} readings", len(beer.readings))
            if beer.readings
            else tr("type the first reading after day {day}", day=FIRST_DAY)
        )
        self.chart.show_course(course_shown(beer, self._display, self._keep()))
        self.standing.show_standing(standing_shown(beer, self._display))
        outlook = self._brew.outlook
        self.packing.name = self._brew.brew.name if self._brew.brew is not None else ""
        ibu = outlook.forecasts["bitterness_ibu"].value if outlook is not None else None
        self.packing.bitterness_ibu = ibu
        again = read_again(beer)
        self.choices.follow(beer.packing, None if again is None else again.date())

    def _keep(self) -> str:
        """Say how warm the beer is to be kept."""
        recipe = self._brew.as_brewed
        if recipe is None:
            return ""
        low, high = yeast_band_c(recipe)
        short = self._display.short
        low_text, high_text = short(Kind.TEMPERATURE, low), short(Kind.TEMPERATURE, high)
        return tr("keep {low} to {high}", low=low_text, high=high_text)

    def _show_fermenters(self) -> None:
        numbers = [each.fermenter for each in self._brew.beers]
        self.fermenters.setVisible(len(numbers) > 1)
        if numbers != [self.fermenters.itemData(n) for n in range(self.fermenters.count())]:
            self.fermenters.clear()
            for each in numbers:
                self.fermenters.addItem(tr("fermenter {number}", number=each), each)
        self.fermenters.setCurrentIndex(max(self.fermenters.findData(self._fermenter), 0))

    def _choose_fermenter(self, at: int) -> None:
        self.choices.settle()
        self._fermenter = int(self.fermenters.itemData(at))
        self.refresh()

    def _show_nothing(self) -> None:
        """Say what will be here, and lead to the beers that ferment."""
        brewing = self._brew.brewing
        self.pages.setCurrentIndex(NOTHING)
        self.side.show_panel(self.standing)
        waits = brewing is not None and self._brew.reckoning_beer and is_pitched(brewing)
        if brewing is None:
            self.nothing.setText(tr("No beer is shown"))
            self.nothing_words.setText(
                tr(
                    "Once a brew has its yeast, this is where its readings are typed in and held "
                    "against the forecast, where it is said whether it is done, and how much sugar "
                    "its bottles take."
                )
            )
        elif waits:
            self.nothing.setText(tr("One moment"))
            self.nothing_words.setText(tr("The forecast of the beer is being worked out."))
        else:
            self.nothing.setText(tr("The yeast is not in yet"))
            self.nothing_words.setText(
                tr("The first reading can be typed in here once that step is ticked at the stove.")
            )
        self._offer_beers()

    def _offer_beers(self) -> None:
        shown = self._brew.brew.uid if self._brew.brew is not None else ""
        wanted = [each for each in self._brew.in_fermenters() if each.uid != shown]
        for button in self.beer_buttons:
            button.hide()
            button.deleteLater()
        self.beer_buttons = []
        for each in wanted:
            button = LargeButton(tr("Show {beer}", beer=beer_words(each, self._brew.now().wall)))
            button.clicked.connect(partial(self._want, each.uid))
            self._beers.addWidget(button)
            button.show()
            self.beer_buttons.append(button)
        self.beers.setVisible(bool(wanted))

    def _want(self, uid: str, _checked: bool = False) -> None:
        self.brew_wanted.emit(uid)

    def _show_packing(self) -> None:
        beer, brewing = self.beer, self._brew.brewing
        if beer is None or brewing is None:
            return
        done = brewing.after.packaged
        self.packing.be_done(done is not None)
        reminded = frozenset(
            datetime.fromtimestamp(each.wall).date()
            for each in brewing.after.reminders
            if not each.done
        )
        if done is None:
            self.packing.show_packing(beer, reminded=reminded)
        else:
            packing, at = done
            self._show_packaged(beer, packing, datetime.fromtimestamp(at.wall))

    def _show_packaged(self, beer: BeerNow, packing: Packing, at: datetime) -> None:
        result = packaged(packing, at.date())
        short = self._display.short
        day = day_words(at.date())
        volume = short(Kind.VOLUME, result.filled_l)
        words = []
        if packing.package == Package.KEG:
            title = tr("In the keg since {day}", day=day)
            words.append(volume)
        else:
            title = tr("In bottles since {day}", day=day)
            words.append(
                trn("{volume} in {number} bottle", "{volume} in {number} bottles", result.caps,
                    volume=volume)
            )  # fmt: skip
            wanted = result.sugar(packing.sugar)
            if wanted is not None:
                words.append(
                    tr("primed with {grams} of {sugar} for {volumes}",
                       grams=grams_text(wanted.grams, self._display),
                       sugar=tr(packing.sugar.value),
                       volumes=short(Kind.CARBONATION, packing.volumes))
                )  # fmt: skip
        words += [
            said(message, self._display) for code, message in result.cautions if code not in BEFORE
        ]
        dates = [
            tr("{day}: {what}", day=day_words(when), what=said(what, self._display))
            for when, what in result.dates
        ]
        brewing = self._brew.brewing
        tastings = [] if brewing is None else [_tasting(each) for each in brewing.tastings]
        self.packaged.show_packaged(title, words, dates, tastings)
        self.packing.label.show_label(self.packing.label_of(beer, packing, result, at.date()))

    # typed

    def take_focus(self) -> None:
        """Give the keyboard to what is typed most."""
        if self.pages.currentIndex() == BEER:
            self.reading_button.setFocus(Qt.FocusReason.OtherFocusReason)
        elif self.beer_buttons:
            self.beer_buttons[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """N types a reading, where no field has the keyboard."""
        is_plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        typing = isinstance(QApplication.focusWidget(), QLineEdit)
        if event.key() == Qt.Key.Key_N and is_plain and not typing and self.beer is not None:
            self.ask_reading()
        else:
            super().keyPressEvent(event)

    def _usual(self) -> GravitySample:
        """What is known of the instrument: that of the last reading, else the recipe's."""
        brewing, recipe = self._brew.brewing, self._brew.as_brewed
        kept = [e.sample for e in brewing.after.samples] if brewing is not None else []
        same = [each for each in kept if each.taken is Taken.FERMENTING]
        if same:
            return same[-1]
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
        path = self._questions.which_warmth_table(self, str(Path.home()))
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

    @property
    def _questions(self) -> Questions:
        window = self.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

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

    def save_calendar(self) -> None:
        """Ask for a file and write what is to be done into it, for a calendar."""
        from designer.workbench.brew.calendar_file import calendar_text, events_of

        beer, brew = self.beer, self._brew.brew
        if beer is None or brew is None:
            return
        path = self._questions.calendar_where(self, self._suggested(".ics"))
        if path is None:
            return
        events = events_of(brew.uid, brew.name, [(e.date(), what) for e, what in beer.dates])
        now = datetime.fromtimestamp(self._brew.now().wall).astimezone()
        content = calendar_text(events, now).encode("utf-8")
        self.file_made.emit(
            path, content, tr("Saved {path}: open it with your calendar.", path=path)
        )

    def _suggested(self, ending: str) -> str:
        brew = self._brew.brew
        return str(Path.home() / (file_name(brew.name if brew is not None else "") + ending))

    def save_labels(self) -> None:
        """Ask for a file and write the labels as PDF."""
        from designer.paper.labels import labels_pdf

        path = self._questions.labels_where(self, self._suggested("-labels.pdf"))
        if path is None:
            return
        try:
            content, count = labels_pdf(
                self.packing.label.labels(), self._display.settings.paper, self.packing.name
            )
        except DesignerError as fault:
            self.failed.emit(str(fault))
            return
        done = trn("Exported {number} page of labels to {path}.",
                   "Exported {number} pages of labels to {path}.", count, path=path)  # fmt: skip
        self.file_made.emit(path, content, done)

    def print_labels(self) -> None:
        """Print the labels through the dialog of the system."""
        from designer.paper.labels import print_labels

        printer = self._questions.which_printer(self, self._display.settings.paper)
        if printer is None:
            return
        try:
            count = print_labels(self.packing.label.labels(), printer, self.packing.name)
        except DesignerError as fault:
            self.failed.emit(str(fault))
            return
        self.told.emit(
            trn("Sent {number} page to the printer.", "Sent {number} pages to the printer.", count)
        )

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


def _tasting(tasting: Tasting) -> str:
    day = day_words(datetime.fromtimestamp(tasting.at.wall).date())
    mark = tr(MARKS[tasting.mark]) if tasting.mark else ""
    told = ". ".join(each for each in (mark, tasting.text) if each)
    return tr("{day}: {said}", day=day, said=told)
