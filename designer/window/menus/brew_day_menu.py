"""The Brew day menu: what is done on that page; its single keys are the page's own."""

from __future__ import annotations

from PySide6.QtGui import QAction

from designer.translation import tr
from designer.window.menus.entries import Entries
from designer.workbench import keys
from designer.workbench.keys import key_said


def add_brew_day_menu(entries: Entries) -> None:
    """Add the Brew day menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&Brew day"))
    of_page: dict[str, QAction] = {}
    for entry, drawing, act in (
        (keys.STEP_DONE, "", lambda: window.brew_day().do()),
        (keys.STEP_BACK, "", lambda: window.brew_day().go_back()),
        (keys.TIMER, "", lambda: window.brew_day().ask_for_timer()),
        (keys.NOTE, "", lambda: window.brew_day().ask_for_note()),
        (keys.READING, "", lambda: window.brew_day().ask_for_reading()),
        (tr("&Keep this in the recipe"), "", lambda: window.brew_day().keep_in_recipe()),
        (tr("&Export the log…"), "action-export", lambda: window.brew_day().log.export()),
    ):
        words = entry if isinstance(entry, str) else entry.text
        of_page[words] = entries.add(menu, entry, act, drawing=drawing)

    def offer() -> None:
        page = window.brew_page
        is_shown = page is not None and window.pages.currentWidget() is page
        for each in of_page.values():
            each.setEnabled(is_shown)
            each.setToolTip("" if is_shown else tr("On the page of the brew day"))
        of_beer = page is not None and page.shows_beer
        for entry, has_key in ((keys.NOTE, not of_beer), (keys.READING, of_beer)):
            key = f"\t{key_said(entry.keys[0])}" if has_key else ""
            of_page[entry.text].setText(tr(entry.text) + key)

    offer()
    entries.offered_when_opened(menu, offer)
    window.pages.currentChanged.connect(lambda _: offer())
