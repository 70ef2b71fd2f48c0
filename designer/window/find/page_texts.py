"""What a page says, and where: labels, buttons, fields, cells of tables, the pages of the sheet."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator
from typing import NamedTuple, Protocol, runtime_checkable

from PySide6.QtCore import QModelIndex, QRect, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QGroupBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTableView,
    QTextEdit,
    QTreeView,
    QWidget,
)

from designer.recipe.same_name import folded
from designer.window.parts.plain_text import as_read

_TAG = re.compile(r"<[^<>]*>")
_MOST_CELLS = 20_000
_ROLES = (int(Qt.ItemDataRole.DisplayRole), int(Qt.ItemDataRole.AccessibleTextRole))


class Spot(NamedTuple):
    """A text of a page: the widget that says it, and where in it; `show` scrolls to it first."""

    text: str
    widget: QWidget
    rect: Callable[[], QRect]
    show: Callable[[], object] = lambda: None


@runtime_checkable
class SaysSpots(Protocol):
    """A widget that paints its texts, and tells where they are."""

    def spots(self) -> list[tuple[str, QRect]]:
        """Return its texts with their places."""


def found_on(page: QWidget, typed: str) -> list[Spot]:
    """Return the texts of a page that have what was typed, from the top to the bottom."""
    wanted = _plain(typed)
    if not wanted:
        return []
    found = [each for each in _spots(page) if wanted in _plain(each.text)]
    return sorted(found, key=lambda each: _place(page, each))


def _plain(text: str) -> str:
    return " ".join(folded(text).split())


def _place(page: QWidget, spot: Spot) -> tuple[int, int]:
    at = spot.widget.mapTo(page, spot.rect().topLeft())
    return at.y(), at.x()


def _spots(page: QWidget) -> Iterator[Spot]:
    for widget in page.findChildren(QWidget):
        if not widget.isVisible():
            continue
        if isinstance(widget, SaysSpots):
            for text, rect in widget.spots():
                yield Spot(text, widget, _always(rect))
        elif isinstance(widget, QHeaderView):
            continue
        elif isinstance(widget, QAbstractItemView):
            yield from _cells(widget)
        else:
            text = _text_of(widget)
            if text:
                yield Spot(text, widget, widget.rect)


def _always(rect: QRect) -> Callable[[], QRect]:
    return lambda: rect


def _text_of(widget: QWidget) -> str:
    """What a widget says that holds no other: what is painted is told to screen readers too."""
    if isinstance(widget, QLabel):
        return html.unescape(_TAG.sub(" ", widget.text()))
    if isinstance(widget, QLineEdit):
        is_within = isinstance(widget.parentWidget(), QComboBox)
        return "" if is_within else widget.text() or widget.placeholderText()
    if isinstance(widget, QComboBox):
        return widget.currentText()
    if isinstance(widget, QPlainTextEdit | QTextEdit):
        return widget.toPlainText()
    if isinstance(widget, QAbstractButton):
        return as_read(widget.text()) or widget.accessibleName()
    if isinstance(widget, QGroupBox):
        return widget.title()
    is_alone = not widget.findChildren(QWidget)
    return f"{widget.accessibleName()} {widget.accessibleDescription()}" if is_alone else ""


def _cells(view: QAbstractItemView) -> Iterator[Spot]:
    model = view.model()
    columns = [each for each in range(model.columnCount()) if not _is_hidden(view, each)]
    rows = min(model.rowCount(), _MOST_CELLS // max(len(columns), 1))
    for row in range(rows):
        for column in columns:
            index = model.index(row, column)
            shown, told = (index.data(role) for role in _ROLES)
            text = str(shown or told or "")
            if text:
                yield _cell(view, index, text)


def _cell(view: QAbstractItemView, index: QModelIndex, text: str) -> Spot:
    def rect() -> QRect:
        return view.visualRect(index)

    return Spot(text, view.viewport(), rect, lambda: view.scrollTo(index))


def _is_hidden(view: QAbstractItemView, column: int) -> bool:
    return isinstance(view, QTableView | QTreeView) and view.isColumnHidden(column)
