"""What is seen until the Recipe box has told what was open last: next to nothing, for a moment."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from designer.translation import tr

SAID_AFTER_MS = 1000
"""Nobody reads anything before: most often the recipe is there by then."""


class GoingOn(QWidget):
    """Says after a while what is waited for, with a way to the doors; nothing else moves."""

    def __init__(self, show_doors: Callable[[], None]) -> None:
        super().__init__()
        self.told = QLabel(tr("The Recipe box is being opened, to go on with what was open last."))
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        self.told.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.doors = QPushButton(tr("Begin something else"))
        self.doors.clicked.connect(show_doors)
        layout = QVBoxLayout(self)
        layout.addStretch(1)
        layout.addWidget(self.told)
        layout.addWidget(self.doors, 0, Qt.AlignmentFlag.AlignHCenter)
        layout.addStretch(2)
        for each in (self.told, self.doors):
            each.hide()
            QTimer.singleShot(SAID_AFTER_MS, each, each.show)
