"""The menu of an ingredient line: all that the keys do to it, its details, and what it is."""

from __future__ import annotations

import html
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QModelIndex, QPoint
from PySide6.QtWidgets import QMenu, QWhatsThis

from designer.recipe.document import Fermentable
from designer.recipe.named import Line, is_locked
from designer.translation import tr
from designer.window.parts.cell_table import CellTable
from designer.window.parts.deeds import add_deeds, add_entry, menu_under
from designer.window.parts.explained import explain
from designer.workbench import keys
from designer.workbench.catalogue_words import entry_lines
from designer.workbench.figure_sources import entry_of
from designer.workbench.figures import Figures


class LineActs(NamedTuple):
    """What the menu has besides what the Edit menu can do; `lock` is None where none is.

    `figures` writes what the catalogue has.
    """

    add: Callable[[], object]
    what_if: Callable[[], object]
    details: Callable[[], object]
    figures: Callable[[], Figures]
    lock: Callable[[bool], object] | None = None


def line_menu(
    view: CellTable, part: str, line: Line | None, index: QModelIndex, acts: LineActs
) -> QMenu:
    """Return the menu of a line of `part`; the last row, which has none yet, can be added to."""
    menu, deeds = menu_under(view), view.deeds()
    add_entry(menu, tr("Add a line"), acts.add)
    if line is None:
        add_deeds(menu, deeds, (keys.PASTE,))
        return menu
    of_line = (keys.OPEN_OR_EDIT, keys.DUPLICATE, keys.MOVE_UP, keys.MOVE_DOWN)
    add_deeds(menu, deeds, of_line)
    if acts.lock is not None:
        lock = menu.addAction(tr("Locked"))
        lock.setCheckable(True)
        lock.setChecked(is_locked(line))
        lock.toggled.connect(acts.lock)
    menu.addSeparator()
    add_deeds(menu, deeds, (keys.CUT, keys.COPY, keys.PASTE, keys.DELETE))
    menu.addSeparator()
    add_entry(menu, keys.WHAT_IF, acts.what_if)
    add_entry(menu, tr("Details"), acts.details)
    add_entry(menu, keys.WHAT_IS_THIS, partial(_tell, view, part, line, index, acts.figures))
    return menu


def _tell(
    view: CellTable, part: str, line: Line, index: QModelIndex, figures: Callable[[], Figures]
) -> None:
    """Tell what the catalogue has on an ingredient; of any other what its column means."""
    form = line.kind if isinstance(line, Fermentable) else None
    entry = entry_of(part, line.name, form) if line.name else None
    if entry is None:
        explain(view)
        return
    name, *told = entry_lines(entry, figures())
    text = f"<p><b>{html.escape(name)}</b></p>"
    text += "".join(f"<p>{html.escape(each)}</p>" for each in told)
    below = QPoint(view.visualRect(index).left(), view.visualRect(index).bottom())
    QWhatsThis.showText(view.viewport().mapToGlobal(below), text, view)
