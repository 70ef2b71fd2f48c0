"""Drawings of menu entries: named when a menu is made, drawn when it opens.

The start makes menus and draws none of them, so nothing that draws is imported here before that.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtGui import QAction
    from PySide6.QtWidgets import QMenu

DRAWING = "drawing"
"""Property of an action: the name of its drawing."""


def wear(action: QAction, name: str) -> None:
    """Name the drawing of an action; it is seen in menus that are `drawn_when_opened`."""
    action.setProperty(DRAWING, name)


def drawing_of(action: QAction) -> str:
    """Return the name of the drawing of an action; "" for none."""
    return str(action.property(DRAWING) or "")


def drawn_when_opened(menu: QMenu) -> None:
    """Let a menu draw the icons of its entries each time it opens, in the inks of then."""
    menu.aboutToShow.connect(partial(_draw, menu))


def _draw(menu: QMenu) -> None:
    from designer.window.parts.drawn_icons import drawn_icon

    for action in menu.actions():
        name = drawing_of(action)
        if name:
            action.setIcon(drawn_icon(name))
            action.setIconVisibleInMenu(True)
