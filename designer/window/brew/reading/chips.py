"""One choice of a few, each a chip that a wet thumb hits; arrow keys go from one to the next."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFontInfo, QFontMetricsF
from PySide6.QtWidgets import QButtonGroup, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.translation import tr
from designer.window.parts.flow import FlowLayout
from designer.window.parts.sized_text import sized
from designer.window.parts.targets import TARGET_PX


class Chip(QPushButton):
    """One of the choices."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.setObjectName("largeChip")
        self.setCheckable(True)
        self.setMinimumHeight(TARGET_PX)

    def sizeHint(self) -> QSize:
        # Of the bold type in which it is written once it is pressed: no chip moves for that.
        bold = sized(self.font(), QFontInfo(self.font()).pixelSize(), bold=True)
        more = QFontMetricsF(bold).horizontalAdvance(self.text()) - QFontMetricsF(
            self.font()
        ).horizontalAdvance(self.text())
        found = super().sizeHint()
        found.setWidth(found.width() + max(ceil(more), 0))
        return found.expandedTo(QSize(TARGET_PX, TARGET_PX))


class ChipRow(QWidget):
    """A question with its chips; `chosen` is the value of the one that is pressed.

    `choices` have messages, or words that are said already where `said`.
    `changed` tells that the brewer chose another.
    """

    changed = Signal()

    def __init__(
        self, question: str, choices: Sequence[tuple[Any, str]], *, said: bool = False
    ) -> None:
        super().__init__()
        self.question = question
        self._values = [value for value, _ in choices]
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._label = QLabel(question)
        self._label.setObjectName("soft")
        flow = FlowLayout(across=6, down=5)
        self.chips: dict[Any, Chip] = {}
        for number, (value, text) in enumerate(choices):
            choice = text if said else tr(text)
            chip = self.chips[value] = Chip(choice)
            chip.setAccessibleName(tr("{question} {choice}", question=question, choice=choice))
            self._group.addButton(chip, number)
            flow.addWidget(chip)
        self._group.idClicked.connect(lambda _: self._settle(told=True))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(self._label)
        layout.addLayout(flow)
        self.setAccessibleName(question)
        self.choose(self._values[0])

    @property
    def chosen(self) -> Any:
        """The value of the chip that is pressed."""
        return self._values[self._group.checkedId()]

    def choose(self, value: Any) -> None:
        """Press a chip; nobody is told."""
        self.chips[value].setChecked(True)
        self._settle(told=False)

    def _settle(self, *, told: bool) -> None:
        """Let the Tab key come to the chip that is pressed; the arrows go to the others."""
        for value, chip in self.chips.items():
            is_it = value == self.chosen
            policy = Qt.FocusPolicy.StrongFocus if is_it else Qt.FocusPolicy.ClickFocus
            chip.setFocusPolicy(policy)
        if told:
            self.changed.emit()
