"""The Brew day menu: what is done on that page; its single keys are the page's own."""

from __future__ import annotations

from PySide6.QtGui import QAction

from designer.translation import tr
from designer.window.menus.entries import Entries
from designer.workbench import keys


def add_brew_day_menu(entries: Entries) -> None:
    """Add the Brew day menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&Brew day"))
    of_page: list[QAction] = []
    for entry, drawing, act in (
        (keys.STEP_DONE, "", lambda: window.brew_day().do()),
        (keys.STEP_BACK, "", lambda: window.brew_day().go_back()),
        (keys.TIMER, "", lambda: window.brew_day().ask_for_timer()),
        (keys.NOTE, "", lambda: window.brew_day().ask_for_note()),
        (keys.READING, "", lambda: window.brew_day().ask_for_reading()),
        (tr("&Keep this in the recipe"), "", lambda: window.brew_day().keep_in_recipe()),
        (tr("&Export the log…"), "action-export", lambda: window.brew_day().log.export()),
    ):
        of_page.append(entries.add(menu, entry, act, drawing=drawing))

    def offer() -> None:
        page = window.brew_page
        is_shown = page is not None and window.pages.currentWidget() is page
        for each in of_page:
            each.setEnabled(is_shown)
            each.setToolTip("" if is_shown else tr("On the page of the brew day"))

    offer()
    window.pages.currentChanged.connect(lambda _: offer())
