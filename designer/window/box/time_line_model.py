"""The versions of one recipe and what was brewed of each, on one line of time.

The newest stands first, unless they are sorted otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from PySide6.QtCore import QObject
from PySide6.QtGui import QBrush, QColor
from PySide6.QtWidgets import QApplication

from designer.library.store import VersionRow
from designer.translation import message, tr
from designer.window.box.recipes_model import LONGEST_SHOWN, day_text, moment_text
from designer.window.parts import dates
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import inks_for
from designer.window.parts.ordering import Order
from designer.window.parts.table_model import Role, TableModel
from designer.workbench.brew.brew_told import MARKS, BrewTold

Row = VersionRow | BrewTold
INDENT = "      "
NEWEST_FIRST = Order("number", down=True)
ORDERS = (
    ("number", message("Version")),
    ("original_gravity", message("Original gravity")),
    ("bitterness_ibu", message("Bitterness")),
    ("brewed", message("Last brewed")),
    ("mark", message("Mark of the beer")),
)
"""What versions and brews can be sorted by."""


class TimeLineModel(TableModel):
    """Rows are versions, and below each the brews of it."""

    def __init__(self, display: DisplayFormat, parent: QObject | None = None) -> None:
        super().__init__((Column("number", message("Version"), text=_row_text),), display, parent)
        self.rows: tuple[Row, ...] = ()
        self.order = NEWEST_FIRST
        self.answers[Role.ForegroundRole] = _ink

    def spoken(self, column: Column, row: Row) -> str:
        return self.text(column, row).strip()

    def show_line(self, versions: Sequence[VersionRow], brews: Sequence[BrewTold]) -> None:
        """Show versions in their order, and below each its brews, by mark or else by their day.

        Both come with the newest first; what has no such figure stays behind what has one.
        """
        known = {each.id for each in versions}
        rows: list[Row] = [each for each in brews if each.brew.version not in known]
        of = {number: [each for each in brews if each.brew.version == number] for number in known}
        key, down = self.order
        for below in of.values():
            if key == "mark":
                below.sort(key=lambda each: each.brew.mark or 0, reverse=down)
            elif not down and key in ("number", "brewed"):
                below.reverse()
        figures = {each.id: _sorted_by(key, each, of[each.id]) for each in versions}
        with_one = [each for each in versions if figures[each.id] is not None]
        with_one.sort(key=lambda each: figures[each.id] or 0.0, reverse=down)
        for version in (*with_one, *(each for each in versions if figures[each.id] is None)):
            rows += [version, *of[version.id]]
        self.put_rows(tuple(rows))


def _sorted_by(key: str, version: VersionRow, brews: Sequence[BrewTold]) -> float | None:
    """What a version is sorted by; None where it has no such figure."""
    if key == "number":
        return version.number
    if key == "brewed":
        days = [datetime.fromisoformat(each.brew.started).timestamp() for each in brews]
        return max(days, default=None)
    if key == "mark":
        return max((each.brew.mark for each in brews if each.brew.mark), default=None)
    return version.summary.forecast(key)


def key_of(row: Row) -> str:
    """Return what a row is known by, however the rows change."""
    return row.brew.uid if isinstance(row, BrewTold) else f"version {row.id}"


def brew_text(told: BrewTold, display: DisplayFormat) -> str:
    """Return when a brew was and what came of it: "brewed 28 Mar 2026  ·  OG 1.046  ·  4, good"."""
    brew = told.brew
    if brew.is_under_way:
        parts = [tr("being brewed since {moment}", moment=moment_text(brew.started))]
    else:
        parts = [tr("brewed {day}", day=day_text(brew.started))]
    if told.original_gravity is not None:
        gravity = figure("original_gravity", told.original_gravity, display)
        parts.append(tr("OG {gravity}", gravity=gravity))
    if told.abv_percent is not None:
        alcohol = figure("abv_percent", told.abv_percent, display)
        parts.append(tr("{alcohol} alcohol as read", alcohol=alcohol))
    parts += _beer_text(told)
    if brew.mark in MARKS:
        parts.append(mark_text(brew.mark))
    return "  ·  ".join(parts)


def _beer_text(told: BrewTold) -> list[str]:
    """Return what became of the beer, "in the fermenter since 28 Mar 2026"; nothing if unknown."""
    since = told.fermenting_since(date.today())
    if since is not None:
        return [tr("in the fermenter since {day}", day=day_text(since.isoformat()))]
    if told.packaged is None:
        return []
    day = dates.day_text(datetime.fromtimestamp(told.packaged.wall).astimezone())
    if not told.ready:
        return [tr("packaged {day}", day=day)]
    return [tr("packaged {day}, ready {ready}", day=day, ready=day_text(told.ready))]


def mark_text(mark: int) -> str:
    """Return a mark with its word: "4, good"."""
    return tr("{mark}, {word}", mark=mark, word=tr(MARKS[mark]))


def tasting_day(wall: float) -> str:
    """Return the day of an instant."""
    return day_text(datetime.fromtimestamp(wall).astimezone().isoformat())


def _row_text(row: Row, display: DisplayFormat) -> str:
    if isinstance(row, BrewTold):
        return INDENT + brew_text(row, display)
    parts = [f"{row.number}", moment_text(row.saved)]
    if row.name:
        parts.append(row.name[:LONGEST_SHOWN])
    for key in ("original_gravity", "bitterness_ibu"):
        value = row.summary.forecast(key)
        if value is not None:
            parts.append(figure(key, value, display))
    return "  ·  ".join(parts)


def _ink(_: Column, row: Row) -> QBrush | None:
    """Brews are written in green, as on the sheet of a list that was ticked off."""
    if not isinstance(row, BrewTold):
        return None
    return QBrush(QColor(inks_for(QApplication.palette()).green))
