"""The menu of a field: what Qt has for its text, the way back to what is usual, what it means."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QComboBox, QLineEdit, QMenu, QPlainTextEdit

from designer.translation import tr
from designer.window.parts.deeds import add_entry, menu_under, open_menu
from designer.window.parts.explained import explain
from designer.window.parts.menu_drawings import drawn_when_opened
from designer.workbench.keys import WHAT_IS_THIS


def field_menu(field: QLineEdit, empty: Callable[[], object] | None) -> QMenu:
    """Return the menu of a field; `empty` leaves it to what is usual, where something is."""
    menu = field.createStandardContextMenu()
    drawn_when_opened(menu)
    menu.addSeparator()
    if empty is not None:
        usual = field.placeholderText()
        text = tr("Back to the usual: {figure}", figure=usual) if usual else tr("Back to the usual")
        back = add_entry(menu, text, empty)
        back.setEnabled(bool(field.text()) and field.isEnabled())
    add_entry(menu, WHAT_IS_THIS, lambda: explain(field))
    return menu


def open_meaning_menu(field: QComboBox | QPlainTextEdit, event: QContextMenuEvent) -> None:
    """Open the menu of a choice or of some lines of text: what Qt has for it, what it means."""
    if isinstance(field, QPlainTextEdit):
        menu = field.createStandardContextMenu()
        drawn_when_opened(menu)
        menu.addSeparator()
    else:
        menu = menu_under(field)
    add_entry(menu, WHAT_IS_THIS, lambda: explain(field))
    open_menu(menu, event.globalPos())
