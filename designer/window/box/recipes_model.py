"""The list of the Recipe box as a Qt table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import QMimeData, QModelIndex, QObject, Qt, Signal
from PySide6.QtGui import QIcon

from designer.brewday.in_words import colour_in_words
from designer.brewday.predictions import MAIN, Prediction
from designer.library.store import RecipeRow
from designer.recipe.quantity import Kind
from designer.translation import message, named, tr
from designer.window.parts import dates
from designer.window.parts.colour_signs import bar_icon
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import LIGHT
from designer.window.parts.plain_text import tip
from designer.window.parts.table_model import ROOT, Index, Role, TableModel
from designer.workbench.brew.brew_told import fermenting_since
from designer.wort.swatch import swatch_hex

LONGEST_SHOWN = 200
READ_AT_ONCE = 200
COLOUR = "colour"
"""The column whose figure has a word as well, in its tip and for a screen reader."""
_ORDERS = {
    "original_gravity": "og",
    "abv_percent": "abv",
    "bitterness_ibu": "ibu",
    "colour_srm": COLOUR,
}
"""The orders of the store by a forecast: those that it keeps an index of."""


def _forecast(each: Prediction) -> Column:
    def text(row: RecipeRow, display: DisplayFormat) -> str:
        value = row.summary.forecast(each.key)
        if value is None:
            return ""
        return figure(each.key, value, display)

    least = 74 if len(each.unit) > 1 else 62
    width = max(least, 38 + 4 * len(each.heading))
    return Column(_ORDERS.get(each.key, ""), each.heading, text=text, right=True, width=width)


def _with_word(text: str, row: RecipeRow) -> str:
    srm = row.summary.srm
    if srm is None:
        return text
    return tr("{figure} · {words}", figure=text, words=tr(colour_in_words(srm)))


def _named(row: RecipeRow) -> str:
    name = row.name[:LONGEST_SHOWN]
    return tr("{name} (example)", name=name) if row.example else name


def _fermenting(row: RecipeRow) -> str:
    """Return since when a beer is in the fermenter; one of long ago was packaged without a word."""
    try:
        since = fermenting_since(date.fromisoformat(row.fermenting), date.today())
    except ValueError:
        return ""
    return day_text(row.fermenting) if since is not None else ""


def _size(row: RecipeRow, display: DisplayFormat) -> str:
    litres = row.summary.batch_l
    return "" if litres is None else display.short(Kind.VOLUME, litres)


def day_text(moment: str) -> str:
    """Return the day of a time in UTC as the locale writes it, where the machine stands."""
    return dates.kept_day(moment)


def moment_text(moment: str) -> str:
    """Return the day and the time of day of a time in UTC, where the machine stands."""
    return dates.kept_day(moment, dates.moment_text)


COLUMNS = (
    Column("name", message("Name"), text=lambda row, _: _named(row), width=196),
    Column(
        "style",
        message("Style"),
        text=lambda row, _: named(row.summary.style)[:LONGEST_SHOWN],
        width=110,
    ),
    *(_forecast(each) for each in MAIN if each.listed),
    Column("size", message("Size"), text=_size, right=True, width=58),
    Column(
        "brewed", message("Last brewed"), text=lambda row, _: day_text(row.last_brewed), width=90
    ),
    Column(
        "fermenting",
        message("In the fermenter"),
        text=lambda row, _: _fermenting(row),
        tip=message("Since when the last beer of it is in the fermenter"),
        width=104,
    ),
    Column(
        "packaged",
        message("Packaged"),
        text=lambda row, _: day_text(row.packaged),
        tip=message("When a beer of it went into bottles or keg last"),
        width=84,
    ),
    Column(
        "ready",
        message("Ready"),
        text=lambda row, _: day_text(row.ready),
        tip=message("From when the last beer of it is ready to drink"),
        width=84,
    ),
    Column("changed", message("Changed"), text=lambda row, _: day_text(row.changed), width=90),
    Column("", message("Tags"), text=lambda row, _: ", ".join(row.tags), width=70),
)
"""Each is known by the order that it stands for; "" stands for none."""


class RecipesModel(TableModel):
    """All recipes that the search found; a row is read when it comes to be seen.

    `rows_wanted` carries the numbers of recipes whose rows are to be read, for `take_rows`.
    """

    if_empty = message("none")
    rows_wanted = Signal(object)

    def __init__(self, display: DisplayFormat, parent: QObject | None = None) -> None:
        super().__init__(COLUMNS, display, parent)
        self.ids: tuple[int, ...] = ()
        """The numbers of all recipes listed, from the top."""
        self._rows: dict[int, RecipeRow] = {}
        self._asked: set[int] = set()
        self.edge = LIGHT.line_strong
        """The ink round the colour of a beer."""
        self.handed_out: Callable[[list[RecipeRow]], QMimeData] | None = None
        self.answers[Role.DecorationRole] = self._bar

    @property
    def rows_read(self) -> tuple[RecipeRow, ...]:
        """The rows that were read, from the top."""
        return tuple(self._rows[each] for each in self.ids if each in self._rows)

    def show_rows(self, rows: Sequence[RecipeRow]) -> None:
        """Show other recipes, all of them read."""
        known = {row.id: row for row in rows}
        if tuple(known) == self.ids and known == self._rows:
            return
        self.beginResetModel()
        self.ids, self._rows = tuple(known), known
        self._asked.clear()
        self.endResetModel()

    def show_all(self, ids: Sequence[int]) -> None:
        """List these recipes; those whose rows were read keep them, the others follow."""
        if self.ids == tuple(ids[: len(self.ids)]):
            if len(ids) > len(self.ids):
                self.beginInsertRows(ROOT, len(self.ids), len(ids) - 1)
                self.ids = tuple(ids)
                self.endInsertRows()
            return
        self.beginResetModel()
        self.ids = tuple(ids)
        listed = set(ids)
        self._rows = {each: row for each, row in self._rows.items() if each in listed}
        self._asked.clear()
        self.endResetModel()

    def keep_only(self, rows: Sequence[RecipeRow]) -> None:
        """Take over rows that were read anew; all others are read again when they are seen."""
        self._rows = {}
        self._asked.clear()
        self.take_rows(rows)

    def take_rows(self, rows: Sequence[RecipeRow]) -> None:
        """Take over rows that were read."""
        came = {row.id: row for row in rows}
        self._rows |= came
        self._asked -= came.keys()
        places = [number for number, each in enumerate(self.ids) if each in came]
        if places:
            self.tell_rows(places[0], places[-1])

    def row_or_number(self, number: int) -> RecipeRow:
        """Return the row at a place; one that was not read yet has no more than its number."""
        recipe = self.ids[number]
        return self._rows.get(recipe) or RecipeRow(recipe, "")

    def row_at(self, number: int) -> RecipeRow | None:
        """Return the row at a place if it was read; else ask for it and for those around it."""
        if not 0 <= number < len(self.ids):
            return None
        found = self._rows.get(self.ids[number])
        if found is None and self.ids[number] not in self._asked:
            first = number // READ_AT_ONCE * READ_AT_ONCE
            wanted = [
                each
                for each in self.ids[first : first + READ_AT_ONCE]
                if each not in self._rows and each not in self._asked
            ]
            self._asked.update(wanted)
            self.rows_wanted.emit(tuple(wanted))
        return found

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.ids)

    def without_row(self, column: Column, role: int) -> str | None:
        is_said = column is self.columns[0] and role in (Role.DisplayRole, Role.AccessibleTextRole)
        return "…" if is_said else None

    def tip(self, column: Column, row: RecipeRow) -> str | None:
        if column.key == COLOUR:
            return tip(_with_word(self.text(column, row), row)) or None
        return tip(self.text(column, row)) or None if not column.right else None

    def spoken(self, column: Column, row: RecipeRow) -> str:
        said = super().spoken(column, row)
        return _with_word(said, row) if column.key == COLOUR else said

    def _bar(self, column: Column, row: RecipeRow) -> QIcon | None:
        """The colour of the beer at the edge of its row."""
        if column is not self.columns[0]:
            return None
        return bar_icon(swatch_hex(row.summary.srm or 0.0), self.edge)

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
        rows = [self.row_or_number(number) for number in numbers if number < len(self.ids)]
        return self.handed_out(rows) if self.handed_out is not None else QMimeData()
