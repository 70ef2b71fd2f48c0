"""The Edit menu: undo and redo, what is done to what has the keyboard, new lines, and variants."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

from designer.translation import message, tr
from designer.window.menus.entries import Entries, bind, name_step
from designer.workbench import keys
from designer.workbench.keys import MenuKey

if TYPE_CHECKING:
    from designer.window.find.finding import Finding
    from designer.window.paged_window import PagedWindow
    from designer.window.parts.deeds import Deeds

OF_CLIPBOARD = (keys.CUT, keys.COPY, keys.PASTE, keys.DELETE, keys.SELECT_ALL)
OF_LINES = (keys.DUPLICATE, keys.MOVE_UP, keys.MOVE_DOWN, keys.OPEN_OR_EDIT)
NOT_HERE = message("Go to a field, or choose a line, that this can be done to")


def add_edit_menu(entries: Entries, finding: Finding) -> None:
    """Add the Edit menu to the menu bar."""
    menu = entries.menu(tr("&Edit"))
    _add_turning(entries, menu)
    _add_deeds(entries, menu)
    menu.addSeparator()
    for entry, lines in (
        (keys.ADD_FERMENTABLE, "fermentables"),
        (keys.ADD_HOP, "hops"),
        (keys.ADD_EXTRA, "extras"),
    ):
        entries.add(menu, entry, partial(_add_line, entries.window, lines), of_recipe=True)
    menu.addSeparator()
    copy_it = partial(_copy_forecast, entries.window)
    text, drawing = tr("Cop&y the forecast as text"), "action-copy"
    entries.add(menu, text, copy_it, of_recipe=True, drawing=drawing)
    menu.addSeparator()
    entries.add(menu, keys.FIND_ANYWHERE, finding.anywhere)
    entries.add(menu, keys.FIND_ON_PAGE, finding.on_page)
    entries.add(menu, keys.FIND_NEXT, partial(finding.go_on, 1))
    entries.add(menu, keys.FIND_BEFORE, partial(finding.go_on, -1))
    menu.addSeparator()
    entries.add(menu, keys.WHAT_IF, entries.window.what_if, of_recipe=True)
    menu.addSeparator()
    entries.add(menu, keys.PREFERENCES, entries.window.show_preferences)


def _add_turning(entries: Entries, menu: QMenu) -> None:
    turning, header = entries.window.turning, entries.window.header
    undo = entries.add(menu, keys.UNDO, turning.undo)
    redo = entries.add(menu, keys.REDO, turning.redo)
    name_step(undo, message("&Undo {step}"), turning.undo_text_changed, turning.can_undo_changed)
    name_step(redo, message("&Redo {step}"), turning.redo_text_changed, turning.can_redo_changed)
    bind(header.undo, undo)
    bind(header.redo, redo)


def _add_deeds(entries: Entries, menu: QMenu) -> None:
    """Add what is done to what has the keyboard; its keys stay with the keyboard's own place."""
    offered: list[tuple[MenuKey, QAction]] = []

    def deeds() -> Deeds:
        # No start asks what a field can do.
        from designer.window.parts.deeds import deeds_of

        return deeds_of(entries.keyboard.widget)

    def act(entry: MenuKey) -> None:
        deed = deeds().get(entry)
        if deed is not None:
            deed()

    def offer() -> None:
        can = deeds()
        for entry, action in offered:
            action.setEnabled(entry in can)
            action.setToolTip("" if entry in can else tr(NOT_HERE))

    for group in (OF_CLIPBOARD, OF_LINES):
        menu.addSeparator()
        offered += [(each, entries.add(menu, each, partial(act, each))) for each in group]
    entries.offered_when_opened(menu, offer)


def _copy_forecast(window: PagedWindow) -> None:
    window.compose.out.copy_text()


def _add_line(window: PagedWindow, lines: str) -> None:
    window.compose.add_line(lines)
