"""What your kitchen taught: every figure that brew days told, taken or kept, and the brews.

All is read and written beside the window. Until the Recipe box has answered that is said; what it
refuses is said too, and nothing is shown as done that it does not hold.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from designer.brewday.learning.figures import Figure, Learned
from designer.errors import DesignerError, RefusedInputError
from designer.recipe.taught import Filled
from designer.translation import named, tr, trn
from designer.window.kitchen.before_after import BeforeAfter
from designer.window.kitchen.figure_text import value_text
from designer.window.kitchen.learned_brews import LearnedBrews
from designer.window.kitchen.learned_cells import label
from designer.window.kitchen.learned_rows import OF_POTS, Acts, LearnedRows, is_offered
from designer.window.parts.background import Latest
from designer.window.parts.buttons import button
from designer.window.parts.dates import day_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading, scrolled
from designer.window.parts.questions import Questions
from designer.window.parts.reading_order import order_tabs
from designer.window.parts.sized_text import grown
from designer.window.session.autosave import Autosave
from designer.window.session.background_jobs import BackgroundJobs
from designer.window.session.counting_brews import count_brews
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.recipe_window import RecipeWindow
from designer.workbench.learning.before_and_after import (
    BeforeAndAfter,
    adopting,
    before_and_after,
)
from designer.workbench.learning.figure_places import PLACES
from designer.workbench.learning.figure_words import figure_name
from designer.workbench.learning.next_to_measure import next_to_measure
from designer.workbench.learning.questions import bitterness_not_learned
from designer.workbench.learning.taught import (
    BrewRow,
    Taught,
    give_back,
    keep,
    take,
    taught_of,
)

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.session.brew_keeping import BrewKeeping

T = TypeVar("T")
WIDE_PX = 1120.0
"""From this width on the forecast has room beside the figures."""
NARROW_PX = 880.0
"""Below this one what is offered of a figure stands below each other."""

FIGURE_OF = {place.field: figure for figure, place in PLACES.items()}
"""The figure that a field of the recipe holds."""
COLUMNS_FIRST = (
    Figure.EVAPORATION,
    Figure.LEFT_IN_POT,
    Figure.STEEP_YIELD,
    Figure.ATTENUATION,
    Figure.COOLING,
    Figure.EXTRACT_BIAS,
    Figure.VOLUME_BIAS,
    Figure.HYDROMETER,
    Figure.WORT_CORRECTION,
)
"""Which figures have a column in the table of brews before others."""


class LearnedPanel(QWidget):
    """Follows the brews of the Recipe box. `removed` says what was done, with the way back.

    `taken_changed` tells that other figures are taken now.
    """

    said = Signal(str, bool)
    removed = Signal(str, object)
    taken_changed = Signal()

    def __init__(
        self,
        opened: OpenRecipe,
        autosave: Autosave,
        brews: BrewKeeping,
        display: DisplayFormat,
    ) -> None:
        super().__init__()
        self._opened, self._autosave, self._brews = opened, autosave, brews
        self._display = display
        self.taught: Taught | None = None
        self.pot = ""
        self._jobs = BackgroundJobs(self)
        self._forecasts = Latest(self)
        self._forecasts.answered.connect(self._show_forecasts)
        self.rows = LearnedRows(display, Acts(self.take, self.keep, self.give_back))
        self.brews_table = LearnedBrews(display, self.count)
        self.before_after = BeforeAfter(display)
        self.chips: dict[str, QPushButton] = {}
        self._lay_out()
        brews.changed.connect(self.load)
        opened.outlook_changed.connect(lambda _: self._look_ahead())
        display.settings.changed.connect(self._show)

    @property
    def _questions(self) -> Questions:
        window = self.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

    # layout

    def _lay_out(self) -> None:
        self.print_button = button(
            tr("Print these"), tr("Print what is known of this pot, on one page"), self._print
        )
        self.forget_button = button(
            tr("Forget all…"),
            tr("Let no brew in this pot count, and give back what was taken"),
            self._ask_to_forget,
        )
        self._chips = QWidget()
        self._chip_row = FlowLayout(self._chips, across=8)
        self.told = label("", "soft", wraps=True)
        self.told.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        top = QHBoxLayout()
        top.addWidget(self._chips, 3)
        top.addWidget(self.told, 2)
        top.addWidget(self.print_button)
        top.addWidget(self.forget_button)
        self.empty = label("", wraps=True)
        content = QWidget()
        grid = QGridLayout(content)
        grid.setContentsMargins(0, 0, 4, 0)
        grid.setSpacing(12)
        self._cards, self._beside = grid, self._forecast()
        grid.addWidget(self._figures(), 0, 0)
        grid.addWidget(self._beside, 0, 1)
        grid.addWidget(self._learned_from(), 2, 0, 1, 2)
        grid.setColumnStretch(0, 7)
        grid.setColumnStretch(1, 3)
        grid.setRowStretch(3, 1)
        self.area = scrolled(content)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(top)
        layout.addWidget(self.empty)
        layout.addWidget(self.area, 1)
        layout.addStretch(0)
        self._show()

    def _figures(self) -> QWidget:
        card, inside = _card()
        self.title = heading("")
        self.take_all_button = QPushButton()
        self.take_all_button.setObjectName("primary")
        self.take_all_button.clicked.connect(lambda _checked=False: self.take_all())
        top = QHBoxLayout()
        top.addWidget(self.title)
        top.addStretch(1)
        top.addWidget(self.take_all_button)
        inside.addLayout(top)
        inside.addWidget(self.rows)
        inside.addWidget(label(bitterness_not_learned().text, "soft", wraps=True))
        inside.addStretch(1)
        return card

    def _forecast(self) -> QWidget:
        card, inside = _card()
        self.next_name = label("", "strong", wraps=True)
        inside.addWidget(heading(tr("Your next brew")))
        inside.addWidget(self.next_name)
        inside.addWidget(self.before_after)
        self.typed_words = label("", "soft", wraps=True)
        self.adopt_button = button(
            tr("Use what was taught"),
            tr("Type these figures into the open recipe, as one step that undo takes back"),
            self.adopt,
        )
        self._typed: tuple[Filled, ...] = ()
        inside.addWidget(self.typed_words)
        inside.addWidget(self.adopt_button, 0, Qt.AlignmentFlag.AlignLeft)
        for each in (self.typed_words, self.adopt_button):
            each.hide()
        self.next_box = QFrame()
        self.next_box.setObjectName("proposal")
        within = QVBoxLayout(self.next_box)
        within.addWidget(label(tr("What would teach most next"), "strong"))
        self.next_words = label("", wraps=True)
        within.addWidget(self.next_words)
        inside.addWidget(self.next_box)
        inside.addStretch(1)
        return card

    def _learned_from(self) -> QWidget:
        card, inside = _card()
        inside.addWidget(heading(tr("The brews it learned from")))
        inside.addWidget(self.brews_table)
        return card

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where there is little room the forecast goes below the figures: no value is cut."""
        super().resizeEvent(event)
        is_wide = self.width() >= grown(self, WIDE_PX)
        self._cards.removeWidget(self._beside)
        self._cards.addWidget(self._beside, 0 if is_wide else 1, 1 if is_wide else 0)
        self._cards.setColumnStretch(1, 3 if is_wide else 0)
        self.rows.be_narrow(self.width() < grown(self, NARROW_PX))

    # reading

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.load()

    def load(self) -> None:
        """Ask anew what brews teach; a brew takes a while, so it is asked beside all else."""
        if self.isVisible():
            self._jobs.ask(
                "", self._autosave.folder, lambda store, _: taught_of(store), self._take_in,
                self._fail_to_read,
            )  # fmt: skip

    def _take_in(self, taught: Taught) -> None:
        self.rows.setEnabled(True)
        is_news = self.taught is None or taught.taken != self.taught.taken
        if taught == self.taught:
            return
        self.taught = taught
        self._show()
        self._look_ahead()
        if is_news:
            self.taken_changed.emit()

    def _fail_to_read(self, fault: str) -> None:
        self.told.setText(tr("The Recipe box does not tell: {fault}", fault=fault))
        self.said.emit(fault, True)

    # showing

    def brews_of_pot(self) -> tuple[BrewRow, ...]:
        """Return the brews in the chosen pot, the first first."""
        taught = self.taught
        found = [e for e in taught.brews if e.pot == self.pot] if taught is not None else []
        return tuple(sorted(found, key=lambda each: each.started))

    def figures_of_pot(self) -> tuple[Learned, ...]:
        """Return what is known of the chosen pot and of all that was brewed with in it."""
        if self.taught is None:
            return ()
        brews = {each.uid for each in self.brews_of_pot()}
        return tuple(
            each
            for each in self.taught.learned
            if (each.subject == self.pot and each.figure in OF_POTS)
            or (each.figure not in OF_POTS and any(step.brew in brews for step in each.steps))
        )

    def _show(self) -> None:
        taught = self.taught
        pots = _pots(taught) if taught is not None else ()
        if self.pot not in pots:
            self.pot = self._first_pot(pots)
        self._show_chips(pots)
        brews, figures = self.brews_of_pot(), self.figures_of_pot()
        has_any = bool(taught is not None and taught.brews)
        self.area.setVisible(has_any)
        self.empty.setVisible(not has_any)
        self.empty.setText(
            tr("Your first brew day starts this: what you read then teaches what your pot does.")
            if taught is not None
            else tr("Asking the Recipe box …")
        )
        self.print_button.setEnabled(bool(figures))
        self.forget_button.setEnabled(bool(brews))
        if taught is None or not has_any:
            self.told.setText("")
            self.take_all_button.hide()
            return
        self.told.setText(_since(brews))
        said = trn("What {number} brew says", "What {number} brews say", len(brews))
        self.title.setText((said if brews else tr("No brew yet")).upper())
        told_of = {step.brew for each in figures for step in each.steps}
        told_of |= {each.uid for each in brews}
        in_order = sorted((e.started, e.uid) for e in taught.brews if e.uid in told_of)
        self.rows.show_figures(taught, figures, tuple(uid for _, uid in in_order))
        offered = [each for each in figures if is_offered(taught, each)]
        self.take_all_button.setVisible(len(offered) > 1)
        self.take_all_button.setText(
            trn("Take all {number}", "Take all {number}", max(len(offered), 1))
        )
        told = tuple(dict.fromkeys(each.figure for each in figures if each.steps))
        told = tuple(sorted(told, key=COLUMNS_FIRST.index))
        self.brews_table.show_brews(brews, told)
        order_tabs(self)

    def _first_pot(self, pots: tuple[str, ...]) -> str:
        """Return the pot of the open recipe, or that with the most brews."""
        if self._opened.is_open and self._opened.recipe.pot.name in pots:
            return self._opened.recipe.pot.name
        counted = {pot: sum(e.pot == pot for e in (self.taught or Taught()).brews) for pot in pots}
        return max(pots, key=lambda pot: counted[pot], default="")

    def _show_chips(self, pots: tuple[str, ...]) -> None:
        focused = next((pot for pot, chip in self.chips.items() if chip.hasFocus()), None)
        for chip in self.chips.values():
            self._chip_row.removeWidget(chip)
            chip.hide()
            chip.deleteLater()
        self.chips = {}
        for pot in pots:
            number = sum(each.pot == pot for each in (self.taught or Taught()).brews)
            told = trn("{number} brew", "{number} brews", number) if number else tr("none yet")
            chip = QPushButton(tr("{pot} · {brews}", pot=named(pot) or tr("Pot"), brews=told))
            chip.setObjectName("chip")
            chip.setCheckable(True)
            chip.setChecked(pot == self.pot)
            chip.clicked.connect(partial(self._choose, pot))
            self._chip_row.addWidget(chip)
            chip.show()
            self.chips[pot] = chip
            if pot == focused:
                chip.setFocus(Qt.FocusReason.OtherFocusReason)

    def _choose(self, pot: str, _checked: bool = False) -> None:
        self.pot = pot
        self._show()

    # the forecast

    def _look_ahead(self) -> None:
        taught = self.taught
        if not self.isVisible() or taught is None:
            return
        if not self._opened.is_open:
            self.next_name.setText(tr("Open a recipe to see what this makes of its forecast."))
            self.before_after.show_both(None, None)
            self.next_box.hide()
            return
        recipe = self._opened.recipe
        self.next_name.setText(recipe.name[:60])
        self._forecasts.ask(partial(before_and_after, recipe, taught))

    def _show_forecasts(self, found: BeforeAndAfter) -> None:
        is_other = found.after.forecasts != found.before.forecasts
        self.before_after.show_both(found.before, found.after if is_other else None)
        words = next_to_measure(found.after)
        self.next_words.setText(words.text if words is not None else "")
        self.next_box.setVisible(words is not None)
        self._typed = found.typed
        names = ", ".join(figure_name(FIGURE_OF[str(each.path[-1])]) for each in found.typed)
        self.typed_words.setText(
            tr("The recipe has its own typed: {fields}. It keeps them.", fields=names)
        )
        for each in (self.typed_words, self.adopt_button):
            each.setVisible(bool(found.typed))

    def adopt(self) -> None:
        """Type what was taught into the fields of the recipe that hold something else, at once."""
        try:
            self._opened.make_or_refuse(adopting(self._opened.recipe, self._typed))
        except RefusedInputError as fault:
            self.said.emit(str(fault), True)
        else:
            self.said.emit(tr("The recipe uses what was taught. Undo takes it back."), False)

    # doing

    def _do(self, work: Callable[[Store], T], then: Callable[[T], object]) -> None:
        """Let the store do something; what is shown follows from what it holds then."""

        def done(found: T) -> None:
            then(found)
            self.load()

        self.rows.setEnabled(False)
        self._autosave.store.ask(work, done, self._fail)

    def _fail(self, fault: str) -> None:
        self.rows.setEnabled(True)
        self.said.emit(fault, True)

    def take(self, learned: Learned) -> None:
        """Take a figure: it counts in the Kitchen, and in recipes that leave its field empty."""
        self._take((learned,))

    def take_all(self) -> None:
        """Take all figures that are offered."""
        taught = self.taught
        if taught is not None:
            self._take(tuple(e for e in self.figures_of_pot() if is_offered(taught, e)))

    def _take(self, figures: tuple[Learned, ...]) -> None:
        def work(store: Store) -> None:
            for each in figures:
                take(store, each)

        def done(_: None) -> None:
            told = ", ".join(self._named(each) for each in figures)
            words = tr("Taken: {figures}.", figures=told)
            self.removed.emit(words, lambda: self._give_back(figures, lambda: None))

        self._do(work, done)

    def keep(self, learned: Learned) -> None:
        """Keep one's own figure."""

        def done(_: None) -> None:
            words = tr("You keep your own: {figure}.", figure=figure_name(learned.figure))
            self.removed.emit(words, lambda: self._give_back((learned,), lambda: None))

        self._do(lambda store: keep(store, learned), done)

    def give_back(self, learned: Learned) -> None:
        """Go back to what stood there before a figure was taken, or offer it again."""
        was_taken = (
            self.taught is not None
            and self.taught.taken_for(learned.figure, learned.subject) is not None
        )

        def done() -> None:
            again = self.take if was_taken else self.keep
            words = tr("Given back: {figure}.", figure=figure_name(learned.figure))
            self.removed.emit(words, partial(again, learned))

        self._give_back((learned,), done)

    def _give_back(self, figures: tuple[Learned, ...], then: Callable[[], object]) -> None:
        def work(store: Store) -> None:
            for each in figures:
                give_back(store, each.figure, each.subject)

        self._do(work, lambda _: then())

    def _named(self, learned: Learned) -> str:
        name = figure_name(learned.figure)
        value = value_text(learned.figure, learned.known.value, self._display)
        return tr("{figure} {value}", figure=name, value=value)

    def count(self, brew: BrewRow, counts: bool) -> None:
        """Let all that a brew says count, or nothing of it."""
        before = [(brew.uid, each.figure, each.counts) for each in brew.seen]
        after = [(uid, figure, counts) for uid, figure, _ in before]
        self._count(after)
        words = (
            tr("The brew of {beer} counts.", beer=brew.name[:60])
            if counts
            else tr("The brew of {beer} is left out.", beer=brew.name[:60])
        )
        self.removed.emit(words, partial(self._count, before))

    def _count(self, said: list[tuple[str, Figure, bool]]) -> None:
        count_brews(self._brews, said, self._fail)

    # forgetting, printing

    def _ask_to_forget(self) -> None:
        if self._questions.forget_taught(self, self.pot):
            self.forget()

    def forget(self) -> None:
        """Let no brew in the chosen pot count, and give back what was taken."""
        taught = self.taught
        if taught is None:
            return
        brews, figures = self.brews_of_pot(), self.figures_of_pot()
        before = [(b.uid, each.figure, each.counts) for b in brews for each in b.seen]
        taken = tuple(e for e in figures if taught.taken_for(e.figure, e.subject) is not None)
        self._count([(uid, figure, False) for uid, figure, _ in before])

        def back() -> None:
            self._count(before)
            if taken:
                self._take(taken)

        def done() -> None:
            words = tr("What brews in {pot} taught is forgotten.", pot=self.pot or tr("the pot"))
            self.removed.emit(words, back)

        self._give_back(taken, done)

    def _print(self) -> None:
        """Print through the dialog of the system."""
        taught, printer = self.taught, None
        if taught is not None:
            printer = self._questions.which_printer(self, self._display.settings.paper)
        if taught is None or printer is None:
            return
        # With the first page that is printed of it.
        from designer.paper.pages import print_sheet
        from designer.window.kitchen.learned_print import learned_sheet

        sheet = learned_sheet(
            self.pot, taught, self.figures_of_pot(), self.told.text(), self._display
        )
        try:
            count = print_sheet(sheet, printer)
        except DesignerError as fault:
            self.said.emit(str(fault), True)
            return
        words = trn(
            "Sent {number} page to the printer.", "Sent {number} pages to the printer.", count
        )
        self.said.emit(words, False)

    def take_focus(self) -> None:
        """Give the keyboard to the first thing there is to press."""
        chip = self.chips.get(self.pot)
        (chip or self.print_button).setFocus(Qt.FocusReason.OtherFocusReason)

    def close_down(self) -> None:
        """Let go of what is reckoned beside the window."""
        self._jobs.close()
        self._forecasts.wait()


def _pots(taught: Taught) -> tuple[str, ...]:
    """Return the pots of the Kitchen and those that were brewed in."""
    return tuple(dict.fromkeys([*taught.pots, *(each.pot for each in taught.brews)]))


def _since(brews: tuple[BrewRow, ...]) -> str:
    """Say of which days all of it is."""
    try:
        days = [day_text(datetime.fromisoformat(each.started)) for each in brews]
    except ValueError:
        days = []
    if not days:
        return ""
    if len(days) == 1:
        return tr("from what you typed on {day}", day=days[0])
    return tr("from what you typed on brew days, {first} to {last}", first=days[0], last=days[-1])


def _card() -> tuple[QFrame, QVBoxLayout]:
    card = QFrame()
    card.setObjectName("card")
    inside = QVBoxLayout(card)
    inside.setContentsMargins(14, 10, 14, 10)
    inside.setSpacing(6)
    return card, inside
