"""The table of one list of the recipe, as tall as its lines, used by mouse and keyboard alike."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QRect, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QCursor,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QMenu,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from designer.recipe.place import Place
from designer.translation import tr
from designer.units import ShownUnits
from designer.window.compose.line_editors import LineEditors
from designer.window.compose.lines_columns import LINES_MIME, LinesSpec
from designer.window.compose.lines_model import LinesModel
from designer.window.parts.cell_table import CellTable
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.scrolling import bring_into_view
from designer.window.parts.targets import keep_rows_high
from designer.window.session.worked_on import EditedRecipe
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.compose.line_details import LineDetails
    from designer.window.parts.deeds import Deeds

ROW_PADDING = 10
ROOM_TO_SPARE, NAME_AT_LEAST = 110, 130
CELL_MARGIN = 6
GIVE_WAY = (("kind", "form", "purpose"), ("colour", "alpha"))
"""Columns that are hidden where room is short, the first first; Details has them too."""


class LinesView(CellTable):
    """A table without scroll bars of its own: the page scrolls."""

    what_if_wanted = Signal(object)
    details_wanted = Signal()

    def __init__(self, model: LinesModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines = model
        self.setModel(model)
        self.setItemDelegate(LineEditors(model, self))
        self.setAccessibleName(tr(model.spec.words.heading))
        self.setAccessibleDescription(
            tr(
                "Return or F2 edits a cell, a sign typed replaces it, Delete removes the line, "
                "Alt with the arrows moves it, Ctrl+D duplicates it."
            )
        )
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setWordWrap(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setDragEnabled(True)
        self.setAcceptDrops(True)
        self.setDropIndicatorShown(True)
        self.setDragDropOverwriteMode(False)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        keep_rows_high(self, ROW_PADDING)
        header = self.horizontalHeader()
        header.setStretchLastSection(False)
        header.setMinimumSectionSize(40)
        self._size_columns()
        for changed in (model.rowsInserted, model.rowsRemoved, model.modelReset):
            changed.connect(self._fit)
        model.display.settings.changed.connect(self._size_columns)
        model.name_wanted.connect(self.open_name)
        self._dragged_over = QTimer(self, interval=60)
        self._dragged_over.timeout.connect(self._scroll_with_drag)
        self._fit()

    def _size_columns(self) -> None:
        """Give each column its width; where the name would be left too little, hide others."""
        header = self.horizontalHeader()
        columns = self._lines.columns
        scale = max(self.fontMetrics().horizontalAdvance("0") / 7.0, 0.85)
        both = self._lines.display.settings.units is ShownUnits.BOTH
        widths = {each.key: int(each.width * scale) for each in columns}
        if both:
            widths["amount"] = int(1.85 * widths["amount"])
        left = self.width() - 2 * self.frameWidth() - sum(widths.values()) + widths["name"]
        hidden: set[str] = set()
        name_least = NAME_AT_LEAST * scale
        for given in GIVE_WAY:
            if left < name_least:
                hidden.update(given)
                left += sum(widths.get(key, 0) for key in given)
        if "when" in widths and left > name_least + ROOM_TO_SPARE * scale:
            widths["when"] = int(1.6 * widths["when"])
            left -= widths["when"] - int(widths["when"] / 1.6)
        for each in columns:
            wanted = self._widest_choice(each)
            if each.key not in hidden and 0 < wanted - widths[each.key] < left - name_least:
                left -= wanted - widths[each.key]
                widths[each.key] = wanted
        for number, column in enumerate(columns):
            self.setColumnHidden(number, column.key in hidden)
            if column.key == "name":
                header.setSectionResizeMode(number, QHeaderView.ResizeMode.Stretch)
            else:
                self.setColumnWidth(number, widths[column.key])

    def _widest_choice(self, column: Column) -> int:
        """Return how wide the words are that a column can hold; 0 where it holds any."""
        metrics, margins = self.fontMetrics(), 2 * CELL_MARGIN
        words = (metrics.horizontalAdvance(tr(each)) for each in column.choices)
        return max(words, default=-margins) + margins

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._size_columns()

    def _fit(self) -> None:
        """Be as tall as the lines; the last row's invitation runs across the table."""
        self.clearSpans()
        name = self._lines.column_of("name")
        across = self._lines.columnCount() - name
        self.setSpan(self._lines.rowCount() - 1, name, 1, across)
        self.updateGeometry()

    def _height(self) -> int:
        rows = self._lines.rowCount() * self.verticalHeader().defaultSectionSize()
        return rows + self.horizontalHeader().sizeHint().height() + 2 * self.frameWidth()

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), self._height())

    def minimumSizeHint(self) -> QSize:
        return QSize(300, self._height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.is_editing:
            super().keyPressEvent(event)
            return
        alt = event.modifiers() == Qt.KeyboardModifier.AltModifier
        if alt and event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.move_line(-1 if event.key() == Qt.Key.Key_Up else 1)
        elif event.key() == Qt.Key.Key_Delete:
            self.remove_lines()
        elif (
            event.key() == Qt.Key.Key_D and event.modifiers() == Qt.KeyboardModifier.ControlModifier
        ):
            self._lines.duplicate(self.currentIndex().row())
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy_lines()
        elif event.matches(QKeySequence.StandardKey.Cut):
            self.cut_lines()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste_lines()
        elif not self._leaves_at_edge(event):
            super().keyPressEvent(event)

    def _leaves_at_edge(self, event: QKeyEvent) -> bool:
        """Down from the last row goes to the next table, up from the first to the one before."""
        row = self.currentIndex().row()
        plain = event.modifiers() == Qt.KeyboardModifier.NoModifier
        if plain and event.key() == Qt.Key.Key_Down and row == self._lines.rowCount() - 1:
            return bool(self.focusNextChild())
        if plain and event.key() == Qt.Key.Key_Up and row == 0:
            return bool(self.focusPreviousChild())
        return False

    def focusInEvent(self, event: object) -> None:
        super().focusInEvent(event)  # type: ignore[arg-type]
        if not self.selectionModel().hasSelection():
            now = self.currentIndex()
            self.setCurrentIndex(self._lines.index(max(now.row(), 0), max(now.column(), 0)))

    def cell_typed_in(self, index: QModelIndex) -> QModelIndex:
        """Anywhere in the last row one types amount and name of a new line."""
        is_new = index.isValid() and self._lines.row_at(index.row()) is None
        return self._lines.index(index.row(), self._lines.column_of("name")) if is_new else index

    def go_on_from_new(self, added: QModelIndex, by: int) -> None:
        """An amount that was typed alone is asked for its name."""
        line = self._lines.row_at(added.row())
        if line is not None and not line.name:
            self.open_name(added.row())
        else:
            super().go_on_from_new(added, by)

    def open_name(self, row: int) -> None:
        """Open the cell of a line's name."""
        self.open_cell(self._lines.index(row, self._lines.column_of("name")))

    def selected_rows(self) -> list[int]:
        """Return the rows with a selected cell, from the top."""
        return sorted({index.row() for index in self.selectionModel().selectedIndexes()})

    def remove_lines(self) -> None:
        """Take the selected lines out; the one that stands there then is selected."""
        self._lines.remove(self.selected_rows())
        self._select_current()

    def deeds(self) -> Deeds:
        """Return what can be done to the chosen lines just now, and with the clipboard."""
        from designer.window.parts.deeds import on_clipboard  # no start asks

        row, lines = self.currentIndex().row(), self._lines.rowCount() - 1
        found = dict(super().deeds())
        found.pop(keys.COPY, None)
        if any(each < lines for each in self.selected_rows()):
            found |= {keys.CUT: self.cut_lines, keys.COPY: self.copy_lines}
            found[keys.DELETE] = self.remove_lines
        if on_clipboard(LINES_MIME):
            found[keys.PASTE] = self.paste_lines
        if 0 <= row < lines:
            found[keys.DUPLICATE] = lambda: self._lines.duplicate(row)
        if 0 < row < lines:
            found[keys.MOVE_UP] = lambda: self.move_line(-1)
        if 0 <= row < lines - 1:
            found[keys.MOVE_DOWN] = lambda: self.move_line(1)
        return found

    def cut_lines(self) -> None:
        """Put the selected lines on the clipboard and take them out."""
        self.copy_lines()
        self.remove_lines()

    def copy_lines(self) -> None:
        """Put the selected lines on the clipboard."""
        QGuiApplication.clipboard().setMimeData(self._lines.copied(self.selected_rows()))

    def paste_lines(self) -> None:
        """Add the lines that are on the clipboard."""
        self._lines.paste(QGuiApplication.clipboard().mimeData())

    def move_line(self, by: int) -> None:
        """Move the current line up (-1) or down (1)."""
        row = self.currentIndex().row()
        self._lines.move(row, row + by)
        self._select_current()  # it went along

    def _select_current(self) -> None:
        """Select the current cell: what is done next is done to it."""
        now = self.currentIndex()
        if now.isValid() and not self.selectionModel().isSelected(now):
            self.selectionModel().select(now, QItemSelectionModel.SelectionFlag.ClearAndSelect)

    def add_line(self) -> None:
        """Go to the last row and open its editor."""
        index = self.cell_typed_in(self._lines.index(self._lines.rowCount() - 1, 0))
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.setCurrentIndex(index)
        self.open_cell(index)

    # what is dragged beyond the visible part takes the page with it

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        super().dragMoveEvent(event)
        self._dragged_over.start()

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        super().dragLeaveEvent(event)
        self._dragged_over.stop()

    def dropEvent(self, event: QDropEvent) -> None:
        self._dragged_over.stop()
        super().dropEvent(event)

    def _scroll_with_drag(self) -> None:
        place = self.viewport().mapFromGlobal(QCursor.pos())
        if self.viewport().rect().contains(place):
            row = self.verticalHeader().defaultSectionSize()
            bring_into_view(self.viewport(), QRect(place.x(), place.y() - row, 1, 2 * row))

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        from designer.window.parts.deeds import open_menu  # as with the menu itself
        from designer.window.parts.row_menu import place_meant

        place = place_meant(self, event)
        open_menu(self.line_menu(self.indexAt(place)), self.viewport().mapToGlobal(place))

    def place_of(self, index: QModelIndex) -> Place | None:
        """Return the place in the recipe of a cell; None where there is no line."""
        line = self._lines.row_at(index.row())
        if line is None:
            return None
        field = self._lines.columns[index.column()].key
        return Place(self._lines.spec.lines, field, line.line_id)

    def line_menu(self, index: QModelIndex) -> QMenu:
        """Return the menu of the line in a row, which is chosen with it."""
        # No start opens one.
        from designer.window.compose.line_menu import LineActs, line_menu
        from designer.window.parts.written_figures import written_figures

        if index.isValid() and not self.selectionModel().isSelected(index):
            self.setCurrentIndex(index)
        row, line = index.row(), self._lines.row_at(index.row())
        acts = LineActs(
            self.add_line,
            partial(self.what_if_wanted.emit, self.place_of(index)),
            self.details_wanted.emit,
            partial(written_figures, self._lines.display),
            partial(self._lines.set_locked, row) if hasattr(line, "locked") else None,
        )
        return line_menu(self, self._lines.spec.lines, line, index, acts)


class LinesPanel(QWidget):
    """Heading, table, and the further figures of the chosen line."""

    refused = Signal(str)
    removed = Signal(str)

    def __init__(
        self,
        opened: EditedRecipe,
        spec: LinesSpec,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.model = LinesModel(opened, spec, display, self)
        self.view = LinesView(self.model, self)
        self._opened, self._spec, self._display = opened, spec, display
        self.details: LineDetails | None = None
        self.model.refused.connect(self.refused)
        self.model.removed.connect(self.removed)
        self.view.selectionModel().currentChanged.connect(self._choose)
        heading = QLabel(tr(spec.words.heading).upper())
        heading.setObjectName("sectionHeading")
        heading.setBuddy(self.view)
        self.add_button = QPushButton(tr("Add"))
        self.add_button.setObjectName("quiet")
        self.add_button.setAccessibleName(tr(spec.words.add))
        self.add_button.setToolTip(tr(spec.words.add))
        self.add_button.clicked.connect(self.view.add_line)
        self.more_button = QPushButton(tr("Details"))
        self.more_button.setObjectName("quiet")
        self.more_button.setCheckable(True)
        self.more_button.setAccessibleName(tr(spec.words.more))
        self.more_button.setToolTip(tr("Further figures of the chosen line: yield, price, lock …"))
        self.more_button.toggled.connect(self._show_more)
        self.view.details_wanted.connect(partial(self.more_button.setChecked, True))
        top = QHBoxLayout()
        top.setContentsMargins(0, 0, 0, 0)
        top.addWidget(heading)
        top.addStretch(1)
        top.addWidget(self.more_button)
        top.addWidget(self.add_button)
        self._layout = layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self.view)

    def _choose(self, index: QModelIndex) -> None:
        line = self.model.row_at(index.row())
        if self.details is not None:
            self.details.choose(line.line_id if line is not None else None)

    def place_of(self, focus: QWidget) -> Place | None:
        """Return the place in the recipe of a field of the details, else of the chosen cell.

        None in the last row, where there is no line yet.
        """
        place = self.view.place_of(self.view.currentIndex())
        if place is None or self.details is None:
            return place
        field = next((n for n, each in self.details.by_name.items() if each is focus), place.field)
        return place._replace(field=field)

    def show_change(self, line_id: int | None, field: str) -> None:
        """Show and mark the cell of a field that has changed, or its line; None for the end."""
        columns = [each.key for each in self._spec.columns]
        row = self.model.row_of(line_id) if line_id is not None else self.model.rowCount() - 1
        self.view.show_cell(max(row, 0), columns.index(field) if field and field in columns else -1)

    def _show_more(self, wanted: bool) -> None:
        """Show the further figures; their form is made when first wanted."""
        if self.details is None:
            # Its form is no part of the first picture.
            from designer.window.compose.line_details import LineDetails
            from designer.window.parts.reading_order import order_tabs

            self.details = LineDetails(self._opened, self._spec, self._display, self)
            self.details.refused.connect(self.refused)
            self._layout.addWidget(self.details)
            order_tabs(self.details, self.add_button)
        self._choose(self.view.currentIndex())
        self.details.setVisible(wanted)

    def changeEvent(self, event: object) -> None:
        super().changeEvent(event)  # type: ignore[arg-type]
        self.model.inks = inks_for(self.palette())
