"""What your reading says: a part of the brew day.

Left what was read and how, right what may lie behind it. All of it follows while it is typed; a
sample is kept in the log once Return is pressed or its field is left. Before a day is begun it
answers for the open recipe, and keeps nothing.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    GravitySample,
    Stirred,
    Taken,
    TestCode,
)
from designer.errors import RefusedInputError
from designer.recipe.plan import fermenters_of
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.brew.page_parts import BrewPart
from designer.window.brew.reading.answer_panel import AnswerPanel
from designer.window.brew.reading.answer_words import (
    Said,
    cool_first,
    in_words,
    is_being_reckoned,
    nothing_typed,
)
from designer.window.brew.reading.figure_panel import FigurePanel
from designer.window.brew.reading.sample_form import SampleForm
from designer.window.brew.reading.sample_words import sample_line
from designer.window.brew.reading.test_card import FIGURE, READ_AGAIN
from designer.window.parts.buttons import button
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import scrolled
from designer.window.parts.sized_text import grown
from designer.window.session.open_brew import OpenBrew
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.reading_ahead import MakeBeliefs, ReadingAhead
from designer.workbench.brew.reading_story import (
    Story,
    asked_of,
    gravity_of,
    is_too_warm,
    story_of,
    typed_parts,
    usual_sample,
)
from designer.workbench.brew.reckoning import before_gravity

if TYPE_CHECKING:
    from designer.brewday.explaining.beliefs import Beliefs
    from designer.brewday.explaining.explained import Cure, Explained
    from designer.brewday.measured.readings import Reading
    from designer.recipe.document import Recipe
    from designer.workbench.brew.afterwards import KeptSample
    from designer.workbench.brew.brewing import Brewing

BESIDE_PX = 860.0
"""Below this width what is said goes below what was read."""
LEFT_PX = 316.0
CHANGED_SG, STIRRED_SG = 0.001, 0.0015
"""By so much another reading is another: what the eye tells; more where the wort was stirred."""


class ReadingPart(BrewPart):
    """The part; `without_recipe_wanted` asks for the form of a caller."""

    without_recipe_wanted = Signal()

    def __init__(self, brew: OpenBrew, opened: OpenRecipe, display: DisplayFormat) -> None:
        super().__init__()
        self._brew, self._opened, self._display = brew, opened, display
        self._uid = ""
        self._is_new = False
        self._shown: tuple[str, GravitySample] | None = None
        self._retests: tuple[TestCode, float] | None = None
        self._story = Story()
        self._folded: Brewing | None = None
        self.form = SampleForm(display)
        self.panel = AnswerPanel(display)
        self.told = QLabel()
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.another_button = LargeButton(
            tr("Another sample"), tr("Type a further reading; this one stays"), self.begin_another
        )
        self.caller_button = button(
            tr("On the phone, no recipe"),
            tr("The same from a few answers: what is in the box, and what was read"),
            self.without_recipe_wanted.emit,
        )
        self.caller_button.setObjectName("link")
        self.figure = FigurePanel(self.panel.test, display)
        self.ahead = ReadingAhead(self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self._left = QWidget()
        left = QVBoxLayout(self._left)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(8)
        left.addWidget(self.form)
        left.addWidget(self.told)
        left.addWidget(self.another_button)
        left.addWidget(self.caller_button)
        left.addStretch(1)
        self._content = QWidget()
        self._grid = QGridLayout(self._content)
        self._grid.setSpacing(12)
        self._grid.setColumnStretch(1, 1)
        self.area = scrolled(self._content)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.area)
        self._beside: bool | None = None
        self._place()

    def _connect(self) -> None:
        self.form.typing.connect(self._ask)
        self.form.given.connect(self._take)
        self.panel.tested.connect(self._answer)
        self.panel.cured.connect(self._cure)
        self.figure.given.connect(self._take_figure)
        self.ahead.answered.connect(self._show)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        """Place both sides beside each other where there is room."""
        edge = 20 if self.width() > grown(self, 1100) else 12
        self._grid.setContentsMargins(edge, 4, edge, 8)
        beside = self.width() >= grown(self, BESIDE_PX)
        most = round(grown(self, LEFT_PX)) if beside else 16_777_215
        self._left.setMaximumWidth(most)
        self._left.setMinimumWidth(most if beside else 0)
        if beside is self._beside:
            return
        self._beside = beside
        for each in (self._left, self.panel):
            self._grid.removeWidget(each)
        self._grid.addWidget(self._left, 0, 0)
        self._grid.addWidget(self.panel, *((0, 1) if beside else (1, 0)))
        self._grid.setColumnStretch(0, 0 if beside else 1)
        self._grid.setColumnStretch(1, 1 if beside else 0)

    # what is shown

    def refresh(self) -> None:
        """Show the newest sample of the log, unless another is being typed."""
        brewing = self._brew.brewing
        uid = self._brew.brew.uid if self._brew.brew is not None else ""
        if uid != self._uid:
            self._uid, self._is_new, self._shown, self._retests = uid, False, None, None
            self.figure.put_away()
        if brewing is None:
            self._folded, self._story = None, Story()
            if self._shown is None:
                self._show_sample(None)
        elif brewing is not self._folded:
            self._folded, self._story = brewing, story_of(brewing)
            if not self._is_new and not self.form.is_changed:
                self._show_sample(self._story.newest)
        recipe = self._recipe()
        self.form.offer_fermenters(1 if recipe is None else len(fermenters_of(recipe)))
        self._tell_story()
        self._ask()

    def _show_sample(self, kept: KeptSample | None) -> None:
        recipe = self._recipe()
        shown = ("", usual_sample(recipe)) if kept is None else (kept.entry, kept.sample)
        if shown == self._shown:
            return
        self._shown = shown
        reading, at = typed_parts(kept.typed) if kept is not None else ("", "")
        self.form.show_sample(shown[1], reading, at)

    def _tell_story(self) -> None:
        """Say which samples there were before the one that is shown, and whether any is kept."""
        lines = [sample_line(each, self._display) for each in self._story.samples]
        if not self._is_new:
            lines = lines[:-1]
        if not self._brew.is_open:
            lines = [tr("Nothing of this is kept: start the day on At the stove to keep it.")]
        self.told.setText("\n".join(lines))
        self.told.setVisible(bool(lines))
        self.another_button.setVisible(self._brew.is_open and self._story.newest is not None)
        self.another_button.setEnabled(not self._is_new)
        self.panel.offer_deeds(self._brew.is_open)

    def _recipe(self) -> Recipe | None:
        """The recipe as it is brewed, or the open one before a day."""
        if self._brew.is_open:
            return self._brew.as_brewed
        return self._opened.recipe if self._opened.is_open else None

    # what is asked

    def _ask(self) -> None:
        """Ask what lies behind the reading as it is typed."""
        sample = self.form.quiet_draft()
        if sample is None and self._is_new and self._story.newest is not None:
            sample = self._story.newest.sample  # until the next is typed
        asked = None if sample is None else self._asked(sample)
        if sample is None or asked is None:
            self.ahead.forget()
            self.panel.say(self._nothing())
            return
        if is_too_warm(sample) and sample.sample_c is not None:
            self.ahead.forget()
            at = self._display.short(Kind.TEMPERATURE, sample.sample_c)
            self.panel.say(cool_first(at))
            return
        day = self._day(sample)
        if day is None:
            self.panel.say(is_being_reckoned())
            return
        if self.panel.explained is None:
            self.panel.say(is_being_reckoned())
        key, make, recipe = day
        self.ahead.ask(asked, key, make, recipe)

    def _nothing(self) -> Said:
        cured = self._story.cured
        if cured is None or self._story.samples:
            return nothing_typed()
        return Said(
            tr("Done: {what}", what=cured.said),
            tr("Stir, wait two minutes and read again: the next sample tells whether it worked."),
        )

    def _asked(self, sample: GravitySample) -> Asked | None:
        if self._folded is None:
            return Asked((sample,))
        kept = self._story.newest
        instead = kept.entry if kept is not None and not self._is_new else ""
        if kept is not None and sample == kept.sample:
            instead = kept.entry
        return asked_of(self._folded, sample, instead)

    def _day(self, sample: GravitySample) -> tuple[Hashable, MakeBeliefs, Recipe] | None:
        """Return the day that a sample is held against: its name, how it is told, its recipe."""
        recipe = self._recipe()
        if recipe is None:
            return None
        readings = () if self._folded is None else before_gravity(self._folded)
        key = recipe, readings, sample.fermenter, sample.taken is Taken.POT
        return key, partial(_beliefs, *key), recipe

    def _show(self, explained: Explained) -> None:
        self.panel.show_answer(explained)

    # what is taken

    def _take(self) -> None:
        """Keep what is typed as a sample; emptied, the sample is taken back."""
        kept = None if self._is_new else self._story.newest
        if self.form.is_empty:
            self._take_none(kept)
            return
        if not self.form.check():
            return
        sample, typed = self.form.draft(), self.form.typed()
        self.form.settle()
        if not self._brew.is_open:
            self._ask()
            return
        if kept is not None and (sample, typed) == (kept.sample, kept.typed):
            return
        shows = self._retested(sample)
        self._is_new, self._retests = False, None
        if kept is None:
            self._brew.take_sample(sample, typed, shows=shows)
        elif self._is_from_stove(kept):
            self._brew.take_sample(sample, typed, of=kept.entry)
        else:
            self._brew.take_sample(sample, typed, corrects=kept.entry)

    def _take_none(self, kept: KeptSample | None) -> None:
        self.form.settle()
        if kept is not None and self._brew.is_open and not self._is_from_stove(kept):
            self._brew.take_back(kept.entry)
        else:
            self._shown = None
            self.refresh()

    def _is_from_stove(self, kept: KeptSample) -> bool:
        """Whether a sample was typed at the stove: it is told more of, and stays written."""
        brewing = self._folded
        return brewing is not None and any(e.entry == kept.entry for e in brewing.readings)

    def _retested(self, sample: GravitySample) -> tuple[Answer, str] | None:
        """Return what a test showed by another sample; None where none was asked for by a test."""
        if self._retests is None:
            return None
        code, before = self._retests
        least = STIRRED_SG if code is TestCode.STIR else CHANGED_SG
        changed = abs(gravity_of(sample) - before) >= least
        told = tr("it reads otherwise") if changed else tr("it reads the same")
        return Answer(code, changed=changed), told

    # what is answered

    def begin_another(self, stirred: Stirred | None = None) -> None:
        """Ask for a further sample."""
        self._is_new = True
        self.form.begin_another(stirred=stirred)
        self._tell_story()
        self._ask()

    def type_in(self, text: str) -> None:
        """Show what was typed elsewhere as a sample that is not taken yet."""
        if not text.strip():
            self.take_focus()
            return
        if self._story.newest is not None:
            self._is_new = True
        reading, at = typed_parts(text)
        self.form.sample_at.setText(at)
        self.form.type_in(reading)

    def _answer(self, code: TestCode, what: object) -> None:
        newest = self._story.newest
        if what is READ_AGAIN:
            self._retests = None if newest is None else (code, gravity_of(newest.sample))
            self.begin_another(Stirred.HARD if code is TestCode.STIR else None)
        elif what is FIGURE:
            self.figure.ask_for(code)
        elif self._brew.is_open:
            told = self.panel.test.words_of(what)
            self._brew.answer_test(Answer(code, changed=bool(what)), told)

    def _take_figure(self, code: TestCode, text: str) -> None:
        if not self._brew.is_open or not text.strip():
            return
        try:
            answer, told, by = self.figure.read(code, text)
        except RefusedInputError as fault:
            self.figure.refuse(code, text, str(fault))
            return
        self._brew.answer_test(answer, told, by)

    def _cure(self, cure: Cure) -> None:
        if self._brew.is_open and cure.off is None:
            changes = [dict(each) for each in cure.changes]
            self._brew.cure_reading(cure.code, changes, in_words(cure.title, self._display))

    # keys and end

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._is_new and self.form.is_empty:
            self._is_new, self._retests, self._shown = False, None, None
            self._show_sample(self._story.newest)
            self._tell_story()
            self._ask()
        else:
            super().keyPressEvent(event)

    def take_focus(self) -> None:
        """Give the keyboard to the reading."""
        self.form.take_focus()

    def close_down(self) -> None:
        """Wait for what is still being compared."""
        self.ahead.close()


def _beliefs(recipe: Recipe, readings: Sequence[Reading], fermenter: int, in_pot: bool) -> Beliefs:
    """Return what there is to be read on a day; what that needs is loaded with the first asked."""
    from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain

    outlook = outlook_to_explain(recipe, readings, fermenter=fermenter, in_pot=in_pot)
    return beliefs_of(outlook, fermenter=fermenter)
