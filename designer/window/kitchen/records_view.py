"""A table of the kitchen's records: a click on a heading orders them, its menu hides columns.

Both are in the menu of its rows too, for the keyboard.
"""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu, QWidget

from designer.translation import tr
from designer.window.kitchen.records_model import RecordsModel
from designer.window.parts.columns_menu import columns_menu
from designer.window.parts.ordering import Ordering
from designer.window.parts.plain_table import PlainTableView


class RecordsView(PlainTableView):
    """A table of records; `kept_as` is what its order and its hidden columns are kept under."""

    def __init__(self, records: RecordsModel, name: str, kept_as: str) -> None:
        super().__init__(records, name)
        self.records, self._kept_as = records, kept_as
        self._settings = records.display.settings
        self._hidden = self._settings.hidden_columns(kept_as)
        self._show_columns()
        header = self.horizontalHeader()
        header.setToolTip(tr("Click to sort; right-click to choose columns"))
        self.ordering = Ordering(self, records.columns, self._settings, kept_as, records.order_by)
        header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        header.customContextMenuRequested.connect(
            lambda place: self.columns_menu().exec(header.mapToGlobal(place))
        )

    def chosen(self) -> Any:
        """Return the record of the current row; None for the row that takes a new one."""
        return self.records.row_at(self.currentIndex().row())

    def fill_menu(self, menu: QMenu) -> None:
        super().fill_menu(menu)
        menu.addSeparator()
        menu.addMenu(self.ordering.menu(menu))
        menu.addMenu(self._columns_menu(menu))

    def columns_menu(self) -> QMenu:
        """Return a menu that shows and hides columns; the name stays. What is chosen is kept."""
        menu = self._columns_menu(self)
        menu.aboutToHide.connect(menu.deleteLater)
        return menu

    def _columns_menu(self, parent: QWidget) -> QMenu:
        titles = [each.heading for each in self.records.columns[1:]]
        return columns_menu(parent, titles, self._hidden, self._choose_column)

    def _choose_column(self, title: str, shown: bool) -> None:
        self._hidden = self._hidden - {title} if shown else self._hidden | {title}
        self._settings.hide_columns(self._kept_as, self._hidden)
        self._show_columns()

    def _show_columns(self) -> None:
        for number, column in enumerate(self.records.columns[1:], 1):
            self.setColumnHidden(number, column.heading in self._hidden)
