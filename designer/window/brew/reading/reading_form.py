"""A reading without a recipe: for the shop on the phone, and for whoever has only the box.

Few answers do. Nothing of it is kept; what can be done is told, printed and copied.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    GravitySample,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.explained import Explained
from designer.brewday.explaining.kit import KitStated, beliefs_of_kit
from designer.errors import DesignerError, RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.brew.reading.answer_panel import AnswerPanel
from designer.window.brew.reading.answer_words import (
    Said,
    cool_first,
    is_being_reckoned,
    nothing_typed,
)
from designer.window.brew.reading.figure_panel import FigurePanel
from designer.window.brew.reading.kit_fields import KitFields
from designer.window.brew.reading.sample_form import SampleForm
from designer.window.brew.reading.test_card import FIGURE, READ_AGAIN
from designer.window.brew.reading.wrapped import wrapped
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import scrolled
from designer.window.parts.questions import Questions
from designer.window.parts.scrolling_dialog import ScrollingDialog
from designer.window.parts.sized_text import grown
from designer.window.session.reading_ahead import ReadingAhead
from designer.workbench.brew.reading_story import is_too_warm
from designer.workbench.reading_sheet import reading_page_text, reading_sheet

SIZE = (1180, 720)
BESIDE_PX, LEFT_PX = 860.0, 330.0


class ReadingForm(ScrollingDialog):
    """The form with its answer."""

    def __init__(
        self, display: DisplayFormat, questions: Questions, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("A reading, without a recipe"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._display, self._questions = display, questions
        self._samples: list[GravitySample] = []
        self._answers: list[Answer] = []
        self._mark_l: float | None = None
        self._asked: Asked | None = None
        self.kit = KitFields(display)
        self.form = SampleForm(display)
        self.panel = AnswerPanel(display)
        self.panel.cures.offer_cures(False)
        self.figure = FigurePanel(self.panel.test, display)
        self.told = wrapped(name="soft")
        self.ahead = ReadingAhead(self)
        self.print_button = LargeButton(tr("Print…"), tr("On one page"), self.print_page)
        self.copy_button = LargeButton(
            tr("Copy as text"), tr("For a message to the caller"), self.copy_text
        )
        self.anew_button = LargeButton(tr("Start over"), tr("For the next caller"), self.begin_anew)
        self.close_button = LargeButton(tr("Close"), "", self.accept)
        self._lay_out()
        self.kit.typing.connect(self._ask)
        self.form.typing.connect(self._ask)
        self.form.given.connect(self._settle)
        self.panel.tested.connect(self._answer)
        self.figure.given.connect(self._take_figure)
        self.ahead.answered.connect(self._show)
        self.finished.connect(lambda _: self.ahead.close())
        self._ask()
        self.kit.extract.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        self._left = QWidget()
        left = QVBoxLayout(self._left)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(10)
        left.addWidget(self.kit)
        left.addWidget(self.form)
        left.addStretch(1)
        content = QWidget()
        self._grid = QGridLayout(content)
        self._grid.setSpacing(12)
        self._grid.setContentsMargins(14, 10, 14, 8)
        self._beside: bool | None = None
        foot = QHBoxLayout()
        foot.setContentsMargins(14, 0, 14, 10)
        foot.setSpacing(8)
        foot.addWidget(self.told, 1)
        for each in (self.anew_button, self.copy_button, self.print_button, self.close_button):
            each.setAutoDefault(False)
            foot.addWidget(each)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scrolled(content), 1)
        layout.addLayout(foot)
        screen = QGuiApplication.primaryScreen().availableSize()
        self.resize(min(SIZE[0], screen.width() - 20), min(SIZE[1], screen.height() - 60))
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
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

    # what is asked

    def _ask(self) -> None:
        """Ask what lies behind the reading as it is typed."""
        sample, stated = self.form.quiet_draft(), self.kit.stated()
        self._asked = None
        if sample is None and self._samples:
            sample, before = self._samples[-1], self._samples[:-1]
        else:
            before = self._samples
        if sample is None or stated is None:
            self._say(nothing_typed() if stated is not None else _nothing_told())
        elif is_too_warm(sample) and sample.sample_c is not None:
            self._say(cool_first(self._display.short(Kind.TEMPERATURE, sample.sample_c)))
        else:
            own = [each for each in before if each.taken is sample.taken]
            answers = tuple(self._answers)
            pot_l = stated.pot_l if sample.taken is Taken.POT else None
            self._asked = Asked((*own, sample), pot_l, self._mark_l, answers)
            if self.panel.explained is None:
                self.panel.say(is_being_reckoned())
            self.ahead.ask(self._asked, stated, _Kit(stated))
        self._offer()

    def _say(self, said: Said) -> None:
        self.ahead.forget()
        self.panel.say(said)

    def _show(self, explained: Explained) -> None:
        self.panel.show_answer(explained)
        self._offer()

    def _offer(self) -> None:
        """Offer to print and copy what is told in whole."""
        told = self.panel.explained
        is_whole = told is not None and told.whole and self._asked is not None
        self.print_button.setEnabled(is_whole)
        self.copy_button.setEnabled(is_whole)

    def _settle(self) -> None:
        if self.form.is_empty or self.form.check():
            self.form.settle()
            self._ask()

    # what is answered

    def _answer(self, code: TestCode, what: object) -> None:
        if what is READ_AGAIN:
            sample = self.form.quiet_draft()
            if sample is not None:
                self._samples.append(sample)
                self._answers = [e for e in self._answers if e.test is not code]
                self._answers.append(Answer(code))
            self.form.begin_another(stirred=Stirred.HARD if code is TestCode.STIR else None)
            self._ask()
        elif what is FIGURE:
            self.figure.ask_for(code)
        else:
            self._answers.append(Answer(code, changed=bool(what)))
            self._ask()

    def _take_figure(self, code: TestCode, text: str) -> None:
        if not text.strip():
            return
        try:
            answer, _, by = self.figure.read(code, text)
        except RefusedInputError as fault:
            self.figure.refuse(code, text, str(fault))
            return
        if by == "mark":
            self._mark_l, answer = answer.value, Answer(code)
        self._answers.append(answer)
        self._ask()

    def begin_anew(self) -> None:
        """Forget all that was told."""
        self._samples, self._answers, self._mark_l = [], [], None
        for field in self.kit.fields:
            field.put("")
        self.form.show_sample(GravitySample(0.0), "", "")
        self.told.setText("")
        self._ask()
        self.kit.extract.setFocus(Qt.FocusReason.OtherFocusReason)

    # what is handed on

    def copy_text(self) -> None:
        """Put what is told on the clipboard."""
        told, asked = self.panel.explained, self._asked
        if told is not None and asked is not None:
            units = self._display.settings.units
            text = reading_page_text(told, asked.samples[-1], units, self.kit.in_words())
            QGuiApplication.clipboard().setText(text)
            self.told.setText(tr("It is on the clipboard as text."))

    def print_page(self) -> None:
        """Print what is told, on one page."""
        told, asked = self.panel.explained, self._asked
        if told is None or asked is None:
            return
        from designer.paper.pages import print_sheet

        printer = self._questions.which_printer(self, self._display.settings.paper)
        if printer is None:
            return
        units = self._display.settings.units
        sheet = reading_sheet(told, asked.samples[-1], units, self.kit.in_words())
        try:
            print_sheet(sheet, printer)
        except DesignerError as fault:
            self.told.setText(str(fault))
            return
        self.told.setText(tr("Sent to the printer."))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return takes what is typed; it closes nothing."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            focus = QApplication.focusWidget()
            if isinstance(focus, LargeButton):
                focus.click()
            event.accept()
        else:
            super().keyPressEvent(event)


class _Kit:
    """Says what a kit gives."""

    def __init__(self, stated: KitStated) -> None:
        self._stated = stated

    def __call__(self) -> Beliefs:
        return beliefs_of_kit(self._stated)


def _nothing_told() -> Said:
    return Said(
        tr("What is in the box, and how far was it topped up?"),
        tr("The extract or the gravity that the box states, and the litres: then the reading."),
    )
