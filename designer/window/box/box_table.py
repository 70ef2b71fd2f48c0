"""The list of the Recipe box: Return opens, Delete throws away, dragged out recipes are files."""

from __future__ import annotations

from collections.abc import Callable
from functools import reduce

from PySide6.QtCore import QEvent, QItemSelection, QModelIndex, QRect, Qt, Signal
from PySide6.QtGui import (
    QDrag,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QMenu, QTableView, QWidget

from designer.library.store import RecipeRow
from designer.library.store.search import DAYS
from designer.translation import tr
from designer.window.box.recipes_model import RecipesModel
from designer.window.parts.colour_signs import BAR
from designer.window.parts.column_widths import begin_with
from designer.window.parts.columns_menu import columns_menu
from designer.window.parts.deeds import Deeds, on_clipboard, open_menu
from designer.window.parts.inks import inks_for
from designer.window.parts.scrolling import own_viewport
from designer.window.parts.settings import Settings
from designer.window.parts.targets import keep_rows_high
from designer.workbench import keys
from designer.workbench.keys import MenuKey

MOST_PICTURED, MOST_SEEN = 5, 200
NAMES = range(104, 320)
"""How wide the column of names is made, by the room that the others leave."""
APART = 6
"""What stands in a narrow column keeps so far from its neighbour."""


class BoxTable(QTableView):
    """Rows of recipes, any number of them chosen."""

    open_wanted = Signal()
    delete_wanted = Signal()
    drag_wanted = Signal()
    copy_wanted = Signal()
    paste_wanted = Signal()

    def __init__(
        self, model: RecipesModel, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._settings = settings
        own_viewport(self)
        self._rows = model
        self._waiting = False
        model.edge = inks_for(self.palette()).line_strong
        self.setModel(model)
        self.setAccessibleName(tr("Recipes"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setDragEnabled(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.setIconSize(BAR)
        self.verticalHeader().hide()
        keep_rows_high(self, 12)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionsClickable(True)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        begin_with(self, (column.width for column in model.columns))
        self._is_fitting = self._has_own_widths = False
        self._needs: dict[int, int] = {}
        for changed in (model.modelReset, model.dataChanged, model.rowsInserted):
            changed.connect(self._fit_names)
        header.sectionResized.connect(self._note_width)
        self._days: frozenset[str] = frozenset()
        self._hidden = settings.box_hidden
        self._show_columns()
        header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        header.customContextMenuRequested.connect(
            lambda place: open_menu(self.columns_menu(), header.mapToGlobal(place))
        )
        header.setToolTip(tr("Click to sort; right-click to choose columns"))
        self.doubleClicked.connect(lambda _index: self.open_wanted.emit())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        self._rows.edge = inks_for(self.palette()).line_strong

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.open_wanted.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self.delete_wanted.emit()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy_wanted.emit()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste_wanted.emit()
        else:
            super().keyPressEvent(event)

    def deeds(self) -> Deeds:
        """Return what can be done to the chosen recipes just now."""
        found: dict[MenuKey, Callable[[], object]] = {}
        if self.model().rowCount():
            found[keys.SELECT_ALL] = self.selectAll
        if self.selectionModel().hasSelection():
            found |= {keys.COPY: self.copy_wanted.emit, keys.DELETE: self.delete_wanted.emit}
            found[keys.OPEN_OR_EDIT] = self.open_wanted.emit
        if on_clipboard("text/uri-list"):
            found[keys.PASTE] = self.paste_wanted.emit
        return found

    def show_days(self, days: frozenset[str]) -> None:
        """Have a column for those days that any recipe has; the others would be empty."""
        self._days = days
        self._show_columns()

    def columns_menu(self) -> QMenu:
        """Return a menu that shows and hides columns; the name stays. What is chosen is kept."""
        titles = [each.heading for each in self._rows.columns[1:]]
        return columns_menu(self, titles, self._hidden, self._choose_column)

    def _choose_column(self, title: str, shown: bool) -> None:
        self._hidden = self._hidden - {title} if shown else self._hidden | {title}
        self._settings.box_hidden = self._hidden
        self._show_columns()

    def _show_columns(self) -> None:
        for number, column in enumerate(self._rows.columns):
            is_empty = column.key in DAYS and column.key not in self._days
            self.setColumnHidden(
                number, is_empty or (number > 0 and column.heading in self._hidden)
            )
        shown = [n for n in range(len(self._rows.columns)) if not self.isColumnHidden(n)]
        # A figure stands at the right of its column: it would be led away from its row.
        self.horizontalHeader().setStretchLastSection(not self._rows.columns[shown[-1]].right)
        self._fit_names()

    # room

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_names()

    def _note_width(self, column: int, _old: int, _new: int) -> None:
        """A width that a brewer drew is left alone; the last column follows the window by itself.

        The name's is told too while it is fitted, and that of a column that is hidden.
        """
        header = self.horizontalHeader()
        pressed = QGuiApplication.mouseButtons() & Qt.MouseButton.LeftButton
        is_last = header.visualIndex(column) == header.count() - 1
        if pressed and not self._is_fitting and not is_last:
            self._has_own_widths = True

    def _fit_names(self) -> None:
        """Give the names what room the other columns leave, so that none lies out of sight.

        Where they would be shortened the others leave all that they do not need themselves.
        """
        if self._has_own_widths:
            return
        header = self.horizontalHeader()
        shown = [n for n in range(1, header.count()) if not self.isColumnHidden(n)]
        widths = {n: max(self._rows.columns[n].width, header.sectionSizeHint(n)) for n in shown}
        room = self.viewport().width()
        short = min(self._need(0), NAMES.stop) - (room - sum(widths.values()))
        for number in shown if short > 0 else ():
            left = min(max(widths[number] - self._need(number), 0), short)
            widths[number] -= left
            short -= left
        widths[0] = min(max(room - sum(widths.values()), NAMES.start), NAMES.stop)
        self._is_fitting = True
        for number, width in widths.items():
            if width != self.columnWidth(number):
                self.setColumnWidth(number, width)
        self._is_fitting = False

    def _need(self, column: int) -> int:
        """Return how wide a column has to be for its heading, and for all rows seen so far.

        What is beside the words of a cell is measured in the first row; the words alone of all
        others, for this is done with each key of a search.
        """
        model, metrics, shown = self._rows, self.fontMetrics(), self._rows.columns[column]
        last = self.rowAt(self.viewport().height() - 1)
        seen = range(max(self.rowAt(0), 0), last + 1 if last >= 0 else model.rowCount())
        words = [model.text(shown, model.row_or_number(row)) for row in seen[:MOST_SEEN]]
        need = max(self.horizontalHeader().sectionSizeHint(column), self._needs.get(column, 0))
        if words:
            first = self.sizeHintForIndex(model.index(seen[0], column)).width()
            beside = first - metrics.horizontalAdvance(words[0])
            need = max(need, beside + max(map(metrics.horizontalAdvance, {*words})) + APART)
        self._needs[column] = need
        return need

    # choosing

    def chosen(self) -> list[RecipeRow]:
        """Return the chosen recipes, from the top; of one not read yet no more than its number."""
        chosen = self.selectionModel().selection()
        spans = [(each.top(), each.bottom() + 1) for each in map(chosen.at, range(chosen.count()))]
        places = sorted({place for first, after in spans for place in range(first, after)})
        count = self._rows.rowCount()
        return [self._rows.row_or_number(place) for place in places if place < count]

    def top_id(self) -> int:
        """Return the number of the recipe at the top of what is in sight; 0 at the very top."""
        place = self.rowAt(0)
        return self._rows.ids[place] if place > 0 else 0

    def stay_at(self, recipe: int) -> None:
        """Have a recipe at the top of what is in sight, if it is still listed."""
        if recipe and recipe in self._rows.ids:
            place = self._rows.index(self._rows.ids.index(recipe), 0)
            self.scrollTo(place, QAbstractItemView.ScrollHint.PositionAtTop)

    def seen_ids(self) -> tuple[int, ...]:
        """Return the numbers of the recipes that are in sight."""
        first = max(self.rowAt(0), 0)
        last = self.rowAt(self.viewport().height() - 1)
        return self._rows.ids[first : last + 1 if last >= 0 else None][:MOST_SEEN]

    def choose(self, ids: set[int]) -> None:
        """Choose the recipes of these numbers as well."""
        model = self.selectionModel()
        flag = model.SelectionFlag.Select | model.SelectionFlag.Rows
        found = [n for n, each in enumerate(self._rows.ids) if each in ids] if ids else []
        for first, last in _runs(found):
            top, bottom = self._rows.index(first, 0), self._rows.index(last, 0)
            model.select(QItemSelection(top, bottom), flag)
        if found and not self.currentIndex().isValid():  # the arrow keys go on from there
            model.setCurrentIndex(self._rows.index(found[0], 0), model.SelectionFlag.NoUpdate)
        if found:
            self.scrollTo(self._rows.index(found[0], 0))

    def choose_near(self, row: int) -> None:
        """Choose the recipe in a row, or the last one: where the keyboard was before."""
        last = self._rows.rowCount() - 1
        if last >= 0:
            self.selectRow(min(max(row, 0), last))

    # dragging out: the files are written first, then the drag begins if the button is still held

    def startDrag(self, actions: Qt.DropAction) -> None:
        self._waiting = True
        self.drag_wanted.emit()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self._waiting:  # else it would choose other rows meanwhile
            super().mouseMoveEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._waiting = False
        super().mouseReleaseEvent(event)

    def drag_now(self) -> None:
        """Begin the drag that was waiting for its files. Recipes are copied, never moved away."""
        waiting, self._waiting = self._waiting, False
        if waiting and QGuiApplication.mouseButtons() & Qt.MouseButton.LeftButton:
            # Not Qt's own startDrag: it would stop all threads of Python as long as it lasts.
            indexes = self.selectionModel().selectedRows()
            drag = QDrag(self)
            drag.setMimeData(self._rows.mimeData(indexes))
            drag.setPixmap(self._picture(indexes))
            drag.exec(Qt.DropAction.CopyAction)

    def _picture(self, indexes: list[QModelIndex]) -> QPixmap:
        """Return what hangs on the pointer: the names that are chosen, the first few of them."""
        seen = [self.visualRect(index) for index in indexes[:MOST_PICTURED]]
        rows = reduce(QRect.united, seen, QRect()).intersected(self.viewport().rect())
        return self.viewport().grab(rows) if not rows.isEmpty() else QPixmap()

    def give_up_drag(self) -> None:
        """Forget the drag: its files could not be written."""
        self._waiting = False


def _runs(places: list[int]) -> list[tuple[int, int]]:
    """Return the first and last of each run of places without a gap."""
    runs: list[tuple[int, int]] = []
    for place in places:
        if runs and runs[-1][1] == place - 1:
            runs[-1] = (runs[-1][0], place)
        else:
            runs.append((place, place))
    return runs
