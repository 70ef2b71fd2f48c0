"""What a reading says: the verdict on its scale, causes, the cheapest test, and what to do.

Both the page of a brew day and the form without a recipe show it.
"""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QVBoxLayout, QWidget

from designer.brewday.explaining.explained import Advised, Explained
from designer.translation import tr
from designer.window.brew.reading.answer_words import Said, said_of
from designer.window.brew.reading.cause_rows import CausesList, rows_of
from designer.window.brew.reading.cures_card import CuresCard
from designer.window.brew.reading.gravity_scale import GravityScale, OnScale
from designer.window.brew.reading.test_card import TestCard
from designer.window.brew.reading.wrapped import wrapped
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import heading
from designer.window.parts.sized_text import grown

BESIDE_PX = 640.0
"""From this width on the scale stands beside the verdict, and cures beside the test."""
GAP = 10
FINE = ("fine", "nothing_wrong")
"""Verdicts of which nothing else is to be told."""


class VerdictCard(QFrame):
    """The verdict in large type, and the scale of gravities."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self.title = wrapped(times=1.55, bold=True)
        self.words = wrapped(name="soft")
        self.scale = GravityScale(display)
        text = QVBoxLayout()
        text.setSpacing(4)
        text.addStretch(1)
        text.addWidget(self.title)
        text.addWidget(self.words)
        text.addStretch(1)
        self.row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self.row.setContentsMargins(18, 8, 14, 8)
        self.row.setSpacing(16)
        self.row.addLayout(text, 4)
        self.row.addWidget(self.scale, 7)

    def say(self, said: Said, scale: OnScale | None) -> None:
        """Say it."""
        self.title.setText(said.title)
        self.words.setText(said.words)
        self.words.setVisible(bool(said.words))
        self.scale.setVisible(scale is not None)
        self.scale.show_scale(scale)
        self.setAccessibleName(
            " ".join(each for each in (said.title, said.words, self.scale.in_words()) if each)
        )


class AnswerPanel(QWidget):
    """All that is said of a reading.

    `tested` carries a test and what it showed (True, False), or None where a figure or another
    reading is to tell; `cured` carries a cure that the brewer takes.
    """

    tested = Signal(object, object)
    cured = Signal(object)

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self.explained: Explained | None = None
        self.verdict = VerdictCard(display)
        self.causes = CausesList()
        self.causes_card = QFrame()
        self.causes_card.setObjectName("card")
        inside = QVBoxLayout(self.causes_card)
        inside.setContentsMargins(1, 8, 1, 2)
        inside.setSpacing(3)
        head = heading(tr("What may lie behind it"))
        head.setContentsMargins(14, 0, 0, 0)
        inside.addWidget(head)
        inside.addWidget(self.causes)
        self.test = TestCard(display)
        self.cures = CuresCard(display)
        self.test.answered.connect(self.tested)
        self.cures.taken.connect(self.cured)
        self._both = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._both.setSpacing(GAP)
        self._both.addWidget(self.test, 1)
        self._both.addWidget(self.cures, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.verdict)
        layout.addWidget(self.causes_card)
        layout.addLayout(self._both)
        layout.addStretch(1)

    def offer_deeds(self, offered: bool) -> None:
        """Offer to answer tests and to take cures, or only tell of them."""
        self.test.offer_answers(offered)
        self.cures.offer_cures(offered)

    def say(self, said: Said, scale: OnScale | None = None) -> None:
        """Say a sentence alone: there is nothing to be compared."""
        self.explained = None
        self.verdict.say(said, scale)
        for each in (self.causes_card, self.test, self.cures):
            each.hide()

    def show_answer(self, explained: Explained) -> None:
        """Show what is said of a reading; where it is fine, nothing but that."""
        self.explained = explained
        found = explained.expected
        low, high = explained.reads or (found.low, found.high)
        scale = OnScale(explained.reading_sg_20c, low, high, found.value)
        self.verdict.say(said_of(explained, self._display), scale)
        is_fine = explained.verdict in FINE
        self.causes_card.setVisible(bool(explained.causes) and not is_fine)
        if explained.causes and not is_fine:
            self.causes.show_rows(rows_of(explained, self._display))
        self._show_test(explained, explained.test, is_fine=is_fine)
        if explained.whole or not explained.cures:
            self.cures.show_cures(() if is_fine else explained.cures)
        self.cures.setVisible(bool(explained.cures) and not is_fine)

    def _show_test(self, explained: Explained, test: Advised | None, *, is_fine: bool) -> None:
        if test is not None and not is_fine:
            self.test.show_test(test, explained)
        self.test.setVisible(test is not None and not is_fine)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        beside = self.width() >= grown(self, BESIDE_PX)
        way = QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom
        for each in (self.verdict.row, self._both):
            if each.direction() != way:
                each.setDirection(way)
