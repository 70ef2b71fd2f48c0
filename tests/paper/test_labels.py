"""Labels on paper: so many a page, cut marks, nothing outside its label, however long the words."""

import io
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPrintSupport import QPrinter

from designer.paper.labels import _INSIDE as INSIDE
from designer.paper.labels import (
    LABEL_HEIGHT,
    LABEL_WIDTH,
    labels_pdf,
    lay_out_labels,
    paint_label,
    print_labels,
)
from designer.paper.labels import _Set as SetLabel
from designer.sheet.labels import LabelWords, fitting, labels_for
from designer.sheet.language import language
from designer.units import ShownUnits

WORDS = LabelWords("Harbour Lamp Porter", "4.4 % vol", "29 IBU", "bottled 11 April 2026")


def labels(words, count=1):
    return labels_for(words, [(0.5, count)], ShownUnits.METRIC, language("en"))


@pytest.mark.parametrize(("count", "pages"), [(1, 1), (12, 1), (13, 2), (400, 34)])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_twelve_labels_stand_on_a_page(qapp, count, pages, paper):
    content, told = labels_pdf(labels(WORDS, count), paper, "Labels")
    reader = PdfReader(io.BytesIO(content))
    assert told == len(reader.pages) == pages
    text = re.sub(r"\s+", " ", reader.pages[0].extract_text())
    assert text.count("500 mL") == min(count, 12)
    assert "Harbour Lamp Porter" in text


def inked(image):
    grey = image.convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(grey.constBits(), np.uint8).reshape(grey.height(), -1)
    return rows[:, : grey.width()] < 250


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_marks_to_cut_along_stand_outside_the_labels_and_on_the_paper(qapp, paper):
    pages = lay_out_labels(labels(WORDS, 2), paper)
    image = QImage(round(pages.width / 10), round(pages.height / 10), QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    pages.paint_into(painter, 0, QRectF(image.rect()))
    painter.end()
    found = inked(image)
    columns, rows = found.any(axis=0), found.any(axis=1)
    assert not columns[:15].any()  # printers reach no further than 5 mm
    assert not columns[-15:].any()
    assert not rows[:15].any()
    left = round((pages.width - 3 * LABEL_WIDTH) / 20)
    top = round((pages.height - 4 * LABEL_HEIGHT) / 20)
    beside = found[:, left - 10 : left - 4].any(axis=1)
    assert beside[top - 2 : top + 3].any()  # at the upper edge, and at the lower
    assert beside[top + round(LABEL_HEIGHT / 10) - 2 : top + round(LABEL_HEIGHT / 10) + 3].any()
    assert beside.sum() <= 6
    assert not found[top + round(LABEL_HEIGHT / 10) + 16 :].any()  # two labels, and no more


@settings(max_examples=60, deadline=None)
@given(st.builds(LabelWords, *([st.text(max_size=400)] * 7)))
def test_whatever_is_typed_stays_inside_the_frame(qapp, words):
    laid = SetLabel(labels(fitting(words))[0])
    assert laid.height <= LABEL_HEIGHT - 2 * INSIDE + 1.0
    assert all(each.natural_width <= LABEL_WIDTH - 2 * INSIDE + 1.0 for each in laid.words)


def test_a_short_name_is_larger_than_a_long_one(qapp):
    short, long = (
        SetLabel(labels(LabelWords(name, "4.4 % vol"))[0]).words[0]
        for name in ("Ale", "The Harbour Master's Particularly Old and Rare Winter Warmer")
    )
    assert short.height > long.height / 3


def test_the_preview_is_the_label_that_is_printed(qapp):
    image = QImage(240, 256, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint_label(painter, labels(WORDS)[0], QRectF(image.rect()))
    painter.end()
    assert inked(image).mean() > 0.8


def test_labels_are_printed_as_the_dialog_asks(qapp, tmp_path):
    printer = QPrinter()
    printer.setOutputFileName(str(tmp_path / "labels.pdf"))
    printer.setFromTo(2, 2)
    assert print_labels(labels(WORDS, 30), printer, "Labels") == 1
    assert len(PdfReader(tmp_path / "labels.pdf").pages) == 1
