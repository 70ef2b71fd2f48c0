"""The View menu: the pages, and how things are shown."""

from __future__ import annotations

from functools import partial

from designer.translation import tr
from designer.window.menus.entries import Entries
from designer.window.menus.preference_menus import add_preference_menus


def add_view_menu(entries: Entries) -> None:
    """Add the View menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&View"))
    for number, name in enumerate(window.page_names):
        entries.add(
            menu,
            tr("&{page}", page=tr(name)),
            f"Ctrl+{number + 1}",
            partial(window.show_page, number),
            of_recipe=window.needs_recipe(number),
        )
    menu.addSeparator()
    add_preference_menus(menu, window.settings)
