"""Tab goes on as one reads: what was put together late has its place where it stands.

Qt lets Tab come to what was made last at the very end, wherever that is shown.
"""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QComboBox,
    QGridLayout,
    QLayout,
    QLineEdit,
    QScrollArea,
    QWidget,
)

WHOLE = (QAbstractScrollArea, QAbstractSpinBox, QComboBox, QLineEdit)
"""What has parts that are no stops of their own."""


def order_tabs(inside: QWidget, behind: QWidget | None = None) -> None:
    """Let Tab go through what stands in a widget in the order of its layouts.

    It comes there from `behind`, else from where it came before.
    """
    before = behind if behind is not None else _before(inside)
    for each in stops(inside):
        if before is not None and each is not before:
            QWidget.setTabOrder(before, each)
        before = each


def _before(inside: QWidget) -> QWidget | None:
    """Return what Tab comes from to a widget, or to what stands in it."""
    at = inside.previousInFocusChain()
    while at is not None and at is not inside and (not _is_stop(at) or inside.isAncestorOf(at)):
        at = at.previousInFocusChain()
    return at if at is not inside else None


def _is_stop(widget: QWidget) -> bool:
    """Whether Tab comes to a widget, or will once it is the chosen one of its group."""
    is_one_of_several = isinstance(widget, QAbstractButton) and widget.group() is not None
    policy = Qt.FocusPolicy.StrongFocus if is_one_of_several else Qt.FocusPolicy.TabFocus
    return bool(widget.focusPolicy() & policy)


def stops(widget: QWidget) -> Iterator[QWidget]:
    """Yield a widget and what stands in it, as far as Tab comes there, as it is read."""
    if _is_stop(widget):
        yield widget
    if isinstance(widget, QScrollArea):
        content = widget.widget()
        if content is not None:
            yield from stops(content)
    elif not isinstance(widget, WHOLE):
        layout = widget.layout()
        if layout is not None:
            yield from _stops_of(layout)
        for child in widget.children() if layout is None else ():
            if isinstance(child, QWidget) and not child.isWindow():
                yield from stops(child)


def _stops_of(layout: QLayout) -> Iterator[QWidget]:
    places = list(range(layout.count()))
    if isinstance(layout, QGridLayout):
        places.sort(key=lambda number: _row_and_column(layout, number))
    for number in places:
        item = layout.itemAt(number)
        inner, widget = (item.layout(), item.widget()) if item is not None else (None, None)
        if widget is not None:
            yield from stops(widget)
        elif inner is not None:
            yield from _stops_of(inner)


def _row_and_column(grid: QGridLayout, number: int) -> tuple[int, int]:
    place: tuple[int, ...] = grid.getItemPosition(number)  # type: ignore[assignment]
    return place[0], place[1]
