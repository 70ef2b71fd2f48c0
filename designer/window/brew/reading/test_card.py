"""The cheapest test that tells: what to do, what its outcomes would say, and buttons to answer."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout

from designer.brewday.explaining.asked import TestCode
from designer.brewday.explaining.explained import Advised, Explained
from designer.translation import message, tr
from designer.window.brew.large_button import LargeButton
from designer.window.brew.reading.answer_words import in_words
from designer.window.brew.reading.wrapped import wrapped
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import caption

READ_AGAIN = object()
"""The answer is another reading."""
FIGURE = object()
"""The answer is a figure that is asked for."""

ANSWERS: dict[TestCode, tuple[tuple[str, object], ...]] = {
    TestCode.STIR: ((message("I stirred: read again"), READ_AGAIN),),
    TestCode.TOP_AND_BOTTOM: (
        (message("They differ"), True),
        (message("They read the same"), False),
    ),
    TestCode.COOL: ((message("I cooled it: read again"), READ_AGAIN),),
    TestCode.WATER_CHECK: ((message("In water it reads …"), FIGURE),),
    TestCode.SETTLE: ((message("It rested: read again"), READ_AGAIN),),
    TestCode.WEIGH: ((message("Level is at …"), FIGURE),),
    TestCode.COUNT_PACKETS: (
        (message("Something is left over"), True),
        (message("All of it went in"), False),
    ),
    TestCode.SUM: (
        (message("Points are missing"), True),
        (message("They add up"), False),
    ),
    TestCode.WAIT: ((message("I waited: read again"), READ_AGAIN),),
}
"""What can be answered to each test; the first is the one that is meant to be pressed."""


class TestCard(QFrame):
    """The test with its outcomes; `answered` carries its code and the answer."""

    __test__ = False

    answered = Signal(object, object)

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("testCard")
        self._display, self._is_told_only = display, False
        self._code: TestCode | None = None
        self.title = wrapped(times=1.4, bold=True)
        self.words, self.outcomes = wrapped(name="soft"), wrapped()
        self.buttons: list[LargeButton] = []
        self._flow = FlowLayout(across=8, down=6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 12, 16, 12)
        layout.setSpacing(7)
        layout.addWidget(heading(tr("First, the cheapest test")))
        layout.addWidget(self.title)
        layout.addWidget(self.words)
        layout.addWidget(self.outcomes)
        layout.addLayout(self._flow)
        layout.addStretch(1)

    def show_test(self, test: Advised, explained: Explained) -> None:
        """Show a test; its buttons stay while it is the same one."""
        self.title.setText(in_words(test.title, self._display))
        said = in_words(test.message, self._display)
        self.words.setText(said)
        self.words.setVisible(bool(said))
        told = [
            tr(
                "{shows}: {says}",
                shows=in_words(each.shows, self._display),
                says=in_words(each.says, self._display),
            )
            for each in test.outcomes
        ]
        self.outcomes.setText("\n".join(told))
        self.outcomes.setVisible(bool(told))
        self.setAccessibleName(
            " ".join((self.title.text(), self.words.text(), self.outcomes.text()))
        )
        if test.code is not self._code:
            self._code = test.code
            self._offer(ANSWERS[test.code])

    def _offer(self, answers: tuple[tuple[str, object], ...]) -> None:
        for each in self.buttons:
            each.hide()
            self._flow.removeWidget(each)
            each.deleteLater()
        self.buttons = []
        for text, what in answers:
            self.buttons.append(self._button(tr(text), what, is_first=not self.buttons))

    def offer_answers(self, offered: bool) -> None:
        """Show the buttons, or none where nothing can be kept."""
        self._is_told_only = not offered
        for each in self.buttons:
            each.setVisible(offered)

    def words_of(self, what: object) -> str:
        """Return the words of the button of an answer."""
        answers = ANSWERS[self._code] if self._code is not None else ()
        return next((tr(text) for text, each in answers if each is what), "")

    def _button(self, text: str, what: object, *, is_first: bool) -> LargeButton:
        made = LargeButton(caption(text), "", partial(self._answer, what))
        if is_first:
            made.as_primary(1.15)
        self._flow.addWidget(made)
        made.setVisible(not self._is_told_only)
        return made

    def _answer(self, what: object) -> None:
        if self._code is not None:
            self.answered.emit(self._code, what)
