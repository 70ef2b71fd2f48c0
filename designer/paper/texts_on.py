"""Where on its pages each text of a sheet stands, for whoever looks for one."""

from __future__ import annotations

from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPicture

from designer.paper.pages import Pages
from designer.paper.typography import told_to


class PlacedText(NamedTuple):
    """A paragraph, the page it is on, counted from 0, and its place in 1/720 inch."""

    text: str
    page: int
    place: QRectF


def texts_on(pages: Pages) -> list[PlacedText]:
    """Return all texts of the pages in the order in which they are drawn."""
    found: list[PlacedText] = []
    nowhere = QPicture()
    painter = QPainter(nowhere)
    for number in range(len(pages)):
        with told_to(partial(_note, found, number)):
            pages.paint(painter, number)
    painter.end()
    return found


def _note(found: list[PlacedText], page: int, text: str, place: QRectF) -> None:
    found.append(PlacedText(text, page, place))
