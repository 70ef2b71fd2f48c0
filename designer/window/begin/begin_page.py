"""Begin: three doors. Design one of my own, type in a kit, look at one that is done.

The doors are seen first; what is behind the open one follows when they have been painted.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QPaintEvent, QResizeEvent, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.translation import message, tr
from designer.window.begin.door import Door
from designer.window.begin.door_card import DoorCard
from designer.window.begin.left_column import LeftColumn
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import MARGIN, Page, scrolled
from designer.workbench import keys
from designer.workbench.keys import MenuKey, key_said

if TYPE_CHECKING:
    from designer.window.begin.welcome_line import WelcomeLine
    from designer.window.session.autosave import Autosave
    from designer.window.session.to_go_on_with import Thing

OWN, KIT, LOOK = range(3)
ABOUT = (
    message("a first recipe from a few answers"),
    message("as its box says; its contents stay locked"),
    message("four examples, or a recipe file"),
)
"""What stands on the doors below their titles, in their order."""
LOW = 620
"""Pixels of height below which the doors show their titles alone."""
NARROW = 860
"""Pixels of width below which the column beside them is narrower."""


class BeginPage(Page):
    """The doors in a row, what is behind the open one below; `begun` carries the recipe.

    `begun_to_fit` carries one whose ways to be brewed are to be seen. `left` tells that the brewer
    wants back to where the doors were come to from.
    """

    begun = Signal(object)
    begun_to_fit = Signal(object)
    example_wanted = Signal(str)
    file_wanted = Signal()
    left = Signal()
    vessels_told = Signal(object, object)
    """The pot and the fermenter that the brewer has, each None if not told."""

    def __init__(
        self,
        display: DisplayFormat,
        autosave: Callable[[], Autosave | None] = lambda: None,
        open_now: Callable[[], Thing | None] = lambda: None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.column = LeftColumn(display, autosave, open_now)
        self._display, self._autosave = display, autosave
        self._made: dict[int, Door] = {}
        self.welcome: WelcomeLine | None = None
        self._around: dict[int, QWidget] = {}
        self._complete = False
        self.doors = QButtonGroup(self)
        self._behind = QStackedWidget()
        row = QHBoxLayout()
        row.setSpacing(12)
        for number, about in enumerate(ABOUT):
            row.addWidget(self._card(number, keys.DOORS[number], tr(about)), 1)
        self.doors.button(OWN).setChecked(True)
        self.doors.idClicked.connect(self.open_door)
        right = QVBoxLayout()
        right.setSpacing(12)
        right.addLayout(row)
        right.addWidget(self._behind, 1)
        self._right = right
        layout = QHBoxLayout(self)
        layout.setContentsMargins(MARGIN, 12, MARGIN, 12)
        layout.setSpacing(20)
        layout.addWidget(self.column)
        layout.addLayout(right, 1)

    def _card(self, number: int, door: MenuKey, about: str) -> DoorCard:
        card = DoorCard(tr(door.text), about, key_said(door.keys[0]))
        self.doors.addButton(card, number)
        card.beside_wanted.connect(lambda step: self._go_beside(number + step))
        QShortcut(QKeySequence(door.keys[0]), self, lambda: self.open_door(number))
        return card

    def resizeEvent(self, event: QResizeEvent) -> None:
        """In a low window the doors have their titles alone: what is behind needs the room.

        In a narrow one the column beside them gives of its own.
        """
        super().resizeEvent(event)
        self.column.be_narrow(self.width() < NARROW)
        for card in self.doors.buttons():
            assert isinstance(card, DoorCard)
            card.show_about(self.height() >= LOW)

    # what is behind the doors

    @property
    def own(self) -> Door:
        """A first recipe of one's own."""
        return self._door(OWN)

    @property
    def kit(self) -> Door:
        """A kit."""
        return self._door(KIT)

    @property
    def example(self) -> Door:
        """One that is done."""
        return self._door(LOOK)

    def _door(self, number: int) -> Door:
        """Return what is behind a door; put together when it is first opened."""
        if number not in self._made:
            self._made[number] = door = self._made_door(number)
            door.begun.connect(self.begun)
            self._around[number] = around = scrolled(door, self._behind)
            self._behind.addWidget(around)
            door.order_tabs()  # now that it lies in the window
            self._show_behind(self.doors.checkedId())
            door.ask_box()
        return self._made[number]

    def _made_door(self, number: int) -> Door:
        # Each brings in what it reckons with: none is there before the doors have been painted.
        if number == OWN:
            from designer.window.begin.own_door import OwnDoor

            return OwnDoor(self._display, self._autosave)
        if number == KIT:
            from designer.window.begin.kit_door import KitDoor

            kit = KitDoor(self._display, self._autosave)
            kit.begun_to_fit.connect(self.begun_to_fit)
            return kit
        from designer.window.begin.look_door import LookDoor

        look = LookDoor(self._display)
        look.example_wanted.connect(self.example_wanted)
        look.file_wanted.connect(self.file_wanted)
        return look

    def _show_behind(self, number: int) -> None:
        if number in self._around:
            self._behind.setCurrentWidget(self._around[number])

    def complete(self) -> None:
        """Show what is behind the open door."""
        self._welcome()
        if not self._complete:
            self._complete = True
            self._door(self.doors.checkedId())
            if self.isVisible() and isinstance(self.window().focusWidget(), DoorCard | None):
                self.take_focus()

    def _welcome(self) -> None:
        """Ask for units and vessels, if that was never asked, between doors and form."""
        if self.welcome is not None or self._display.settings.knows_kitchen:
            return
        # Asked once; most starts have no use for it.
        from designer.window.begin.welcome_line import WelcomeLine

        self.welcome = line = WelcomeLine(self._display)
        line.answered.connect(self.vessels_told)
        line.skipped.connect(self.end_welcome)
        self._right.insertWidget(1, line)

    def end_welcome(self) -> None:
        """Units and vessels are known, or left open: that is asked no more."""
        self._display.settings.knows_kitchen = True
        if self.welcome is not None and self.welcome.isVisible():
            had_focus = self.welcome.isAncestorOf(self.window().focusWidget() or self)
            self.welcome.hide()
            if had_focus:
                self.take_focus()

    def open_door(self, number: int) -> None:
        """Show what is behind a door, and give it the keyboard."""
        self._complete = True
        self._welcome()
        self.doors.button(number).setChecked(True)
        door = self._door(number)
        self._show_behind(number)
        door.take_focus()

    def _go_beside(self, number: int) -> None:
        """Open the door beside, and stay among the doors."""
        if 0 <= number < len(keys.DOORS):
            self.open_door(number)
            self.doors.button(number).setFocus(Qt.FocusReason.OtherFocusReason)

    # the page

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._complete:
            QTimer.singleShot(0, self, self.complete)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc leaves the doors for the recipe that is open."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def ask_box(self) -> None:
        """The Recipe box can be asked from now on."""
        self.column.ask_box()
        for door in self._made.values():
            door.ask_box()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.column.ask_box()

    def close_down(self) -> None:
        for door in self._made.values():
            door.close_down()

    def take_focus(self) -> None:
        if self._complete:
            self._door(self.doors.checkedId()).take_focus()
        else:
            self.doors.button(self.doors.checkedId()).setFocus(Qt.FocusReason.OtherFocusReason)
