"""In which order a table stands: by a click on a heading, or by *Sort by* in the menu of its rows.

A first click orders upwards, a second downwards, a third as it comes. What is chosen is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QActionGroup
from PySide6.QtWidgets import QHeaderView, QMenu, QTableView, QWidget

from designer.translation import message, tr
from designer.window.parts.columns import Column
from designer.window.parts.letters import lettered_when_opened
from designer.window.parts.plain_text import caption
from designer.window.parts.settings import Settings


class Order(NamedTuple):
    """By which column, its key, and whether downwards."""

    key: str
    down: bool = False


AS_ADDED = message("As they were added")


class Ordering:
    """The order of one table, followed by its header; `put` shows its rows in another one.

    `kept_as` is what it is kept under, `unordered` what no order is called.
    """

    def __init__(
        self,
        view: QTableView,
        columns: Sequence[Column],
        settings: Settings,
        kept_as: str,
        put: Callable[[Order | None], object],
        unordered: str = AS_ADDED,
    ) -> None:
        self._view, self._columns, self._unordered = view, columns, unordered
        self._settings, self._kept_as, self._put = settings, kept_as, put
        kept = settings.kept_order(kept_as)
        known = kept is not None and kept[0] in {each.key for each in columns}
        self.order = Order(*kept) if kept is not None and known else None
        header = view.horizontalHeader()
        header.setSectionsClickable(True)
        header.sectionClicked.connect(self._press)
        if self.order is not None:
            put(self.order)
        self._show()

    def choose(self, order: Order | None) -> None:
        """Show the rows in another order, and keep it."""
        self.order = order
        self._settings.keep_order(self._kept_as, order)
        self._put(order)
        self._show()

    def menu(self, parent: QWidget) -> QMenu:
        """Return a menu of the columns that are seen, of up and down, and of no order."""
        entries = [
            (each.key, each.heading)
            for number, each in enumerate(self._columns)
            if each.key and not self._view.isColumnHidden(number)
        ]
        return order_menu(parent, entries, self.order, self.choose, self._unordered)

    def _press(self, number: int) -> None:
        key, was = self._columns[number].key, self.order
        if was is None or was.key != key:
            self.choose(Order(key))
        else:
            self.choose(None if was.down else Order(key, down=True))

    def _show(self) -> None:
        show_order(self._view.horizontalHeader(), self._columns, self.order)


def show_order(header: QHeaderView, columns: Sequence[Column], order: Order | None) -> None:
    """Show at the heading of its column which order a table has."""
    header.setSortIndicatorShown(order is not None)
    if order is not None:
        way = Qt.SortOrder.DescendingOrder if order.down else Qt.SortOrder.AscendingOrder
        number = next(number for number, each in enumerate(columns) if each.key == order.key)
        header.setSortIndicator(number, way)


def order_menu(
    parent: QWidget,
    entries: Sequence[tuple[str, str]],
    order: Order | None,
    choose: Callable[[Order | None], object],
    unordered: str = "",
    down_first: frozenset[str] = frozenset(),
) -> QMenu:
    """Return a menu of what can be sorted by, keys with their English words.

    `unordered` is what no order is called, "" where there is always one; `down_first` is what is
    sorted downwards at first.
    """
    menu = QMenu(tr("Sort by"), parent)
    lettered_when_opened(menu)
    group = QActionGroup(menu)

    def add(words: str, wanted: Order | None, *, chosen: bool) -> None:
        entry = menu.addAction(caption(tr(words)))
        entry.setCheckable(True)
        entry.setChecked(chosen)
        group.addAction(entry)
        entry.triggered.connect(partial(_choose, choose, wanted))

    for key, words in entries:
        is_it = order is not None and order.key == key
        wanted = order if is_it else Order(key, key in down_first)
        add(words, wanted, chosen=is_it)
    if unordered:
        add(unordered, None, chosen=order is None)
    menu.addSeparator()
    down = menu.addAction(tr("Downwards"))
    down.setCheckable(True)
    if order is None:
        down.setEnabled(False)
    else:
        down.setChecked(order.down)
        down.triggered.connect(partial(_choose, choose, order._replace(down=not order.down)))
    return menu


def _choose(
    choose: Callable[[Order | None], object], order: Order | None, _checked: bool = False
) -> None:
    choose(order)
