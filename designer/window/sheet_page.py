"""Sheet: the pages exactly as they print."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from designer.window.open_recipe import OpenRecipe
from designer.window.questions import Questions
from designer.window.shown import Shown


class SheetPage(QWidget):
    failed = Signal(str)
    done = Signal(str)

    def __init__(self, opened: OpenRecipe, shown: Shown, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        QVBoxLayout(self).addWidget(QLabel("…"))

    def print_sheet(self) -> None: ...

    def write_pdf(self, questions: Questions) -> None: ...
