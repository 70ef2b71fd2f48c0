"""The View menu: the pages, and how things are shown."""

from __future__ import annotations

from functools import partial

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu

from designer.translation import message, tr
from designer.window.menus.entries import Entries
from designer.window.menus.preference_menus import add_preference_menus
from designer.window.paged_window import BOX, BREW, COMPOSE, FIT, KITCHEN, SHEET
from designer.window.parts.interface_size import USUAL, next_size
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

NO_ROOM = message("This screen has no room for a window drawn larger")


def add_view_menu(entries: Entries) -> None:
    """Add the View menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&View"))
    for number, name in enumerate(window.page_names):
        entry = entries.add(
            menu,
            tr(PAGE_ENTRIES[name]) if name in PAGE_ENTRIES else f"&{tr(name)}",
            partial(window.show_page, number),
            of_recipe=window.needs_recipe(number),
        )
        entry.setShortcut(QKeySequence(keys.of_page(number)))
        window.addAction(entry)
    menu.addSeparator()
    add_preference_menus(menu, window.settings)
    menu.addSeparator()
    _add_sizes(entries, menu)
    full = entries.add(menu, keys.FULL_SCREEN, window.turn_full)
    full.setCheckable(True)
    menu.aboutToShow.connect(lambda: full.setChecked(window.isFullScreen()))


def _add_sizes(entries: Entries, menu: QMenu) -> None:
    """Add larger, smaller, and as usual; off, with the reason, where there is none further."""
    settings, window = entries.window.settings, entries.window

    def largest() -> int:
        # Nobody asks before a size is chosen.
        from designer.window.parts.on_screen import largest_size

        return largest_size(window)

    def step(by: int) -> None:
        settings.size = next_size(settings.size, by, largest())

    larger = entries.add(menu, keys.LARGER, partial(step, 1))
    smaller = entries.add(menu, keys.SMALLER, partial(step, -1))
    usual = entries.add(menu, keys.USUAL_SIZE, lambda: setattr(settings, "size", USUAL))

    def offer() -> None:
        now = settings.size
        for action, can, why in (
            (larger, next_size(now, 1, largest()) != now, tr(NO_ROOM)),
            (smaller, next_size(now, -1, largest()) != now, tr("It is the smallest there is")),
            (usual, now != USUAL, tr("It is in its usual size")),
        ):
            action.setEnabled(can)
            action.setToolTip("" if can else why)

    entries.offered_when_opened(menu, offer)
