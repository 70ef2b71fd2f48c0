"""Pages of a sheet as pictures, and what must not be on them."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter

from designer.paper.pages import lay_out
from designer.paper.typography import UNITS_PER_INCH


def page_images(sheet, paper, dots_per_inch):
    """Yield each page as a picture on white."""
    pages = lay_out(sheet, paper)
    scale = dots_per_inch / UNITS_PER_INCH
    for number in range(len(pages)):
        size = round(pages.width * scale), round(pages.height * scale)
        image = QImage(*size, QImage.Format.Format_RGB32)
        image.fill(Qt.GlobalColor.white)
        painter = QPainter(image)
        pages.paint_into(painter, number, QRectF(image.rect()))
        painter.end()
        yield image


def assert_within_margins(image):
    """Nothing of a page at 72 dots an inch runs into its margins."""
    grey = image.convertToFormat(QImage.Format.Format_Grayscale8)
    inked = np.frombuffer(grey.constBits(), np.uint8).reshape(grey.height(), -1) < 250
    columns = np.flatnonzero(inked[:, : grey.width()].any(axis=0))
    rows = np.flatnonzero(inked[:, : grey.width()].any(axis=1))
    assert columns[0] >= 29
    assert columns[-1] <= grey.width() - 30
    assert rows[0] >= 24
    assert rows[-1] <= grey.height() - 15
