"""About the program: its version, its licence, and how good the sources of its catalogue are."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from designer import __version__
from designer.library.sources import STYLE_NUMBERS, Standing
from designer.translation import message, tr
from designer.workbench.catalogue_words import counts, title_of

WHAT_IT_IS = message(
    "Hobwort {version} plans a brew day on a kitchen stove, from malt extract and steeping grain. "
    "Apache License 2.0."
)
SOURCES = message(
    "Every row of the catalogue names its source: in the details of a line, in the tip of its "
    "name, and by “hobwort catalogue” on the command line. Rows of each part, by how good their "
    "source is:"
)
TYPEFACE = message(
    "Set in Hobwort Sans, made of the letters of Noto Sans (Google), under the SIL Open Font "
    "License 1.1."
)
WIDTH = 560


class AboutHobwort(QDialog):
    """What a brewer may ask of the program itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("About Hobwort"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(10)
        layout.addWidget(_words(tr(WHAT_IT_IS, version=__version__)))
        layout.addWidget(_words(tr(SOURCES)))
        layout.addLayout(_counted())
        self.styles = _words(STYLE_NUMBERS)
        layout.addWidget(self.styles)
        layout.addWidget(_words(tr(TYPEFACE)))
        close = QPushButton(tr("Close"))
        close.clicked.connect(self.accept)
        close.setDefault(True)
        layout.addWidget(close, alignment=Qt.AlignmentFlag.AlignRight)
        self.resize(WIDTH, self.sizeHint().height())


def _counted() -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(18)
    for column, standing in enumerate(Standing, 1):
        grid.addWidget(_figure(tr(standing)), 0, column)
    for row, (part, of) in enumerate(counts().items(), 1):
        grid.addWidget(QLabel(title_of(part)), row, 0)
        for column, many in enumerate(of.values(), 1):
            grid.addWidget(_figure(str(many)), row, column)
    return grid


def _figure(text: str) -> QLabel:
    label = QLabel(text)
    label.setAlignment(Qt.AlignmentFlag.AlignRight)
    return label


def _words(text: str) -> QLabel:
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
