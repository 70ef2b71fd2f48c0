"""The Edit menu: undo and redo, new lines, and variants of the recipe."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from designer.translation import message, tr
from designer.window.menus.entries import Entries, bind, name_step
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.paged_window import PagedWindow


def add_edit_menu(entries: Entries) -> None:
    """Add the Edit menu to the menu bar."""
    window, menu = entries.window, entries.menu(tr("&Edit"))
    turning, header = window.turning, window.header
    undo = entries.add(menu, keys.UNDO, turning.undo, drawing="action-undo")
    redo = entries.add(menu, keys.REDO, turning.redo, drawing="action-redo")
    name_step(undo, message("&Undo {step}"), turning.undo_text_changed, turning.can_undo_changed)
    name_step(redo, message("&Redo {step}"), turning.redo_text_changed, turning.can_redo_changed)
    bind(header.undo, undo)
    bind(header.redo, redo)
    menu.addSeparator()
    for entry, lines, drawing in (
        (keys.ADD_FERMENTABLE, "fermentables", "ingredient-liquid-extract"),
        (keys.ADD_HOP, "hops", "ingredient-hops"),
        (keys.ADD_EXTRA, "extras", "ingredient-extra"),
    ):
        act = partial(_add_line, window, lines)
        entries.add(menu, entry, act, of_recipe=True, drawing=drawing)
    menu.addSeparator()
    try_it, drawing = window.what_if, "action-what-if"
    entries.add(menu, keys.WHAT_IF, try_it, of_recipe=True, drawing=drawing)


def _add_line(window: PagedWindow, lines: str) -> None:
    window.compose.add_line(lines)
