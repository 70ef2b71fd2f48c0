"""Behind the first door: a first recipe of one's own, from a few answers.

Recipes follow while answers are given. Until the next have been found the last stay where they
are; what begins is always what follows from the answers as they stand.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QPaintEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QSlider, QVBoxLayout, QWidget

from designer.errors import RefusedInputError
from designer.translation import tr
from designer.window.begin.door import Door
from designer.window.begin.own_cards import DraftCards
from designer.window.begin.own_column import small_label
from designer.window.begin.own_faults import AnswerFaults
from designer.window.begin.own_form import AnswersForm
from designer.window.begin.own_kitchen import KeptKitchen, kept_kitchen
from designer.window.begin.own_reckoning import STUDY, FirstReckoning, Found, Understood
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import heading, scrolled
from designer.window.parts.scrolling import bring_into_view
from designer.window.session.shop_sizes import ShopSizes

if TYPE_CHECKING:
    from designer.window.session.autosave import Autosave
    from designer.workbench.first_answers import Answers


class OwnDoor(Door):
    """Answers above, three recipes to choose from below."""

    def __init__(
        self, display: DisplayFormat, autosave: Callable[[], Autosave | None] = lambda: None
    ) -> None:
        self.form = AnswersForm(display)
        super().__init__(display, self.form)
        self.setObjectName("plain")
        self._autosave = autosave
        self.fields = self.form.fields
        self.three, self.study = DraftCards(display, 3), DraftCards(display, 1)
        self.said = small_label()
        self.study_link = QPushButton(tr("A study beer of one malt and one hop"))
        self.study_link.setObjectName("cure")
        self.study_link.setCheckable(True)
        self.found: Found | None = None
        """What the cards show; of older answers as long as the next are looked for."""
        self._asked: Answers | None = None
        self._to_start: int | None = None
        self._study_awaited = False
        self._faults = AnswerFaults(self.refusal, self.form.places())
        self._painted = self._is_complete = False
        self.reckoning = FirstReckoning(self)
        self.shop = ShopSizes(display, autosave, self, key="packs for the doors")
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(heading(tr("Three to choose from")))
        self.said.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.said.setText(
            tr("They change with your answers; Ctrl+Return starts from the framed one")
        )
        head.addWidget(self.said, 1)
        self.study.setVisible(False)
        content = QWidget()
        self._area = scrolled(content, self)
        inside = QVBoxLayout(content)
        inside.setSpacing(9)
        inside.addWidget(self.form)
        inside.addLayout(head)
        inside.addWidget(self.three)
        inside.addWidget(self.study_link, 0, Qt.AlignmentFlag.AlignLeft)
        beside = QHBoxLayout()
        beside.addWidget(self.study, 1)
        beside.addStretch(1)
        inside.addLayout(beside)
        self._bar = self._area.verticalScrollBar()
        foot = QHBoxLayout()
        foot.setContentsMargins(0, 0, self._bar.sizeHint().width(), 0)
        foot.addWidget(self.three.foot)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._area, 1)
        layout.addLayout(foot)
        layout.addStretch()
        self._content, self._inside = content, inside
        content.installEventFilter(self)
        self._keep_room_for_bar()

    def _keep_room_for_bar(self) -> None:
        """Leave as much room as the bar takes where there is none: no column moves for it."""
        room = 0 if self._bar.maximum() > 0 else self._bar.sizeHint().width()
        self._inside.setContentsMargins(0, 0, room, 0)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.LayoutRequest, QEvent.Type.Resize):
            self._end_with_cards()
        return False

    def _end_with_cards(self) -> None:
        """Let what scrolls be no higher than it is, so that the buttons stand below the cards."""
        width = self._area.viewport().width()
        self._area.setMaximumHeight(max(self._inside.totalHeightForWidth(width), 1))

    def _connect(self) -> None:
        self.form.changed.connect(self._follow)
        self._bar.rangeChanged.connect(self._keep_room_for_bar)
        self.three.rearranged.connect(self.order_tabs)
        self.reckoning.understood.connect(self._show_understood)
        self.reckoning.found.connect(self._show_found)
        self.three.start_wanted.connect(self.start)
        self.study.start_wanted.connect(lambda _number: self.start(STUDY))
        self.study_link.toggled.connect(self._open_study)
        self.shop.changed.connect(self._follow)
        self._display.settings.changed.connect(self._show_anew)
        for field in self.fields.values():
            field.editingFinished.connect(lambda field=field: self._faults.say_left(field))

    # keys

    def order_tabs(self) -> None:
        """Go through the questions, then through the recipes."""
        cards = (*self.three.cards, *self.study.cards)
        buttons = [each.button for each in cards]
        for before, after in pairwise(
            [*self.form.stops(), *buttons[:-1], self.study_link, buttons[-1]]
        ):
            QWidget.setTabOrder(before, after)

    def take_focus(self) -> None:
        self.form.words.setFocus()
        self.form.words.selectAll()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes from answer to answer to the chosen card; with Ctrl it begins from any."""
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.start(STUDY if self.study.has_keyboard() else self.three.chosen)
        elif isinstance(focus := self.focusWidget(), (QLineEdit, QSlider)):
            following = self.form.after(focus) or self.three.cards[self.three.chosen].button
            following.setFocus(Qt.FocusReason.TabFocusReason)
            bring_into_view(following)
        else:
            super().keyPressEvent(event)

    # being seen

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask_box()
        self._follow()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._painted:
            self._painted = True
            QTimer.singleShot(0, self, self._complete)

    def _complete(self) -> None:
        """Load what the first picture had no use for: names that are offered, flavours, recipes."""
        self.form.complete()
        self.order_tabs()
        self._is_complete = True
        self.ask_box()
        self._follow()

    def ask_box(self) -> None:
        """Ask the Recipe box what vessels and what cupboard there are."""
        autosave = self._autosave()
        if self._is_complete and autosave is not None:
            self.shop.ask()
            autosave.store.ask(kept_kitchen, self._offer, key="kitchen for the doors")

    def _offer(self, kept: KeptKitchen) -> None:
        self.form.kitchen.offer(kept)
        self._follow()

    def close_down(self) -> None:
        self.reckoning.stop()

    # following the answers

    def _answers(self) -> Answers:
        return replace(self.form.answers(), packs=self.shop.sizes())

    def _follow(self) -> None:
        """Ask for what the answers come to now; what cannot be read is marked while it is typed."""
        if not (self._is_complete and self.isVisible()):
            return
        self._to_start = None
        try:
            answers = self._answers()
        except RefusedInputError as fault:
            self._refuse(fault)
            return
        self._faults.readable()
        if answers != self._asked:
            self._ask(answers)

    def _ask(self, answers: Answers) -> None:
        self._asked = answers
        self.reckoning.ask(answers, with_study=self.study_link.isChecked())

    def _refuse(self, fault: RefusedInputError, key: str = "") -> None:
        """What stands in the cards is no answer to this."""
        self._to_start = self._asked = None
        self.reckoning.withdraw()
        self._dim(True)
        self._faults.note(fault, key)

    def _dim(self, dimmed: bool) -> None:
        self.three.dim(dimmed)
        self.study.dim(dimmed)

    # what was found

    def _show_understood(self, understood: Understood) -> None:
        self.form.show_wished(understood.reading, understood.wished)

    def _show_found(self, found: Found) -> None:
        if found.answers != self._asked:
            return
        if found.fault is not None:
            is_to_start = self._to_start is not None
            self._refuse(found.fault, found.at)
            if is_to_start:
                self._faults.say()
            return
        self.found = found
        self._faults.forget()
        self._dim(False)
        self._show_drafts(found)
        wanted, self._to_start = self._to_start, None
        if wanted is not None:
            self._begin(found, wanted)

    def _show_drafts(self, found: Found) -> None:
        self.three.show_drafts(found.drafts)
        if found.study is not None:
            self.study.show_drafts((found.study,))
            if self._study_awaited:
                self._study_awaited = False
                QTimer.singleShot(0, self.study, lambda: bring_into_view(self.study))

    def _show_anew(self) -> None:
        """Figures are to be shown in other units."""
        self.form.show_anew()
        self.shop.follow_units()
        if self.found is not None:
            self._show_drafts(self.found)
        self._follow()

    def _open_study(self, wanted: bool) -> None:
        self.study.setVisible(wanted)
        self._study_awaited = wanted
        if wanted and self._asked is not None:
            self._ask(self._asked)

    # beginning

    def start(self, number: int) -> None:
        """Begin with a card, once it shows what follows from the answers as they stand."""
        try:
            answers = self._answers()
        except RefusedInputError as fault:
            self._refuse(fault)
            self._faults.say()
            return
        found = self.found
        if found is None or found.answers != answers or found.draft(number) is None:
            self._ask(answers)
            self._to_start = number
        else:
            self._begin(found, number)

    def _begin(self, found: Found, number: int) -> None:
        draft = found.draft(number)
        if draft is not None:
            self.begin_with(draft.recipe)
