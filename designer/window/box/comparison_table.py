"""Two versions, or two recipes, beside each other: a row for each thing that differs."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QAbstractTableModel, QObject, Qt
from PySide6.QtGui import QFont, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from designer.library.store import VersionRow
from designer.translation import tr, tr_of
from designer.window.box.recipes_model import moment_text
from designer.window.parts.plain_text import tip
from designer.window.parts.table_model import ROOT, Index, Role

LONGEST_CELL = 400
LONGEST_NOTE = 60
NOTHING = "–"
WHAT_SHARE = 0.3
"""So much of the width says what it is that differs."""


@dataclass(frozen=True, slots=True)
class Compared:
    """What differs: what it is, and how it reads on each side; "" where it is not there."""

    what: str
    before: str
    after: str


def when_kept(before: VersionRow, after: VersionRow) -> tuple[Compared, ...]:
    """Return when two versions were kept, and the notes that they have."""
    kept, notes = tr_of("version", "Kept"), (before.name[:LONGEST_NOTE], after.name[:LONGEST_NOTE])
    rows = [Compared(kept, moment_text(before.saved), moment_text(after.saved))]
    if any(notes):
        rows.append(Compared(tr("Note"), *notes))
    return tuple(rows)


class ComparisonModel(QAbstractTableModel):
    """What differs, in three columns: what it is, before, after."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows: tuple[Compared, ...] = ()
        self._headings = ("", "", "")

    def show_rows(self, rows: tuple[Compared, ...], before: str, after: str) -> None:
        """Show another comparison, of what is called so."""
        self.beginResetModel()
        self.rows, self._headings = rows, (tr("What differs"), before, after)
        self.endResetModel()

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self._headings)

    def text(self, row: int, column: int) -> str:
        """Return what a cell says."""
        each = self.rows[row]
        return (each.what, each.before, each.after)[column][:LONGEST_CELL] or NOTHING

    def data(self, index: Index, role: int = Role.DisplayRole) -> object:
        if not index.isValid():
            return None
        text = self.text(index.row(), index.column())
        if role == Role.DisplayRole:
            return text
        if role == Role.ToolTipRole:
            return tip(text)
        if role == Role.AccessibleTextRole:
            of = self._headings[index.column()]
            return text if index.column() == 0 else tr("{of}: {text}", of=of, text=text)
        if role == Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        if role == Role.FontRole and index.column() == 0:
            font = QFont()
            font.setBold(True)
            return font
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> object:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role in (Role.DisplayRole, Role.AccessibleTextRole):
            return self._headings[section]
        if role == Role.ToolTipRole:
            return tip(self._headings[section])
        if role == Role.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        return None


class ComparisonTable(QTableView):
    """The comparison; long texts are broken and no column lies outside it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.compared = ComparisonModel(self)
        self.setModel(self.compared)
        self.setAccessibleName(tr("What differs"))
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setWordWrap(True)
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.setSectionsClickable(False)
        header.setHighlightSections(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.compared.modelReset.connect(self._fit)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        width = self.viewport().width()
        what = int(WHAT_SHARE * width)
        before = (width - what) // 2
        for column, wide in enumerate((what, before, width - what - before)):
            self.setColumnWidth(column, wide)
        self.resizeRowsToContents()
