"""The widths that columns of a table begin with: never less than their heading, in any language."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtWidgets import QTableView


def begin_with(table: QTableView, widths: Iterable[int]) -> None:
    """Set the columns of a table to these widths, or to what their headings need if that is more.

    The last column takes the rest of the room.
    """
    header = table.horizontalHeader()
    header.ensurePolished()
    for number, width in enumerate(widths):
        table.setColumnWidth(number, max(width, header.sectionSizeHint(number)))
