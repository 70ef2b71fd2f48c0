"""Menus under the pointer, for rows of tables and lists; Shift+F10 and the Menu key open them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QMenu

from designer.window.parts.deeds import add_entry, menu_under, open_menu

Fill = Callable[[QMenu], object]


def offer_menu(view: QAbstractItemView, fill: Fill) -> None:
    """Open a menu for the row that is pointed at, or has the keyboard; `fill` puts it together."""
    view.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
    view.customContextMenuRequested.connect(partial(open_row_menu, view, fill))
    view.installEventFilter(_ByKey(view, fill))


class _ByKey(QObject):
    """Opens the menu of a view by the Menu key: Qt would tell its middle for a place."""

    def __init__(self, view: QAbstractItemView, fill: Fill) -> None:
        super().__init__(view)
        self._view, self._fill = view, fill

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.ContextMenu or not isinstance(event, QContextMenuEvent):
            return False
        open_row_menu(self._view, self._fill, place_meant(self._view, event))
        return True


def place_meant(view: QAbstractItemView, event: QContextMenuEvent) -> QPoint:
    """Return the place in a view that a menu is asked for: by a key, the cell one is in."""
    index = view.currentIndex()
    if event.reason() is not QContextMenuEvent.Reason.Keyboard or not index.isValid():
        return event.pos()
    view.scrollTo(index)
    return view.visualRect(index).center()


def row_menu(view: QAbstractItemView, fill: Fill) -> QMenu:
    """Return the menu of the row that the keyboard is in."""
    menu = menu_under(view)
    fill(menu)
    return menu


def open_row_menu(view: QAbstractItemView, fill: Fill, at: QPoint) -> None:
    """Open the menu of a row at a place of the view; the row is chosen with it."""
    index = view.indexAt(at)
    if index.isValid() and not view.selectionModel().isSelected(index):
        view.setCurrentIndex(index)
    open_menu(row_menu(view, fill), view.viewport().mapToGlobal(at))


def add_buttons(menu: QMenu, buttons: Iterable[QAbstractButton]) -> None:
    """Add what buttons beside the list do; one that is off is off here too, and says why."""
    for each in buttons:
        if not each.isHidden():
            action = add_entry(menu, each.text(), each.click)
            action.setEnabled(each.isEnabled())
            action.setToolTip(each.toolTip())
