"""The View menu: the pages, and how things are shown."""

from __future__ import annotations

from functools import partial

from PySide6.QtGui import QKeySequence

from designer.translation import message, tr
from designer.window.menus.entries import Entries
from designer.window.menus.preference_menus import add_preference_menus
from designer.window.paged_window import BOX, BREW, COMPOSE, FIT, KITCHEN, SHEET
from designer.workbench import keys

PAGE_ENTRIES = {
    COMPOSE: message("&Compose"),
    FIT: message("&Fit"),
    SHEET: message("&Sheet"),
    BREW: message("&Brew day"),
    BOX: message("&Recipe box"),
    KITCHEN: message("&Kitchen"),
}
"""The pages with a letter each, which another language chooses for itself."""


def add_view_menu(entries: Entries) -> None:
    """Add the View menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&View"))
    for number, name in enumerate(window.page_names):
        entry = entries.add(
            menu,
            tr(PAGE_ENTRIES[name]),
            partial(window.show_page, number),
            of_recipe=window.needs_recipe(number),
        )
        entry.setShortcut(QKeySequence(keys.PAGES[number]))
        window.addAction(entry)
    menu.addSeparator()
    add_preference_menus(menu, window.settings)
    menu.addSeparator()
    full = entries.add(menu, keys.FULL_SCREEN, window.turn_full)
    full.setCheckable(True)
    menu.aboutToShow.connect(lambda: full.setChecked(window.isFullScreen()))
