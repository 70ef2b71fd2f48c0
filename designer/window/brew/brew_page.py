"""Brew day: the step now beside the stove, and the log of what was done.

The page shows what `OpenBrew` tells and hands on what is pressed or typed; of the brew it keeps
nothing. Before a day begins it shows the open recipe's first step, and what begins it.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QFont, QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QHBoxLayout,
    QLineEdit,
    QMenu,
    QVBoxLayout,
    QWidget,
)

from designer.translation import spoken, tr
from designer.window.brew.alarm import Alarm
from designer.window.brew.at_the_stove import AtTheStove
from designer.window.brew.card_panel import CardPanel
from designer.window.brew.clocks_column import ClocksColumn
from designer.window.brew.day_now import DayNow
from designer.window.brew.flash_bar import FlashBar
from designer.window.brew.forecast_line import ForecastLine
from designer.window.brew.large_button import LargeButton
from designer.window.brew.leaving_out import LeavingOut
from designer.window.brew.log_part import LogPart
from designer.window.brew.measuring import Measuring
from designer.window.brew.new_timer import NewTimer
from designer.window.brew.page_bar import PageBar
from designer.window.brew.page_parts import PageParts, WithMargin
from designer.window.brew.part_names import PARTS, Part
from designer.window.brew.phone_button import PhoneButton
from designer.window.brew.row_list import ROW
from designer.window.brew.screen_awake import ScreenAwake
from designer.window.brew.sign_button import SignButton
from designer.window.brew.sound_button import SoundButton
from designer.window.brew.speaking import TICK_MS, Speaking
from designer.window.brew.step_card import TimeLeft
from designer.window.brew.stove_texts import (
    beer_words,
    brew_words,
    clock_text,
    day_over,
    left_of,
    left_to_do,
    not_begun,
    planned_rows,
    rows_of,
    shown_of,
    state_words,
    whole_step,
)
from designer.window.parts.beside_field import say_beside
from designer.window.parts.deeds import add_entry
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import Page, heading
from designer.window.parts.reading_order import order_tabs
from designer.window.parts.row_menu import offer_menu
from designer.window.session.open_brew import OpenBrew
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench import keys
from designer.workbench.brew.day_as_brewed import (
    DayAsBrewed,
    day_as_brewed,
    marks_of,
    planned_marks,
)
from designer.workbench.brew.passing import passed
from designer.workbench.brew.schedule import Schedule, schedule_of
from designer.workbench.day_reading import start_minutes
from designer.workbench.day_runs import runs_of

if TYPE_CHECKING:
    from designer.library.store.brews import Brew
    from designer.sheet.stove import StoveStep
    from designer.window.brew.fermenting.fermenting_part import FermentingPart
    from designer.window.brew.reading.reading_part import ReadingPart
    from designer.workbench.brew.brewing import Brewing
    from designer.workbench.brew.instants import Instant

HIGH_TYPE = 1.2
"""So much larger is the type of the page where contrast is high."""
USUAL_SIZE = "usualSize"
"""What a widget's type is where contrast is usual, kept with it: a new dress takes it away."""
OWN_KEYS = (QLineEdit, QAbstractButton)
"""What has the keyboard for itself: a field is typed in, a button pressed."""
LETTERS = (Qt.Key.Key_T, Qt.Key.Key_N)
"""Keys that mean no step, and nothing to a button: of timer and note."""


class BrewPage(Page):
    """The page of a brew; `start` begins a day of the open recipe.

    `full_screen_wanted` asks for the whole screen, or for the window again; `to_phone_wanted` for
    the page that a phone takes, `from_phone_wanted` for what comes back of it.
    """

    said = Signal(str)
    full_screen_wanted = Signal(bool)
    to_phone_wanted = Signal()
    from_phone_wanted = Signal()
    without_recipe_wanted = Signal()
    """A reading of a wort whose recipe is not here is to be explained."""
    paper_wanted = Signal()
    """A brew of the open recipe that was done from the paper sheet is to be typed in."""
    file_made = Signal(object, object, str)
    failed = Signal(str)

    def __init__(
        self,
        opened: OpenRecipe,
        display: DisplayFormat,
        brew: OpenBrew,
        start: Callable[[], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._display, self.brew, self._start = opened, display, brew, start
        self.is_full = False
        self.stove = AtTheStove()
        self.card = self.stove.card
        self.parts = PageParts()
        self._hang_parts()
        self.bar = PageBar(self.parts.keys)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.bar)
        layout.addWidget(self.parts, 1)
        self._planned: tuple[StoveStep, ...] = ()
        self._clocks: dict[str, str] = {}
        self._due = ""
        self._afterwards = "", ""
        self._was_left = False
        self._was_larger = False
        self._draw_day: Callable[[], None] = lambda: None
        # After what is read first has been painted.
        self._day_soon = QTimer(self, singleShot=True, interval=0)
        self._day_soon.timeout.connect(lambda: self._draw_day())
        self.measuring = Measuring(brew, display, self)
        self.strip = self.measuring.strip
        self.forecasts = ForecastLine(display)
        self.day = DayNow(display)
        self.day.of_brew = self._name
        self.day_heading = heading(tr("The day"))
        above_day = QHBoxLayout()
        above_day.addWidget(self.day_heading)
        above_day.addWidget(self.forecasts, 1)
        self.stove.rows.addWidget(self.measuring)
        self.stove.rows.addLayout(above_day)
        self.stove.rows.addWidget(self.day, 1)
        alarm = Alarm(self, display.settings)
        self.speaking = Speaking(brew, alarm, ScreenAwake(self), parent=self)
        self.clocks = ClocksColumn(brew, self.card, display)
        self.stove.clocks.addWidget(self.clocks)
        self.flash = FlashBar(self)
        self._add_buttons()
        self._make_panels()
        order_tabs(self)
        self._connect()
        self._ticks = QTimer(self, interval=TICK_MS)
        self._ticks.timeout.connect(self._tick)

    def _hang_parts(self) -> None:
        """Offer the parts of the page; but for the stove each waits until it is wanted."""
        parts = self.parts
        parts.hang(Part.STOVE, lambda: self.stove)
        parts.hang(Part.READING, self._reading_part)
        parts.hang(Part.FERMENTING, self._fermenting)
        parts.hang(Part.LOG, self._log_part)
        parts.show_part(Part.STOVE)

    @cached_property
    def log(self) -> LogPart:
        """The log of the brew, put together when it is first wanted, be it to be exported."""
        log = LogPart(self.brew, self)
        log.hide()  # until its part is shown
        log.note_wanted.connect(self.ask_for_note)
        log.file_made.connect(self.file_made)
        return log

    def _log_part(self) -> WithMargin:
        part = WithMargin(self.log, self.log.refresh, self.log.view)
        self.log.show()
        return part

    def _reading_part(self) -> ReadingPart:
        # As with the days after the stove.
        from designer.window.brew.reading.reading_part import ReadingPart

        part = ReadingPart(self.brew, self._opened, self._display)
        part.without_recipe_wanted.connect(self.without_recipe_wanted)
        return part

    def _fermenting(self) -> FermentingPart:
        # Days after the stove; put together when its part is first shown.
        from designer.window.brew.fermenting.fermenting_part import FermentingPart

        part = FermentingPart(self.brew, self._display)
        part.file_made.connect(self.file_made)
        part.failed.connect(self.failed)
        part.told.connect(self.said)
        part.brew_wanted.connect(self._choose_brew)
        return part

    def _add_buttons(self) -> None:
        bar = self.bar
        self.paper_button = self.card.second_button
        self.timer_button = bar.add(
            LargeButton(tr("New timer"), tr("A timer of your own (T)"), self.ask_for_timer)
        )
        self.phone_button = bar.add(PhoneButton(self.to_phone_wanted, self.from_phone_wanted))
        self.sound_button = bar.add(SoundButton(self.speaking.alarm, self._display.settings))
        self.contrast_button = SignButton(self.turn_contrast)
        self.contrast_button.show_sign(
            "contrast", tr("Black and white in larger type, or as usual")
        )
        bar.add(self.contrast_button)
        self.full_button = bar.add(LargeButton("", "", self.turn_full))
        self._say_full()

    def _make_panels(self) -> None:
        self.leaving = LeavingOut(self.card)
        self.new_timer = NewTimer(self.card, self._display)
        self.note = CardPanel(self.card, tr("Note for the log"), tr("Note"), tr("Keep it"))
        self.panels = (self.leaving, self.new_timer, self.note, *self.clocks.panels)
        self._follow_contrast()

    def _connect(self) -> None:
        card, brew = self.card, self.brew
        card.done.connect(self.do)
        card.later.connect(self._put_off)
        card.leave_out.connect(self._ask_why)
        card.back.connect(self.go_back)
        card.second.connect(self._do_second)
        self.bar.brew_wanted.connect(self._choose_brew)
        self.bar.part_wanted.connect(self.show_part)
        self.stove.low_changed.connect(self._be_low)
        self.stove.steps.chosen.connect(self._tell_step)
        offer_menu(self.stove.steps.view, self.fill_step_menu)
        self.measuring.done.connect(self.take_focus)
        self.measuring.explain_wanted.connect(self.explain_reading)
        self.leaving.left_out.connect(lambda key, reason: brew.leave_out(key, reason))
        self.new_timer.wanted.connect(lambda minutes, name: brew.start_timer("free", minutes, name))
        self.note.answered.connect(brew.note)
        speaking = self.speaking
        speaking.due_changed.connect(self.flash.show_due)
        speaking.alarm.flashed.connect(self.flash.flash)
        speaking.left_wanted.connect(self.clocks.ask_left)
        speaking.alarm.said.connect(self._say_elsewhere)
        speaking.awake.answered.connect(self._say_of_screen)
        self.flash.confirmed.connect(speaking.confirm)
        brew.changed.connect(self._show_soon)
        brew.running_changed.connect(self._follow_running)
        brew.look_for_running()
        brew.forecast_changed.connect(self._show_soon)
        brew.trial.changed.connect(self._show_soon)
        self._opened.outlook_changed.connect(self._show_soon)
        # Queued: the window is dressed anew first.
        queued = Qt.ConnectionType.QueuedConnection
        self._display.settings.changed.connect(self._follow_contrast, queued)
        self._display.settings.changed.connect(self._show_soon)

    def _say_of_screen(self, kept: bool) -> None:
        """Say where the screen may go dark while the brewer stirs."""
        self.bar.may_go_dark.setText(tr("screen may go dark"))
        self.bar.may_go_dark.setToolTip(self.speaking.awake.in_words())
        self.bar.may_go_dark.setVisible(not kept)

    def _say_elsewhere(self, words: str) -> None:
        """Say what is due where another page is shown."""
        if not self.isVisible():
            self.said.emit(words)

    def _be_low(self, low: bool) -> None:
        """Leave the headings away where height is short."""
        self.measuring.be_low(low)
        self.day_heading.setVisible(not low)

    def _do_second(self) -> None:
        """Ask for a day done from paper; of one that is over show its beer."""
        if self.brew.brewing is None:
            self.paper_wanted.emit()
        else:
            self.show_part(Part.FERMENTING)

    # which brew

    def _follow_running(self) -> None:
        """Go on with the brew that was left, unless one is shown; offer the others."""
        running = self.brew.running()
        if self.brew.brew is None and running and not (self._was_left or self.brew.wanted):
            self.brew.go_on(running[0].uid)
        self._offer_brews()

    def _offer_brews(self) -> None:
        """Offer the brews under way, and to begin another, where there is a choice."""
        shown, running = self.brew.brew, list(self.brew.running())
        if shown is not None and shown.uid not in [each.uid for each in running]:
            running.insert(0, shown)
        known = {each.uid for each in running}
        running += [each for each in self.brew.in_fermenters() if each.uid not in known]
        self.bar.show_brews(
            [(self._words_of(each), each.uid) for each in running],
            shown.uid if shown is not None else "",
            tr("Begin with {recipe}", recipe=self._opened.recipe.name),
            is_told=shown is not None and shown.name == self._opened.recipe.name,
        )

    def _words_of(self, brew: Brew) -> str:
        """Return which brew it is; of a beer in the fermenter for how long."""
        brewing = self.brew.brewing
        is_shown = self.brew.brew is not None and self.brew.brew.uid == brew.uid
        over = brewing is not None and brewing.finished is not None if is_shown else brew.finished
        return beer_words(brew, self.brew.now().wall) if over else brew_words(brew)

    def _choose_brew(self, uid: str) -> None:
        self._was_left = not uid
        if not uid:
            self.brew.leave()
            self.show_part(Part.STOVE)
            return
        self.brew.go_on(uid)
        if uid in [each.uid for each in self.brew.in_fermenters()]:
            self.show_part(Part.FERMENTING)

    # what is shown

    def _show_soon(self) -> None:
        if self.isVisible():
            self.refresh()

    def show_part(self, part: Part) -> None:
        """Show one of the parts of the page."""
        self._put_panels_away()
        self.parts.show_part(part)
        self.bar.check_part(part)
        self.refresh()
        self.take_focus()

    def explain_reading(self, typed: str) -> None:
        """Show what may lie behind a gravity that was typed at the stove."""
        self.show_part(Part.READING)
        self.parts.current.type_in(typed)

    def refresh(self) -> None:
        """Show the brew as it stands."""
        brewing = self.brew.brewing
        self.timer_button.setEnabled(brewing is not None)
        self.parts.current.refresh()
        if brewing is None:
            self._show_before()
            self.bar.state.setText(state_words(None))
        else:
            self._show_brew(brewing)
        self._offer_brews()
        self._say_clock()
        self._follow_contrast()

    def _show_before(self) -> None:
        """Show the first step of the open recipe, and what begins the day."""
        self._planned = self._planned_steps()
        on_paper = tr("I brewed it on paper…")
        self.card.show_step(not_begun(self._planned), TimeLeft(), second=on_paper)
        self.card.second_button.setToolTip(tr("Type in a brew that was done from the paper sheet"))
        self.stove.steps.show_rows(planned_rows(self._planned))
        self.measuring.show_plan(self._planned)
        outlook = self._opened.newest_outlook()
        self.forecasts.show_forecasts(outlook.forecasts, outlook.forecasts)
        runs = runs_of(self._opened.recipe, outlook.day, outlook.plan, None)
        start = start_minutes(self._opened.recipe.process.start_time)
        self.day.show_day(DayAsBrewed(runs, (), {}), planned_marks(self._planned, runs), start)
        self.clocks.show_plan(self._planned, self.brew.now())

    def _planned_steps(self) -> tuple[StoveStep, ...]:
        from designer.sheet.stove import stove_steps

        return stove_steps(
            self._opened.reckoned,
            self._opened.newest_outlook(),
            shown=self._display.settings.units,
            start=None,
            brew_date=None,
        )

    def _show_brew(self, brewing: Brewing) -> None:
        now = self.brew.now()
        self._expect(brewing, now)
        self.measuring.show_brew(brewing)
        seen = self.brew.seen
        if seen is not None:
            self.forecasts.show_forecasts(seen.outlook.forecasts, seen.planned.forecasts)
        self.clocks.show_brew(now)
        step = brewing.now
        if step is None:
            over = brewing.finished is not None
            beer = tr(PARTS[Part.FERMENTING]) if over else ""
            told = day_over(brewing, self._left_to_do(brewing))
            self.card.show_step(told, TimeLeft(), second=beer)
            return
        first = step.key == brewing.steps[0].key
        shown = shown_of(step, self._due, is_first=first)
        self.card.show_step(shown, left_of(step, brewing.timers, now))

    def _left_to_do(self, brewing: Brewing) -> str:
        """What the sheet says of the days after; once for a brew that is finished."""
        recipe, outlook, uid = self.brew.as_brewed, self.brew.outlook, self._uid()
        if brewing.finished is None or recipe is None or outlook is None:
            return ""
        if self._afterwards[0] != uid:
            from designer.sheet.content import brew_sheet

            units = self._display.settings.units
            day = datetime.fromtimestamp(brewing.finished.wall).date()
            sheet = brew_sheet(
                recipe, outlook, shown=units, start=None, brew_date=day, language=spoken()
            )
            self._afterwards = uid, left_to_do(sheet)
        return self._afterwards[1]

    def _uid(self) -> str:
        return self.brew.brew.uid if self.brew.brew is not None else ""

    def _expect(self, brewing: Brewing, now: Instant) -> None:
        """Say when each step was or is expected, and how far behind that is."""
        schedule = schedule_of(brewing, brewing.timers, now)
        self._clocks = {each.step.key: clock_text(each.at) for each in schedule.steps}
        timed = schedule.of(brewing.now.key) if brewing.now is not None else None
        self._due = clock_text(timed.due) if timed is not None else ""
        self._draw_day = partial(self._show_day, brewing, schedule, now)
        self._day_soon.start()
        self.stove.steps.show_rows(rows_of(brewing.states, self._clocks.__getitem__))
        self.bar.state.setText(state_words(brewing, str(schedule.behind)))

    def _show_day(self, brewing: Brewing, schedule: Schedule, now: Instant) -> None:
        """Draw how the day goes, and how it was planned."""
        seen = self.brew.seen
        if seen is None or brewing.began is None:
            return
        known, planned = seen.outlook, seen.planned
        began = now.wall - passed(brewing.began, now).seconds
        line = day_as_brewed(
            runs_of(seen.recipe, known.day, known.plan, None),
            runs_of(brewing.recipe, planned.day, planned.plan, None),
            schedule,
            began,
        )
        on_day = brewing.now.on_day if brewing.now is not None else max(line.starts)
        at = None if brewing.is_over else line.at(now.wall, on_day)
        self.day.show_day(line, marks_of(schedule, line), now_min=at)

    # every second

    def _tick(self) -> None:
        """Let the clocks go on; with a new minute what is expected moves too."""
        brewing, now = self.brew.brewing, self.brew.now()
        self.clocks.show_time(now)
        if brewing is not None and brewing.now is not None:
            self.card.show_left(left_of(brewing.now, brewing.timers, now))
        if self._say_clock() and brewing is not None:
            self._show_brew(brewing)

    def _say_clock(self) -> bool:
        """Show what time it is; whether it is another minute."""
        clock = clock_text(self.brew.now().wall)
        is_new = clock != self.bar.clock.text()
        self.bar.clock.say(clock)
        return is_new

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()
        self._ticks.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._ticks.stop()

    def take_focus(self) -> None:
        """Give the keyboard to the part that is shown: to the step, the entries of the log."""
        self.parts.current.take_focus()

    def close_down(self) -> None:
        """End what is reckoned of the brew."""
        self._ticks.stop()
        self.speaking.close_down()
        self.parts.close_down()
        self.brew.close()

    # what is pressed

    def do(self) -> None:
        """Do what the step's button says, once what is typed in a blank is taken."""
        if not self.measuring.take_typed():
            return
        brewing = self.brew.brewing
        if brewing is None:
            self._start()
        elif brewing.now is None:
            self._finish(brewing)
        else:
            self.brew.done(brewing.now.key)
        self.take_focus()

    def _finish(self, brewing: Brewing) -> None:
        if brewing.finished is None:
            self.brew.finish()
            self.show_part(Part.READING if self.brew.is_read_oddly else Part.FERMENTING)
        else:
            self._choose_brew("")

    def go_back(self) -> None:
        """Go back a step."""
        if self.brew.brewing is not None:
            self.brew.back()

    def _tell_step(self, key: str) -> None:
        """Tell the whole of a step beside its row, and offer to go to it."""
        brewing = self.brew.brewing
        steps = brewing.steps if brewing is not None else self._planned
        step = next((each for each in steps if each.key == key), None)
        if step is None:
            return
        ways = []
        if brewing is not None and brewing.now is not step:
            ways.append((tr("Go to this step"), lambda: self._go_to(key)))
        place = self.stove.steps.place_of(key)
        say_beside(self.stove.steps.view, whole_step(step), rect=place, ways=ways)

    def fill_step_menu(self, menu: QMenu) -> None:
        """Add what can be done about the step that is pointed at."""
        row, brewing = self.stove.steps.view.currentIndex().data(ROW), self.brew.brewing
        if row is None:
            return
        add_entry(menu, tr("All of this step"), partial(self._tell_step, row.key))
        if brewing is not None and brewing.now is not None and brewing.now.key == row.key:
            add_entry(menu, keys.STEP_DONE, self.do)
            add_entry(menu, keys.STEP_BACK, self.go_back)
        elif brewing is not None:
            add_entry(menu, tr("Go to this step"), partial(self._go_to, row.key))
        menu.addSeparator()
        add_entry(menu, keys.TIMER, self.ask_for_timer)
        add_entry(menu, keys.NOTE, self.ask_for_note)

    def _go_to(self, key: str) -> None:
        self.brew.go_to(key)
        self.take_focus()

    def _put_off(self) -> None:
        if self._now() is not None:
            self.brew.later()

    def _now(self) -> StoveStep | None:
        brewing = self.brew.brewing
        return brewing.now if brewing is not None else None

    def _ask_why(self) -> None:
        step = self._now()
        if step is not None:
            self.leaving.ask_about(step.key, step.kind, step.title or step.name)

    def ask_for_timer(self) -> None:
        """Ask for a timer of one's own."""
        if self.brew.brewing is not None:
            self.show_part(Part.STOVE)
            self.new_timer.ask_for_one()

    def ask_for_note(self) -> None:
        """Ask for a note for the log."""
        if self.brew.brewing is not None:
            self.show_part(Part.STOVE)
            self.note.ask()

    @property
    def shows_beer(self) -> bool:
        """Whether the beer in the fermenter is shown, where N types a reading, not a note."""
        return self.parts.shown is Part.FERMENTING

    def ask_for_reading(self) -> None:
        """Ask for a reading of the beer in the fermenter."""
        if self.brew.brewing is not None:
            self.show_part(Part.FERMENTING)
            self.parts.current.ask_reading()

    def keep_in_recipe(self) -> None:
        """Make the open recipe what this brew made of it."""
        if self.brew.brewing is not None:
            is_new = self.brew.keep_in_recipe(self._opened)
            self.said.emit(
                tr("The recipe is now as it was brewed; Undo on Compose takes that back.")
                if is_new
                else tr("The recipe is as it was brewed already.")
            )

    def _put_panels_away(self) -> None:
        for each in self.panels:
            each.put_away()

    # larger, blacker, whiter

    def turn_contrast(self) -> None:
        """Wear black and white in larger type, or the usual."""
        settings = self._display.settings
        settings.contrast = "usual" if settings.contrast == "high" else "high"

    def _follow_contrast(self) -> None:
        """Be in larger type where contrast is high: each widget, for none hands its type down."""
        larger = HIGH_TYPE if self._display.settings.contrast == "high" else 1.0
        if larger == 1.0 and not self._was_larger:
            return
        self._was_larger = larger != 1.0
        for each in self.findChildren(QWidget):
            size = each.font().pointSizeF()
            usual = each.property(USUAL_SIZE)
            if usual is None:
                usual = size
                each.setProperty(USUAL_SIZE, usual)
            if usual > 0.0 and abs(size - larger * usual) > 0.01:  # else it is laid out by us
                font = QFont(each.font())
                font.setPointSizeF(larger * usual)
                each.setFont(font)

    # the whole screen

    def turn_full(self) -> None:
        """Ask for the whole screen, or for the window again."""
        self.full_screen_wanted.emit(not self.is_full)

    def show_full(self, *, full: bool) -> None:
        """Show what header and menus tell where they are not seen."""
        self.is_full = full
        self.bar.name.setText(self._name())
        self.bar.show_full(full=full)
        self.phone_button.setVisible(not full)  # it is got onto a phone before the day
        self._say_full()

    def _name(self) -> str:
        brew = self.brew.brew
        return brew.name if brew is not None else self._opened.recipe.name

    def _say_full(self) -> None:
        self.full_button.setText(tr("Leave full screen") if self.is_full else tr("Full screen"))
        self.full_button.setToolTip(
            tr("Back to the window (F11)")
            if self.is_full
            else tr("Header and menus make room for the step (F11)")
        )

    # keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys of the step, where no field or button has the keyboard for itself."""
        act = self._acts().get(Qt.Key(event.key())) if self._is_at_stove(event) else None
        is_plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if is_plain and self._begins_reading(event):
            return
        own_keys = QLineEdit if event.key() in LETTERS else OWN_KEYS
        if act is None or not is_plain or isinstance(QApplication.focusWidget(), own_keys):
            super().keyPressEvent(event)
        elif not event.isAutoRepeat():
            act()

    def _is_at_stove(self, event: QKeyEvent) -> bool:
        """Whether a key means the step: elsewhere only those of timer and note do anything."""
        return event.key() in LETTERS or self.parts.shown is Part.STOVE

    def _begins_reading(self, event: QKeyEvent) -> bool:
        """A figure typed while no field has the keyboard goes into the blank that comes next."""
        text, focus = event.text(), QApplication.focusWidget()
        if not text.isdecimal() or isinstance(focus, QLineEdit) or self.brew.brewing is None:
            return False
        if self.parts.shown is not Part.STOVE:
            return False
        return self.strip.type_into_next(text)

    def _acts(self) -> dict[Qt.Key, Callable[[], None]]:
        return {
            Qt.Key.Key_Space: self.do,
            Qt.Key.Key_Return: self.do,
            Qt.Key.Key_Enter: self.do,
            Qt.Key.Key_Backspace: self.go_back,
            Qt.Key.Key_T: self.ask_for_timer,
            Qt.Key.Key_N: self.ask_for_note,
        }
