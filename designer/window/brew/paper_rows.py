"""The steps of the paper sheet in the form: what stands in their blanks, which were left out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QVBoxLayout, QWidget

from designer.sheet.stove import StoveStep
from designer.translation import tr
from designer.window.brew.paper_blank import Doubt, PaperBlank, Read
from designer.workbench.brew.paper_day import PaperReading

STEP, BLANKS, LEFT_OUT = 0, 1, 2
BLANKS_WIDTH = 330


class PaperRows(QWidget):
    """A row for each step; `changed` tells that something else stands in it."""

    changed = Signal()

    def __init__(self, steps: Sequence[StoveStep], read: Read, doubt: Doubt) -> None:
        super().__init__()
        self._steps = tuple(steps)
        self.blanks: list[tuple[StoveStep, PaperBlank]] = []
        self.left_out: dict[str, QCheckBox] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 8, 0)
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(8)
        grid.setColumnStretch(STEP, 1)
        for row, step in enumerate(self._steps):
            self._add(grid, row, step, read, doubt)

    def _add(self, grid: QGridLayout, row: int, step: StoveStep, read: Read, doubt: Doubt) -> None:
        told = step.title or step.name
        name = QLabel(tr("{mark}  {step}", mark=step.mark, step=told))
        name.setTextFormat(Qt.TextFormat.PlainText)
        name.setWordWrap(True)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(name, row, STEP, top)
        if step.blanks:
            within = QWidget()
            within.setFixedWidth(BLANKS_WIDTH)
            column = QVBoxLayout(within)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(4)
            for each in step.blanks:
                blank = PaperBlank(each, read, doubt)
                blank.changed.connect(self.changed)
                self.blanks.append((step, blank))
                column.addWidget(blank)
            grid.addWidget(within, row, BLANKS, top)
        box = QCheckBox(tr("left out"))
        box.setAccessibleName(tr("{step}: left out", step=told))
        self.left_out[step.key] = box
        box.toggled.connect(lambda _: self.changed.emit())
        grid.addWidget(box, row, LEFT_OUT, top)

    @property
    def is_empty(self) -> bool:
        """Whether nothing was typed and nothing left out."""
        typed = any(blank.typed for _, blank in self.blanks)
        return not typed and not any(each.isChecked() for each in self.left_out.values())

    def readings(self) -> tuple[PaperReading, ...]:
        """Return what stands in the blanks."""
        return tuple(
            PaperReading(step.key, blank.reading, blank.typed)
            for step, blank in self.blanks
            if blank.typed and blank.reading is not None
        )

    def keys_left_out(self) -> frozenset[str]:
        """Return the keys of the steps that were left out."""
        return frozenset(key for key, each in self.left_out.items() if each.isChecked())

    def look(self) -> None:
        """Read all that is typed."""
        for _, blank in self.blanks:
            blank.look()

    def look_again(self) -> None:
        """More is known of the day now."""
        for _, blank in self.blanks:
            blank.look_again()

    def first_open(self) -> PaperBlank | None:
        """Return the first blank that is not taken; None if all are."""
        return next((blank for _, blank in self.blanks if blank.is_open), None)
