"""A switch between two ways to say the same: % or OG, words or IBU."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from designer.translation import tr
from designer.window.parts.targets import WordButton


class Switch(QWidget):
    """Some short words beside each other, one of them chosen: by a press or the arrow keys.

    `chosen` carries its key, by whomever it was chosen.
    """

    chosen = Signal(str)

    def __init__(self, label: str, choices: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self._keys = [key for key, _ in choices]
        self._group = QButtonGroup(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for number, (_, words) in enumerate(choices):
            button = WordButton(words)
            button.setObjectName("switch")
            button.setCheckable(True)
            button.setAccessibleName(tr("{label} in {unit}", label=label, unit=words))
            self._group.addButton(button, number)
            row.addWidget(button)
        self._group.button(0).setChecked(True)
        self._group.idToggled.connect(self._tell)

    def key(self) -> str:
        """Return the key of what is chosen."""
        return self._keys[self._group.checkedId()]

    def choose(self, key: str) -> None:
        """Choose one."""
        self.button(key).setChecked(True)

    def button(self, key: str) -> QPushButton:
        """Return the button of a choice."""
        found = self._group.button(self._keys.index(key))
        assert isinstance(found, QPushButton)
        return found

    def buttons(self) -> list[QPushButton]:
        """Return all of them, in order."""
        return [self.button(key) for key in self._keys]

    def _tell(self, number: int, checked: bool) -> None:
        if checked:
            self.chosen.emit(self._keys[number])
