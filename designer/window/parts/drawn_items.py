"""The list of a choice with what its words stand for drawn beside them."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QComboBox, QStyledItemDelegate, QStyleOptionViewItem

from designer.window.parts.drawn_icons import drawn_icon, no_icon
from designer.window.parts.things_drawn import of_word


class DrawnItems(QStyledItemDelegate):
    """Draws them in the list that is open alone: the choice itself has its words."""

    def initStyleOption(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().initStyleOption(option, index)
        drawing = of_word(index.data(Qt.ItemDataRole.UserRole))
        # Its fields are no keywords of the constructor: Qt's own names.
        option.features |= QStyleOptionViewItem.ViewItemFeature.HasDecoration
        option.icon = drawn_icon(drawing) if drawing else no_icon()


def draw_items(choice: QComboBox) -> None:
    """Draw what the words of a choice stand for, if most of them stand for something drawn."""
    drawn = [bool(of_word(choice.itemData(each))) for each in range(choice.count())]
    if 2 * sum(drawn) <= len(drawn):
        return
    items = choice.view()
    items.setItemDelegate(DrawnItems(items))
    frame = items.width() - items.viewport().width()
    items.setMinimumWidth(max(items.minimumWidth(), items.sizeHintForColumn(0) + frame))
