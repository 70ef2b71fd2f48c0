"""Entries of menus, and what they share: their keys, and that they wait for an open recipe."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import SignalInstance
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QAbstractButton, QMenu
from shiboken6 import isValid

from designer.translation import tr
from designer.window.paged_window import NOTHING_OPEN
from designer.window.parts.letters import lettered_when_opened
from designer.window.parts.menu_drawings import drawn_when_opened, wear
from designer.window.parts.plain_text import as_read, tip
from designer.workbench.keys import MenuKey, key_said

if TYPE_CHECKING:
    from designer.window.paged_window import PagedWindow
    from designer.window.parts.keyboard_place import KeyboardPlace


class Entries:
    """All entries of a window's menus, in the order in which they were added."""

    def __init__(self, window: PagedWindow) -> None:
        self.window = window
        self.actions: list[QAction] = []
        self._of_recipe: list[QAction] = []
        self._offers: list[Callable[[], None]] = []
        window.opened.opened_first.connect(self.offer)

    @cached_property
    def keyboard(self) -> KeyboardPlace:
        """Where the keyboard is, or was before the menu bar took it."""
        from designer.window.parts.keyboard_place import KeyboardPlace  # no start needs it

        return KeyboardPlace(self.window)

    def menu(self, title: str) -> QMenu:
        """Add a menu to the menu bar."""
        menu = self.window.menuBar().addMenu(title)
        menu.setToolTipsVisible(True)
        drawn_when_opened(menu)
        lettered_when_opened(menu)
        return menu

    def add(
        self,
        menu: QMenu,
        entry: MenuKey | str,
        act: Callable[[], object],
        *,
        of_recipe: bool = False,
        drawing: str = "",
    ) -> QAction:
        """Add an entry, where it has no key by its words and a drawing of `resources/icons`.

        One that is done to the open recipe is off while there is none. A key that is the page's
        own is shown behind a tab, so that it stays with what has the keyboard.
        """
        action = menu.addAction(entry if isinstance(entry, str) else tr(entry.text))
        if isinstance(entry, MenuKey) and entry.here:
            action.setText(f"{action.text()}\t{key_said(entry.keys[0])}")
        elif isinstance(entry, MenuKey):
            action.setShortcuts([QKeySequence(each) for each in entry.keys])
            self.window.addAction(action)  # its key works where no menu is seen, too
        action.triggered.connect(lambda _checked=False: act())
        wear(action, drawing if isinstance(entry, str) else entry.drawing)
        self.actions.append(action)
        if of_recipe:
            self._of_recipe.append(action)
        return action

    def offered_when_opened(self, menu: QMenu, offer: Callable[[], None]) -> None:
        """Let `offer` switch entries of a menu on and off each time one looks at them."""
        menu.aboutToShow.connect(offer)
        self._offers.append(offer)

    def look(self) -> None:
        """Switch all entries on and off as they would be in an open menu."""
        for each in self._offers:
            each()

    def offer(self) -> None:
        """Offer what is done to a recipe only while one is open."""
        is_open = self.window.opened.is_open
        for action in self._of_recipe:
            action.setEnabled(is_open)
            action.setToolTip("" if is_open else tr(NOTHING_OPEN))


def name_step(
    action: QAction, words: str, text_changed: SignalInstance, can_changed: SignalInstance
) -> None:
    """Let an action say which step it takes back or does again, while there is one."""
    plain = action.text()

    def name(step: str) -> None:
        if isValid(action):  # the stack may be there longer
            action.setText(tr(words, step=step) if step else plain)
            action.setToolTip(tip(as_read(action.text())))  # its menu shows tips

    action.setEnabled(False)
    text_changed.connect(name)
    can_changed.connect(action.setEnabled)


def bind(button: QAbstractButton, action: QAction, text: str = "") -> None:
    """Let a button of the header do what an action does, and say what that would be."""

    def follow() -> None:
        if not isValid(action):  # it also changes while it goes down with its window
            return
        button.setEnabled(action.isEnabled())
        said = as_read(action.text())
        button.setToolTip(tip(said if action.isEnabled() else action.toolTip()))
        button.setAccessibleName(said)

    button.setText(text)
    button.clicked.connect(action.trigger)
    action.changed.connect(follow)
    follow()
