"""The list of what was found: the name at the left, what kind of thing it is at the right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import (
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from designer.translation import tr
from designer.window.find.things import Thing
from designer.window.parts.announcing import announce
from designer.window.parts.drawn_icons import SIZE, drawn_icon, no_icon
from designer.window.parts.inks import inks_for
from designer.window.parts.targets import least_high

Index = QModelIndex | QPersistentModelIndex
THING = int(Qt.ItemDataRole.UserRole)
PAD, GAP = 10, 14
_LEFT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
_RIGHT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
_ELIDED = Qt.TextElideMode.ElideRight


def said(thing: Thing) -> str:
    """Return all that is known of a thing in one line, for a screen reader."""
    why_off = tr("not now: {why}", why=thing.why_off) if thing.why_off else ""
    return ", ".join(
        each for each in (thing.title, thing.beside, thing.group, thing.key, why_off) if each
    )


class FoundModel(QAbstractListModel):
    """The things that were found, the best first."""

    things: tuple[Thing, ...] = ()

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self.things)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        thing = self.things[index.row()]
        if role == THING:
            return thing
        if role == Qt.ItemDataRole.DisplayRole:
            return thing.title
        return said(thing) if role == Qt.ItemDataRole.AccessibleTextRole else None

    def show_things(self, things: Sequence[Thing]) -> None:
        """List other things."""
        self.beginResetModel()
        self.things = tuple(things)
        self.endResetModel()


class FoundDelegate(QStyledItemDelegate):
    """Paints a thing in one line; one that cannot be had now is pale."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(100, least_high(option.fontMetrics.height() + 10))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        thing: Thing = index.data(THING)
        inks = inks_for(option.palette)
        place: QRect = option.rect.adjusted(PAD, 0, -PAD, 0)
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(option.rect, QColor(inks.chosen))
        painter.setFont(option.font)
        metrics = painter.fontMetrics()
        kind = thing.key or thing.group
        room = min(metrics.horizontalAdvance(kind) + GAP + 1, place.width() // 2)
        painter.setPen(QColor(inks.ink_soft))
        elided = metrics.elidedText(kind, _ELIDED, room - GAP)
        painter.drawText(place, int(_RIGHT), elided)
        place.setRight(place.right() - room)
        icon = drawn_icon(thing.drawing, inks) if thing.drawing else no_icon()
        icon.paint(painter, QRect(place.left(), place.top(), SIZE, place.height()))
        place.setLeft(place.left() + SIZE + PAD)
        painter.setPen(QColor(inks.ink_soft if thing.why_off else inks.ink))
        painter.drawText(place, int(_LEFT), metrics.elidedText(thing.title, _ELIDED, place.width()))
        place.setLeft(place.left() + metrics.horizontalAdvance(thing.title) + GAP)
        if thing.beside and place.width() > 3 * GAP:
            painter.setPen(QColor(inks.ink_soft))
            beside = metrics.elidedText(thing.beside, _ELIDED, place.width())
            painter.drawText(place, int(_LEFT), beside)
        painter.restore()


class FoundList(QListView):
    """The list; the keyboard stays in the field above, which moves through it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.found = FoundModel(self)
        self.setModel(self.found)
        self.setItemDelegate(FoundDelegate(self))
        self.setUniformItemSizes(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(tr("What was found"))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def show_things(self, things: Sequence[Thing], keep: Thing | None = None) -> None:
        """List other things, the first of them chosen, or the one that is to be kept."""
        self.found.show_things(things)
        kept = [n for n, each in enumerate(things) if _is_same(each, keep)]
        if things:
            self.setCurrentIndex(self.found.index(kept[0] if kept else 0))

    @property
    def thing(self) -> Thing | None:
        """What is chosen."""
        index = self.currentIndex()
        return self.found.things[index.row()] if index.isValid() else None

    def go(self, by: int) -> None:
        """Go so many rows further; from the last to the first, and back."""
        count = len(self.found.things)
        if count:
            self.setCurrentIndex(self.found.index((self.currentIndex().row() + by) % count))
            self._announce()

    def _announce(self) -> None:
        """Let a screen reader say what is chosen: the keyboard is in the field."""
        thing = self.thing
        if thing is not None:
            announce(self, said(thing))


def _is_same(one: Thing, other: Thing | None) -> bool:
    return other is not None and (one.title, one.group, one.beside) == (
        other.title,
        other.group,
        other.beside,
    )
