"""Behind the third door: one that is done, an example or a recipe file."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout

from designer.translation import tr
from designer.window.begin.door_form import DoorForm
from designer.window.parts.display_format import DisplayFormat


class LookDoor(DoorForm):
    """An example to look around in, or a file; both are opened by the window."""

    example_wanted = Signal()
    file_wanted = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__(
            display,
            tr("A porter for a 9 L pot and a 12 L bucket, to look around in and to change."),
            tr("Open the example"),
        )
        self.button.clicked.connect(self.example_wanted)
        self.file_button = QPushButton(tr("Open a recipe file…"))
        self.file_button.clicked.connect(self.file_wanted)
        layout = self.layout()
        assert isinstance(layout, QVBoxLayout)
        layout.insertWidget(layout.count() - 1, self.file_button)
