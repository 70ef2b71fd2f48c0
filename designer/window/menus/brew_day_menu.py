"""The Brew day menu: what is done on that page; its single keys are the page's own."""

from __future__ import annotations

from PySide6.QtGui import QAction

from designer.translation import tr
from designer.window.menus.entries import Entries


def add_brew_day_menu(entries: Entries) -> None:
    """Add the Brew day menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&Brew day"))
    of_page: list[QAction] = []
    for text, key, drawing, act in (
        (tr("&Done, go on"), tr("Space"), "action-done", lambda: window.brew_day().do()),
        (tr("&Back a step"), tr("Backspace"), "", lambda: window.brew_day().go_back()),
        (tr("New &timer…"), "T", "action-timer", lambda: window.brew_day().ask_for_timer()),
        (tr("&Note for the log…"), "N", "action-note", lambda: window.brew_day().ask_for_note()),
        (tr("&Keep this in the recipe"), "", "", lambda: window.brew_day().keep_in_recipe()),
        (tr("&Export the log…"), "", "action-export", lambda: window.brew_day().log.export()),
    ):
        shown = f"{text}\t{key}" if key else text
        of_page.append(entries.add(menu, shown, "", act, drawing=drawing))
    menu.addSeparator()
    turn, drawing = window.turn_full, "action-full-screen"
    full = entries.add(menu, tr("&Full screen"), "F11", turn, of_recipe=True, drawing=drawing)
    window.addAction(full)  # its key is to work where no menu is seen

    def offer() -> None:
        page = window.brew_page
        is_shown = page is not None and window.pages.currentWidget() is page
        for each in of_page:
            each.setEnabled(is_shown)
            each.setToolTip("" if is_shown else tr("On the page of the brew day"))

    offer()
    window.pages.currentChanged.connect(lambda _: offer())
