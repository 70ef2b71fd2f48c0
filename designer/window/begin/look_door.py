"""Behind the third door: one that is done, an example of a harbour kitchen or a recipe file."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout

from designer.translation import tr
from designer.window.begin.door import Door
from designer.window.begin.door_card import CardButton
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.examples import EXAMPLES, example

ACROSS = 2


class LookDoor(Door):
    """Examples to look around in, or a file; all are opened by the window."""

    example_wanted = Signal(str)
    file_wanted = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        self.file_button = QPushButton(tr("Open a recipe file…"))
        super().__init__(display, self.file_button)
        self.setObjectName("card")
        self.examples: dict[str, CardButton] = {}
        told = QLabel(tr("Look around in one. Change it and it is yours; the example stays."))
        told.setWordWrap(True)
        told.setObjectName("soft")
        grid = QGridLayout()
        grid.setSpacing(12)
        for place, (name, about) in enumerate(EXAMPLES.items()):
            card = CardButton(example(name).name, tr(about))
            card.clicked.connect(partial(self._want, name))
            self.examples[name] = card
            grid.addWidget(card, place // ACROSS, place % ACROSS)
        self.file_button.clicked.connect(self.file_wanted)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(20, 16, 20, 18)
        layout.setSpacing(12)
        layout.addWidget(told)
        layout.addLayout(grid)
        layout.addWidget(self.file_button)
        layout.addStretch(1)

    def _want(self, name: str) -> None:
        self.example_wanted.emit(name)

    def order_tabs(self) -> None:
        last: QPushButton | None = None
        for each in (*self.examples.values(), self.file_button):
            if last is not None:
                self.setTabOrder(last, each)
            last = each

    def take_focus(self) -> None:
        next(iter(self.examples.values())).setFocus()
