"""The table of ways: one way a column, beside the recipe as it is written.

Places for as many columns as the width takes are there from the start and never move; ways beyond
them are on further pages. Left and right choose a way, Return uses it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QSizePolicy,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from designer.brewday.fit.answer import Way
from designer.translation import tr
from designer.window.fit.side_by_side import Cell, Column, Mark, rows
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.scrolling import own_viewport
from designer.workbench.keys import OPEN_OR_EDIT

if TYPE_CHECKING:
    from designer.window.parts.deeds import Deeds

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole
GROUP_ROW, NAME_ROW, FIRST_ROW = 0, 1, 2
LABELS, WRITTEN, FIRST_WAY = 0, 1, 2
MOST_WAYS, LEAST_WIDTH = 5, 148
LABEL_SHARE, WRITTEN_SHARE = 0.115, 0.105
"""Of the width of the table: what heads the rows, and the recipe as it is written."""
PAD_X, PAD_Y, RING = 9, 4, 15
_WRAPPED = int(Qt.AlignmentFlag.AlignLeft) | int(Qt.TextFlag.TextWordWrap)


class WaysModel(QAbstractTableModel):
    """What is shown of the columns: a page of ways, and places left free."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._labels = rows()
        self._columns: tuple[Column, ...] = ()
        self.places, self.first = MOST_WAYS, 0

    @property
    def ways(self) -> tuple[Column, ...]:
        """The columns of all ways."""
        return self._columns[1:]

    def show_columns(self, columns: tuple[Column, ...]) -> None:
        """Show other columns, from the first way on."""
        self.beginResetModel()
        self._labels = rows()
        self._columns, self.first = columns, 0
        self.endResetModel()

    def show_page(self, first: int, places: int) -> None:
        """Show so many places for ways from one on."""
        if (first, places) != (self.first, self.places):
            self.beginResetModel()
            self.first, self.places = first, places
            self.endResetModel()

    def column_at(self, column: int) -> Column | None:
        """Return what a column of the view shows; None for a free place."""
        at = 0 if column == WRITTEN else column - FIRST_WAY + self.first + 1
        return self._columns[at] if column >= WRITTEN and at < len(self._columns) else None

    def is_free(self, column: int) -> bool:
        """Whether a column of the view is a place for a way that none has taken."""
        return column >= FIRST_WAY and self.column_at(column) is None

    def way_at(self, column: int) -> Way | None:
        """Return the way of a column of the view."""
        found = self.column_at(column)
        return None if found is None else found.way

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else FIRST_ROW + len(self._labels)

    def columnCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else FIRST_WAY + self.places

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:
        if role == Role.DisplayRole:
            return self.text(index.row(), index.column())
        if role in (Role.AccessibleTextRole, Role.ToolTipRole):
            return self._spoken(index.row(), index.column())
        return None

    def text(self, row: int, column: int) -> str:
        """Return what is read in a cell."""
        if column == LABELS:
            return "" if row < FIRST_ROW else self._labels[row - FIRST_ROW]
        found = self.column_at(column)
        if found is None:
            return ""
        if row == GROUP_ROW:
            return self.group(column) if self.begins_group(column) else ""
        return found.title if row == NAME_ROW else found.cells[row - FIRST_ROW].shown

    def cell(self, row: int, column: int) -> Cell | None:
        """Return a cell of figures."""
        found = self.column_at(column)
        return None if found is None or row < FIRST_ROW else found.cells[row - FIRST_ROW]

    def _spoken(self, row: int, column: int) -> str:
        """Return a cell as it is read aloud: its column, its row, its sign as a word."""
        cell, found = self.cell(row, column), self.column_at(column)
        if cell is None or found is None or not cell.text:
            return self.text(row, column)
        said = tr(
            "{way}, {row}: {text}", way=found.title, row=self._labels[row - FIRST_ROW],
            text=cell.text,
        )  # fmt: skip
        return tr("{said} ({mark})", said=said, mark=cell.mark.words) if cell.mark.sign else said

    def group(self, column: int) -> str:
        """Return what heads the group of ways that a column belongs to."""
        way = self.way_at(column)
        if way is None:
            return ""
        return tr("With what you have") if way.in_hand else tr("If you buy or borrow")

    def begins_group(self, column: int) -> bool:
        """Whether a column is the first of its group that is seen."""
        return self.way_at(column) is not None and self.group(column) != self.group(column - 1)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> Any:
        across = orientation is Qt.Orientation.Horizontal
        if role == Role.AccessibleTextRole and across and section == LABELS:
            return tr("What is compared")
        if role != Role.DisplayRole:
            return None
        if across:
            return self.text(NAME_ROW, section)
        return self.text(section, LABELS)


class _Painter(QStyledItemDelegate):
    """Draws a cell: wrapped, with its sign, in the ink of what it says."""

    def __init__(self, view: WaysView, model: WaysModel) -> None:
        super().__init__(view)
        self._view, self._model = view, model

    def font_of(self, row: int, column: int) -> QFont:
        """Return the font of a cell."""
        font = QFont(self._view.font())
        cell = self._model.cell(row, column)
        marked = cell is not None and (cell.strong or cell.mark is not Mark.NONE)
        font.setBold(marked or row == GROUP_ROW or (row == NAME_ROW and column >= FIRST_WAY))
        return font

    def said(self, row: int, column: int) -> str:
        """Return the text as it is drawn."""
        text = self._model.text(row, column)
        return text.upper() if row == GROUP_ROW else text

    def _left(self, row: int, column: int) -> int:
        ring = row == NAME_ROW and self._model.way_at(column) is not None
        return PAD_X + (RING + 6 if ring else 0)

    def height_of(self, row: int, column: int, width: int) -> int:
        """Return how high a cell is in a width."""
        metrics = QFontMetrics(self.font_of(row, column))
        if row == GROUP_ROW:
            return metrics.height() + 2 * PAD_Y  # it goes on over its neighbours
        room = QRect(0, 0, max(width - self._left(row, column) - PAD_X, 10), 10_000)
        text = self.said(row, column) or " "
        return metrics.boundingRect(room, _WRAPPED, text).height() + 2 * PAD_Y

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row, column = index.row(), index.column()
        inks = inks_for(self._view.palette())
        area: QRect = option.rect
        chosen = self._view.chosen_column()
        painter.save()
        if self._view.dimmed:
            painter.setOpacity(0.45)
        if column == chosen and row >= NAME_ROW:
            painter.fillRect(area, QColor(inks.chosen))
        self._draw_lines(painter, area, row, column, inks)
        painter.setFont(self.font_of(row, column))
        painter.setPen(QColor(self._ink(row, column, inks)))
        if row == NAME_ROW and self._model.way_at(column) is not None:
            self._draw_ring(painter, area, inks, filled=column == chosen)
        text = area.adjusted(self._left(row, column), PAD_Y, -PAD_X, -PAD_Y)
        if row == GROUP_ROW:
            text.setRight(self._view.viewport().width())
            painter.setClipping(False)
        painter.drawText(text, _WRAPPED, self.said(row, column))
        painter.restore()

    def _ink(self, row: int, column: int, inks: Inks) -> str:
        if row == GROUP_ROW:
            return inks.heading
        cell = self._model.cell(row, column)
        if cell is None:
            return inks.ink_soft if column <= WRITTEN else inks.ink
        if cell.mark is not Mark.NONE:
            return inks.stop if cell.mark is Mark.DOES_NOT_FIT else inks.brass
        return inks.ink_soft if cell.soft else inks.ink

    def _draw_lines(
        self, painter: QPainter, area: QRect, row: int, column: int, inks: Inks
    ) -> None:
        painter.setPen(QPen(QColor(inks.line), 0))  # one pixel of any screen: all alike at 125 %
        if self._model.is_free(column):  # the table ends where its ways end
            if not self._model.is_free(column - 1):
                painter.drawLine(area.topLeft(), area.bottomLeft())
            return
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        if row == GROUP_ROW and not self._model.begins_group(column):
            return
        if self._model.begins_group(column) and column > FIRST_WAY:
            painter.setPen(QPen(QColor(inks.line_strong), 2))
        if column > LABELS:
            painter.drawLine(area.topLeft(), area.bottomLeft())

    def _draw_ring(self, painter: QPainter, area: QRect, inks: Inks, *, filled: bool) -> None:
        middle = QPointF(
            area.left() + PAD_X + RING / 2,
            area.top() + PAD_Y + QFontMetrics(painter.font()).height() / 2,
        )
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(QColor(inks.paper))
        painter.setPen(QPen(QColor(inks.green if filled else inks.line_strong), 1.6))
        painter.drawEllipse(middle, RING / 2 - 1, RING / 2 - 1)
        if filled:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(inks.green))
            painter.drawEllipse(middle, RING / 2 - 4.5, RING / 2 - 4.5)
        if filled and self._view.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(inks.green), 2))
            painter.drawRoundedRect(QRectF(area).adjusted(2, 2, -2, -3), 4, 4)
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        width = self._view.columnWidth(index.column())
        return QSize(width, self.height_of(index.row(), index.column(), width))


class WaysView(QTableView):
    """The table; the keyboard is in the chosen way."""

    way_chosen = Signal(object)
    use_wanted = Signal()
    page_changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        own_viewport(self)
        self.dimmed = False
        self._chosen = 0
        self._ways = WaysModel(self)
        self._drawn = _Painter(self, self._ways)
        self.setModel(self._ways)
        self.setItemDelegate(self._drawn)
        self.setAccessibleName(tr("Ways to brew it here"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        for header in (self.horizontalHeader(), self.verticalHeader()):
            header.hide()
            header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
            header.setMinimumSectionSize(1)
        self._lay_out()

    # ways

    def show_columns(self, columns: tuple[Column, ...], chosen: str = "") -> None:
        """Show other columns; the way of the key `chosen`, else the first, is the chosen one."""
        self._ways.show_columns(columns)
        keys = [each.way.key for each in self._ways.ways if each.way is not None]
        self._chosen = keys.index(chosen) if chosen in keys else 0
        self._bring_in()

    @property
    def chosen(self) -> Way | None:
        """The chosen way; None while there is none."""
        ways = self._ways.ways
        return ways[self._chosen].way if self._chosen < len(ways) else None

    def chosen_column(self) -> int:
        """Return the column of the chosen way; -1 where it is on another page."""
        at = self._chosen - self._ways.first
        return at + FIRST_WAY if 0 <= at < self._ways.places and self._ways.ways else -1

    @property
    def hidden_before(self) -> int:
        """How many ways stand on pages before this one."""
        return self._ways.first

    @property
    def hidden_behind(self) -> int:
        """How many ways stand on pages behind this one."""
        return max(len(self._ways.ways) - self._ways.first - self._ways.places, 0)

    def choose(self, number: int) -> None:
        """Choose a way by its place, the first being 0."""
        if 0 <= number < len(self._ways.ways) and number != self._chosen:
            self._chosen = number
            self._bring_in()
            self.way_chosen.emit(self.chosen)

    def turn_page(self, forward: bool) -> None:
        """Show the ways behind or before these, and choose the first of them."""
        places = self._ways.places
        self.choose(max(self._ways.first + (places if forward else -places), 0))

    def _bring_in(self) -> None:
        """Show the page of the chosen way."""
        places = self._places()
        first = places * (self._chosen // places)
        self._ways.show_page(first, places)
        self._lay_out()
        if self.chosen is not None:
            self.setCurrentIndex(self._ways.index(NAME_ROW, self.chosen_column()))
        self.viewport().update()
        self.page_changed.emit()

    def dim(self, dimmed: bool) -> None:
        """Show that the table is no answer to what is typed now."""
        if dimmed is not self.dimmed:
            self.dimmed = dimmed
            self.viewport().update()

    # room

    def _places(self) -> int:
        room = self.viewport().width() * (1.0 - LABEL_SHARE - WRITTEN_SHARE)
        return min(max(int(room // LEAST_WIDTH), 1), MOST_WAYS)

    def _lay_out(self) -> None:
        """Give columns their widths, and rows the height that their longest text wants."""
        width = self.viewport().width()
        first, written = self._first_widths(width)
        each = (width - first - written) // self._ways.places
        widths = [first, written, *[each] * self._ways.places]
        widths[-1] += width - sum(widths)
        for column, wide in enumerate(widths):
            self.setColumnWidth(column, wide)
        total = 0
        for row in range(self._ways.rowCount()):
            high = max(
                self._drawn.height_of(row, column, wide) for column, wide in enumerate(widths)
            )
            self.setRowHeight(row, high)
            total += high
        self.setFixedHeight(total + 2)

    def _first_widths(self, width: int) -> tuple[int, int]:
        """What heads the rows is never broken in a word; nor is what is written."""
        metrics = self.fontMetrics()
        words = [word for text in rows() for word in text.split()]
        least = max(metrics.horizontalAdvance(word) for word in words) + 2 * PAD_X
        first = max(least, round(LABEL_SHARE * width))
        bold = QFontMetrics(self._drawn.font_of(FIRST_ROW, WRITTEN))
        heads = tr("as it is written").split()
        longest = max(metrics.horizontalAdvance(word) for word in heads) + 2 * PAD_X
        figures = bold.horizontalAdvance("✕ 20 L of 12 L")
        return first, max(round(WRITTEN_SHARE * width), figures, longest)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self._bring_in()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._lay_out()

    # hands

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        column = self.columnAt(event.position().toPoint().x())
        if self._ways.way_at(column) is not None:
            self.choose(column - FIRST_WAY + self._ways.first)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.mousePressEvent(event)

    def deeds(self) -> Deeds:
        """Return what the Edit menu can do here just now: use the chosen way."""
        can_use = bool(self._ways.ways) and not self.dimmed
        return {OPEN_OR_EDIT: self.use_wanted.emit} if can_use else {}

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if event.key() in steps:
            self.choose(self._chosen + steps[Qt.Key(event.key())])
        elif event.key() == Qt.Key.Key_Home:
            self.choose(0)
        elif event.key() == Qt.Key.Key_End:
            self.choose(len(self._ways.ways) - 1)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not self.dimmed:
            self.use_wanted.emit()
        else:
            event.ignore()
