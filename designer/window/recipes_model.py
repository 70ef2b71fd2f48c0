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
)
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF

from designer.library.store import RecipeRow, VersionRow
from designer.recipe.quantity import Kind
from designer.window import dates
from designer.window.figures import figure
from designer.window.shown import Shown
from designer.wort.swatch import swatch_hex

Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()
_Role = Qt.ItemDataRole
LONGEST_SHOWN = 200


@dataclass(frozen=True, slots=True)
class BoxColumn:
    """One column: heading, the order it stands for, its text, whether it is right-aligned."""

    heading: str
    order: str
    text: Callable[[RecipeRow, Shown], str]
    right: bool = False
    width: int = 90


def _forecast(key: str, name: str) -> Callable[[RecipeRow, Shown], str]:
    def text(row: RecipeRow, shown: Shown) -> str:
        value = getattr(row.summary, name)
        return "" if value is None else figure(key, value, shown)

    return text


def _size(row: RecipeRow, shown: Shown) -> str:
    litres = row.summary.batch_l
    return "" if litres is None else shown.short(Kind.VOLUME, litres)


def day_text(moment: str) -> str:
    """Return the day of a time in UTC as the locale writes it, where the machine stands."""
    if not moment:
        return ""
    try:
        return dates.day_text(datetime.fromisoformat(moment))
    except ValueError:
        return moment[:10]


COLUMNS = (
    BoxColumn("Name", "name", lambda row, shown: row.name[:LONGEST_SHOWN], width=172),
    BoxColumn("Style", "style", lambda row, shown: row.summary.style[:LONGEST_SHOWN], width=110),
    BoxColumn("OG", "og", _forecast("original_gravity", "og"), right=True, width=62),
    BoxColumn("Alcohol", "abv", _forecast("abv_percent", "abv"), right=True, width=66),
    BoxColumn("Bitterness", "ibu", _forecast("bitterness_ibu", "ibu"), right=True, width=78),
    BoxColumn("Colour", "colour", _forecast("colour_srm", "srm"), right=True, width=74),
    BoxColumn("Size", "size", _size, right=True, width=58),
    BoxColumn("Last brewed", "brewed", lambda row, shown: day_text(row.last_brewed), width=90),
    BoxColumn("Changed", "changed", lambda row, shown: day_text(row.changed), width=90),
    BoxColumn("Tags", "", lambda row, shown: ", ".join(row.tags), width=70),
)


class RecipesModel(QAbstractTableModel):
    """A page of recipes as the search found them."""

    def __init__(self, shown: Shown, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._shown = shown
        self.rows: tuple[RecipeRow, ...] = ()
        self.handed_out: Callable[[list[RecipeRow]], QMimeData] | None = None

    def show_rows(self, rows: tuple[RecipeRow, ...]) -> None:
        """Show other rows."""
        if rows == self.rows:
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

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
        if not index.isValid() or index.row() >= len(self.rows):
            return None
        row, column = self.rows[index.row()], COLUMNS[index.column()]
        if role == _Role.DisplayRole:
            return column.text(row, self._shown)
        if role == _Role.TextAlignmentRole:
            return _alignment(column)
        if role == _Role.DecorationRole and index.column() == 0:
            return glass_icon(swatch_hex(row.summary.srm or 0.0))
        if role == _Role.ToolTipRole and not column.right:
            return column.text(row, self._shown) or None
        if role == _Role.AccessibleTextRole:
            return f"{column.heading} of {row.name}: {column.text(row, self._shown) or 'none'}"
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
        rows = [self.rows[number] for number in numbers if number < len(self.rows)]
        return self.handed_out(rows) if self.handed_out is not None else QMimeData()


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

    def __init__(self, shown: Shown, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._shown = shown
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
        for key, value in (
            ("original_gravity", version.summary.og),
            ("bitterness_ibu", version.summary.ibu),
        ):
            if value is not None:
                parts.append(figure(key, value, self._shown))
        return "  ·  ".join(parts)
