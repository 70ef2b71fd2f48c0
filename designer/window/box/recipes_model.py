"""The list of the Recipe box as a Qt table, and the versions of one recipe as a list."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QAbstractTableModel,
    QMimeData,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF

from designer.brewday.predictions import MAIN, Prediction
from designer.library.store import RecipeRow, Summary, VersionRow
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.parts import dates
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.plain_text import tip
from designer.wort.swatch import swatch_hex

Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()
_Role = Qt.ItemDataRole
LONGEST_SHOWN = 200
READ_AT_ONCE = 200
_ORDERS = {
    "original_gravity": "og", "abv_percent": "abv", "bitterness_ibu": "ibu", "colour_srm": "colour",
}  # fmt: skip
"""The orders of the store by a forecast: those that it keeps an index of."""
_UNREAD = ("", Summary(), 0, 0, "", "", "", "", 0)


@dataclass(frozen=True, slots=True)
class BoxColumn:
    """One column: heading, the order it stands for, its text, whether it is right-aligned."""

    heading: str
    order: str
    text: Callable[[RecipeRow, DisplayFormat], str]
    right: bool = False
    width: int = 90


def _forecast(each: Prediction) -> BoxColumn:
    def text(row: RecipeRow, display: DisplayFormat) -> str:
        value = row.summary.forecast(each.key)
        return "" if value is None else figure(each.key, value, display)

    heading = tr(each.heading)
    least = 74 if len(each.unit) > 1 else 62
    width = max(least, 38 + 4 * len(heading))
    return BoxColumn(heading, _ORDERS.get(each.key, ""), text, right=True, width=width)


def _size(row: RecipeRow, display: DisplayFormat) -> str:
    litres = row.summary.batch_l
    return "" if litres is None else display.short(Kind.VOLUME, litres)


def day_text(moment: str) -> str:
    """Return the day of a time in UTC as the locale writes it, where the machine stands."""
    if not moment:
        return ""
    try:
        return dates.day_text(datetime.fromisoformat(moment))
    except ValueError:
        return moment[:10]


COLUMNS = (
    BoxColumn("Name", "name", lambda row, display: row.name[:LONGEST_SHOWN], width=172),
    BoxColumn("Style", "style", lambda row, display: row.summary.style[:LONGEST_SHOWN], width=110),
    *(_forecast(each) for each in MAIN if each.listed),
    BoxColumn("Size", "size", _size, right=True, width=58),
    BoxColumn("Last brewed", "brewed", lambda row, display: day_text(row.last_brewed), width=90),
    BoxColumn("Changed", "changed", lambda row, display: day_text(row.changed), width=90),
    BoxColumn("Tags", "", lambda row, display: ", ".join(row.tags), width=70),
)


class RecipesModel(QAbstractTableModel):
    """All recipes that the search found; a row is read when it comes to be seen.

    `rows_wanted` carries the numbers of recipes whose rows are to be read, for `put_rows`.
    """

    rows_wanted = Signal(object)

    def __init__(self, display: DisplayFormat, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self._ids: tuple[int, ...] = ()
        self._rows: dict[int, RecipeRow] = {}
        self._asked: set[int] = set()
        self.handed_out: Callable[[list[RecipeRow]], QMimeData] | None = None

    @property
    def rows(self) -> tuple[RecipeRow, ...]:
        """The rows that were read, from the top."""
        return tuple(self._rows[each] for each in self._ids if each in self._rows)

    @property
    def ids(self) -> tuple[int, ...]:
        """The numbers of all recipes listed, from the top."""
        return self._ids

    def show_rows(self, rows: Sequence[RecipeRow]) -> None:
        """Show other recipes, all of them read."""
        known = {row.id: row for row in rows}
        if tuple(known) == self._ids and known == self._rows:
            return
        self.beginResetModel()
        self._ids, self._rows = tuple(known), known
        self._asked.clear()
        self.endResetModel()

    def show_all(self, ids: Sequence[int]) -> None:
        """List these recipes; those whose rows were read keep them, the others follow."""
        if self._ids == tuple(ids[: len(self._ids)]):
            if len(ids) > len(self._ids):
                self.beginInsertRows(_ROOT, len(self._ids), len(ids) - 1)
                self._ids = tuple(ids)
                self.endInsertRows()
            return
        self.beginResetModel()
        self._ids = tuple(ids)
        listed = set(ids)
        self._rows = {each: row for each, row in self._rows.items() if each in listed}
        self._asked.clear()
        self.endResetModel()

    def keep_only(self, rows: Sequence[RecipeRow]) -> None:
        """Take over rows that were read anew; all others are read again when they are seen."""
        self._rows = {}
        self._asked.clear()
        self.put_rows(rows)

    def put_rows(self, rows: Sequence[RecipeRow]) -> None:
        """Take over rows that were read."""
        came = {row.id: row for row in rows}
        self._rows |= came
        self._asked -= came.keys()
        places = [number for number, each in enumerate(self._ids) if each in came]
        if places:
            last = self.index(places[-1], self.columnCount() - 1)
            self.dataChanged.emit(self.index(places[0], 0), last)

    def row_at(self, number: int) -> RecipeRow:
        """Return the row at a place; one that was not read yet has no more than its number."""
        recipe = self._ids[number]
        return self._rows.get(recipe) or RecipeRow(recipe, *_UNREAD)

    def _read(self, number: int) -> RecipeRow | None:
        """Return the row at a place if it was read; else ask for it and for those around it."""
        found = self._rows.get(self._ids[number])
        if found is None and self._ids[number] not in self._asked:
            first = number // READ_AT_ONCE * READ_AT_ONCE
            wanted = [
                each
                for each in self._ids[first : first + READ_AT_ONCE]
                if each not in self._rows and each not in self._asked
            ]
            self._asked.update(wanted)
            self.rows_wanted.emit(tuple(wanted))
        return found

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._ids)

    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(COLUMNS):
            return None
        if role == _Role.DisplayRole:
            return COLUMNS[section].heading
        if role == _Role.TextAlignmentRole:
            return _alignment(COLUMNS[section])
        return None

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid() or index.row() >= len(self._ids):
            return None
        column = COLUMNS[index.column()]
        row = self._read(index.row())
        if row is None:
            return _not_read(column, role)
        if role == _Role.DisplayRole:
            return column.text(row, self._display)
        if role == _Role.TextAlignmentRole:
            return _alignment(column)
        if role == _Role.DecorationRole and index.column() == 0:
            return glass_icon(swatch_hex(row.summary.srm or 0.0))
        if role == _Role.ToolTipRole and not column.right:
            return tip(column.text(row, self._display)) or None
        if role == _Role.AccessibleTextRole:
            return f"{column.heading} of {row.name}: {column.text(row, self._display) or 'none'}"
        return None

    # dragged out of the box recipes are copied, as files

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsDragEnabled if index.isValid() else flags

    def supportedDragActions(self) -> Qt.DropAction:
        return Qt.DropAction.CopyAction

    def mimeTypes(self) -> list[str]:
        return ["text/uri-list", "text/plain"]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        numbers = sorted({index.row() for index in indexes if index.isValid()})
        rows = [self.row_at(number) for number in numbers if number < len(self._ids)]
        return self.handed_out(rows) if self.handed_out is not None else QMimeData()


def _not_read(column: BoxColumn, role: int) -> str | None:
    if column is COLUMNS[0] and role in (_Role.DisplayRole, _Role.AccessibleTextRole):
        return "…"
    return None


def _alignment(column: BoxColumn) -> Qt.AlignmentFlag:
    across = Qt.AlignmentFlag.AlignRight if column.right else Qt.AlignmentFlag.AlignLeft
    return across | Qt.AlignmentFlag.AlignVCenter


@lru_cache(maxsize=128)
def glass_icon(beer: str) -> QIcon:
    """Return a small glass of a beer of that colour."""
    size, scale = 16, 3
    pixmap = QPixmap(size * scale, size * scale)
    pixmap.setDevicePixelRatio(scale)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor("#87837a"), 1))
    painter.setBrush(QColor(beer))
    corners = ((2, 1), (14, 1), (12, 15), (4, 15))
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in corners]))
    painter.end()
    return QIcon(pixmap)


class VersionsModel(QAbstractListModel):
    """The versions of one recipe, the newest first."""

    def __init__(self, display: DisplayFormat, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self.versions: tuple[VersionRow, ...] = ()

    def show_versions(self, versions: tuple[VersionRow, ...]) -> None:
        """Show other versions."""
        self.beginResetModel()
        self.versions = versions
        self.endResetModel()

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.versions)

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid() or index.row() >= len(self.versions):
            return None
        if role in (_Role.DisplayRole, _Role.AccessibleTextRole):
            return self._text(self.versions[index.row()])
        return None

    def _text(self, version: VersionRow) -> str:
        parts = [f"{version.number}", day_text(version.saved)]
        if version.name:
            parts.append(version.name[:LONGEST_SHOWN])
        for key in ("original_gravity", "bitterness_ibu"):
            value = version.summary.forecast(key)
            if value is not None:
                parts.append(figure(key, value, self._display))
        return "  ·  ".join(parts)
