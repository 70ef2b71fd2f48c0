"""A table of the kitchen's records: a click on a heading orders them, its menu hides columns."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu

from designer.translation import tr
from designer.window.kitchen.records_model import RecordsModel
from designer.window.parts.columns_menu import columns_menu
from designer.window.parts.plain_table import PlainTableView


class RecordsView(PlainTableView):
    """A table of records; `kept_as` is what its hidden columns are kept under."""

    def __init__(self, records: RecordsModel, name: str, kept_as: str) -> None:
        super().__init__(records, name)
        self.records, self._kept_as = records, kept_as
        self._settings = records.display.settings
        self._hidden = self._settings.hidden_columns(kept_as)
        self._show_columns()
        header = self.horizontalHeader()
        header.setSectionsClickable(True)
        header.setToolTip(tr("Click to sort; right-click to choose columns"))
        header.sectionClicked.connect(self._order_by)
        header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        header.customContextMenuRequested.connect(
            lambda place: self.columns_menu().exec(header.mapToGlobal(place))
        )

    def chosen(self) -> Any:
        """Return the record of the current row; None for the row that takes a new one."""
        return self.records.row_at(self.currentIndex().row())

    def columns_menu(self) -> QMenu:
        """Return a menu that shows and hides columns; the name stays. What is chosen is kept."""
        titles = [each.heading for each in self.records.columns[1:]]
        menu = columns_menu(self, titles, self._hidden, self._choose_column)
        menu.aboutToHide.connect(menu.deleteLater)
        return menu

    def _choose_column(self, title: str, shown: bool) -> None:
        self._hidden = self._hidden - {title} if shown else self._hidden | {title}
        self._settings.hide_columns(self._kept_as, self._hidden)
        self._show_columns()

    def _show_columns(self) -> None:
        for number, column in enumerate(self.records.columns[1:], 1):
            self.setColumnHidden(number, column.heading in self._hidden)

    def _order_by(self, number: int) -> None:
        """Order by a column, upwards; a second click downwards, a third as they were added."""
        key, was = self.records.columns[number].key, self.records.order
        order = (key, False) if was is None or was[0] != key else (key, True)
        self.records.order_by(None if was == (key, True) else order)
        header = self.horizontalHeader()
        header.setSortIndicatorShown(self.records.order is not None)
        if self.records.order is not None:
            way = Qt.SortOrder.DescendingOrder if order[1] else Qt.SortOrder.AscendingOrder
            header.setSortIndicator(number, way)
