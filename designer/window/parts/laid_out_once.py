"""Parts of a column that scrolls are shown, hidden and grow together, and are laid out once.

Where one is shown, Qt lays out at once what it lies in; and what scrolls learns of a new height
only after the next painting, in which everything is squeezed into the height of before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager

from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QLayout, QWidget


@contextmanager
def laid_out_once(inside: QWidget, parts: Callable[[], Sequence[QWidget]]) -> Iterator[None]:
    """Change `parts` that lie in a widget; where they want another height, all is laid out then."""
    around = list(_laid_out_around(inside))
    wanted = _wanted(parts())
    for _, layout in around:
        layout.setEnabled(False)
    try:
        yield
    finally:
        for _, layout in around:
            layout.setEnabled(True)
    if inside.isVisible() and _wanted(parts()) != wanted:
        _lay_out(around, parts())


def _laid_out_around(inside: QWidget) -> Iterator[tuple[QWidget, QLayout]]:
    """Yield a widget and those that it lies in, up to what scrolls, each with its layout."""
    widget: QWidget | None = inside
    while widget is not None and (layout := widget.layout()) is not None:
        yield widget, layout
        widget = widget.parentWidget()


def _wanted(parts: Sequence[QWidget]) -> list[int]:
    """Return the height that each wants where it is as wide as it is; none if it is hidden."""
    return [0 if part.isHidden() else part.heightForWidth(part.width()) for part in parts]


def _lay_out(around: Sequence[tuple[QWidget, QLayout]], parts: Sequence[QWidget]) -> None:
    """Let each that lies around ask anew, what scrolls make room, and each place its own."""
    scrolls: QWidget | None = None
    for part in parts:
        part.updateGeometry()
    for widget, layout in around:
        layout.invalidate()
        widget.updateGeometry()
        scrolls = widget.parentWidget()
    if scrolls is not None:
        QCoreApplication.sendEvent(scrolls, QEvent(QEvent.Type.LayoutRequest))
    for _, layout in reversed(around):
        layout.activate()
