"""Where the figures of the catalogue come from, and how good those sources are."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from designer.library.sources import STYLE_NUMBERS, Standing
from designer.translation import message, tr
from designer.window.about.words import words
from designer.window.parts.page_frame import scrolled
from designer.workbench.catalogue_words import counts, title_of

SOURCES = message(
    "Every row of the catalogue names its source: in the details of a line, in the tip of its "
    "name, and by “hobwort catalogue” on the command line. Rows of each part, by how good their "
    "source is:"
)


def sources_tab() -> QScrollArea:
    """Return what is told of sources; it scrolls where room is short."""
    content = QWidget()
    layout = QVBoxLayout(content)
    layout.setContentsMargins(12, 12, 12, 12)
    layout.setSpacing(10)
    layout.addWidget(words(tr(SOURCES)))
    layout.addLayout(_counted())
    layout.addWidget(words(STYLE_NUMBERS))
    layout.addStretch(1)
    area = scrolled(content)
    area.setObjectName("readByKeys")
    area.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # the arrow keys scroll it
    area.setAccessibleName(tr("Sources of the catalogue"))
    return area


def _counted() -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(18)
    for column, standing in enumerate(Standing, 1):
        grid.addWidget(_figure(tr(standing)), 0, column)
    for row, (part, of) in enumerate(counts().items(), 1):
        grid.addWidget(words(title_of(part)), row, 0)
        for column, many in enumerate(of.values(), 1):
            grid.addWidget(_figure(str(many)), row, column)
    grid.setColumnStretch(0, 1)
    return grid


def _figure(text: str) -> QLabel:
    label = QLabel(text)
    label.setAlignment(Qt.AlignmentFlag.AlignRight)
    return label
