"""The contrast of texts in cells and painted pictures, by the pixels that are there.

What a label says is measured in `tests/contrast.py`, which names the sources; here what a cell of a
table shows, and each text that a picture paints, in the ink it is painted with, against every
ground that takes up a part of the room it stands in.
"""

from contextlib import contextmanager
from typing import NamedTuple

import numpy as np
from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontInfo, QFontMetricsF, QPainter, QRegion
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QListView, QWidget

from tests.contrast import LARGE, TEXT, of_text, pixels_of, ratio

SHARE = 0.25
"""A colour that takes up so much of the room of a text is a ground of it; edges of letters mix, and
those of a narrow letter make up a fifth of its room."""
AS_INK = 1.15
"""What differs by no more than that from the ink is the ink."""


class Painted(NamedTuple):
    """A text that was painted: by what, where in it, and in which ink."""

    widget: QWidget
    text: str
    ink: QColor
    place: QRect
    font: QFont


@contextmanager
def texts_noted():
    """Note every text that is painted by Python's own hand."""
    noted, real = [], QPainter.drawText

    def draw(painter, *words):
        device = painter.device()
        text = next((each for each in words if isinstance(each, str)), "")
        if isinstance(device, QWidget) and text.strip():
            room = painter.transform().mapRect(_room(painter, words, text)).toAlignedRect()
            ink, font = QColor(painter.pen().color()), QFont(painter.font())
            noted.append(Painted(device, text, ink, room, font))
        return real(painter, *words)

    QPainter.drawText = draw
    try:
        yield noted
    finally:
        QPainter.drawText = real


def _room(painter, words, text):
    first = words[0]
    if isinstance(first, QRect | QRectF):
        flags = int(words[1]) if len(words) > 2 and not isinstance(words[1], str) else 0
        return painter.boundingRect(QRectF(first), flags, text)
    at = first if not isinstance(first, int | float) else QPoint(int(first), int(words[1]))
    return QFontMetricsF(painter.font()).boundingRect(text).translated(at.x(), at.y())


def pale_paint(window):
    """Return what of painted texts in a window is too pale: its kind, its words, its ratio."""
    with texts_noted() as noted:
        picture = pixels_of(window)
    found = []
    for each in noted:
        part = _part(picture, window, each.widget, each.place)
        if part is None or not each.widget.isEnabled() or each.ink.alpha() < 255:
            continue
        has = _least_ratio(part, each.ink)
        if has < _needed(each.font):
            found.append((type(each.widget).__name__, each.text[:40], round(has, 2)))
    return found


def pale_cells(window):
    """Return which cells of tables and lists are too pale: whose, their words, their ratio."""
    picture, found = pixels_of(window), []
    for view in window.findChildren(QAbstractItemView):
        if not view.isVisible() or not view.isEnabled() or isinstance(view, QHeaderView):
            continue
        for index in _seen_cells(view):
            place = view.visualRect(index)
            if index.data(Qt.ItemDataRole.DecorationRole) is not None:
                place.setLeft(place.left() + 24)
            part = _part(picture, window, view.viewport(), place.adjusted(2, 2, -2, -2))
            if part is None:
                continue
            font = index.data(Qt.ItemDataRole.FontRole) or view.font()
            has = of_text(part)
            if has < _needed(font):
                words = str(index.data(Qt.ItemDataRole.DisplayRole))[:40]
                found.append((type(view).__name__, words, round(has, 2)))
    return found


def _seen_cells(view):
    model = view.model()
    if model is None:
        return
    columns = 1 if isinstance(view, QListView) else model.columnCount()
    editor = view.focusWidget() if view.state() == QAbstractItemView.State.EditingState else None
    for row in range(min(model.rowCount(), 60)):
        for column in range(columns):
            index = model.index(row, column)
            is_on = bool(index.flags() & Qt.ItemFlag.ItemIsEnabled)
            if is_on and index.data(Qt.ItemDataRole.DisplayRole) and editor is None:
                yield index


def _needed(font):
    info = QFontInfo(font)
    is_large = info.pointSizeF() >= 18.0 or (info.bold() and info.pointSizeF() >= 14.0)
    return LARGE if is_large else TEXT


def _least_ratio(part, ink):
    """Return the least ratio of an ink to what takes up much of a place."""
    own = np.array([ink.red(), ink.green(), ink.blue()])
    colours, counts = np.unique(part.reshape(-1, 3), axis=0, return_counts=True)
    ratios = ratio(colours, own)
    grounds = (counts >= SHARE * counts.sum()) & (ratios > AS_INK)
    if not grounds.any():
        return float(ratios[counts.argmax()])
    return float(ratios[grounds].min())


def _part(picture, window, widget, place):
    """The pixels of a place of a widget; None where it is not seen whole."""
    seen = place.intersected(widget.rect())
    if seen.isEmpty() or seen.size() != place.size() or not widget.isVisible():
        return None
    for corner in (seen.topLeft(), seen.bottomRight(), seen.center()):
        on_top = window.childAt(widget.mapTo(window, corner))
        if on_top is not None and on_top is not widget and not on_top.isAncestorOf(widget):
            return None  # a card lies over it
    if not (QRegion(seen) - widget.visibleRegion()).isEmpty():
        return None
    at = widget.mapTo(window, seen.topLeft())
    return picture[at.y() : at.y() + seen.height(), at.x() : at.x() + seen.width()]
