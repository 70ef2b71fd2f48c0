"""The contents of the guide: its parts and pages, or those pages that a search found."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtWidgets import (
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
    QTreeWidgetItem,
)

from designer.guide.blocks import Page
from designer.guide.pages import Guide
from designer.translation import tr
from designer.window.parts.targets import least_high

Index = QModelIndex | QPersistentModelIndex
_NAME = Qt.ItemDataRole.UserRole


class _RoomyRows(QStyledItemDelegate):
    """Rows with room above and below their words, or as high as a target for fingers."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(0, least_high(option.fontMetrics.height() + 10))


class ContentsTree(QTreeWidget):
    """`chosen` carries the name of a page."""

    chosen = Signal(str)

    def __init__(self, guide: Guide) -> None:
        super().__init__()
        self._guide = guide
        self._items: dict[str, QTreeWidgetItem] = {}
        self.setAccessibleName(tr("Contents"))
        self.setHeaderHidden(True)
        self.setRootIsDecorated(False)
        self.setItemsExpandable(False)
        self.setIndentation(12)
        self.setItemDelegate(_RoomyRows(self))
        self.currentItemChanged.connect(self._follow)
        self.show_all()

    def show_all(self) -> None:
        """Show all parts with their pages."""
        self._fill([(part.title, part.pages) for part in self._guide.parts])

    def show_found(self, pages: tuple[Page, ...]) -> None:
        """Show the pages that a search found, the best first."""
        self._fill([("", pages)])

    def mark(self, name: str) -> None:
        """Mark the page that is read; nothing is marked where a search has left it out."""
        with QSignalBlocker(self):
            self.setCurrentItem(self._items.get(name))  # type: ignore[arg-type]  # None marks none

    def _fill(self, parts: list[tuple[str, tuple[Page, ...]]]) -> None:
        with QSignalBlocker(self):
            self.clear()
            self._items = {}
            for title, pages in parts:
                above = self._part(title) if title else self.invisibleRootItem()
                for page in pages:
                    item = QTreeWidgetItem(above, [page.title])
                    item.setData(0, _NAME, page.name)
                    self._items[page.name] = item
            self.expandAll()

    def _part(self, title: str) -> QTreeWidgetItem:
        item = QTreeWidgetItem(self, [title])
        item.setFlags(Qt.ItemFlag.ItemIsEnabled)
        font = item.font(0)
        font.setBold(True)
        item.setFont(0, font)
        return item

    def _follow(self, item: QTreeWidgetItem | None) -> None:
        name = item.data(0, _NAME) if item is not None else None
        if name:
            self.chosen.emit(str(name))
