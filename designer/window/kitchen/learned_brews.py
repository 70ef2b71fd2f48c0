"""The brews that a kitchen learned from: what each said, and whether it counts."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QGridLayout, QHBoxLayout, QLabel, QWidget

from designer.brewday.learning.figures import Figure
from designer.translation import tr
from designer.window.kitchen.figure_text import value_text
from designer.window.kitchen.learned_cells import empty, label, rule
from designer.window.parts.dates import day_text
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.learning.figure_words import figure_name
from designer.workbench.learning.taught import BrewRow

MOST_FIGURES = 4
"""So many have room beside each other; what else a brew said its tip tells."""


class LearnedBrews(QWidget):
    """A line for each brew. `count` is called with a brew and whether all it says is to count."""

    def __init__(self, display: DisplayFormat, count: Callable[[BrewRow, bool], None]) -> None:
        super().__init__()
        self._display, self._count = display, count
        self.boxes: dict[str, QCheckBox] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(16)
        self._grid.setVerticalSpacing(3)

    def show_brews(self, brews: tuple[BrewRow, ...], figures: tuple[Figure, ...]) -> None:
        """Show brews, with columns for the first of these figures."""
        focused = next((uid for uid, box in self.boxes.items() if box.hasFocus()), "")
        empty(self._grid)
        self.boxes = {}
        columns = figures[:MOST_FIGURES]
        heads = [tr("Brewed"), tr("Recipe"), *map(figure_name, columns), tr("Counts?")]
        for column, text in enumerate(heads):
            self._grid.addWidget(label(text, "soft"), 0, column)
            self._grid.setColumnStretch(column, 0)
        self._grid.setColumnStretch(len(heads) - 1, 1)
        for number, brew in enumerate(brews):
            self._add(2 * number + 1, brew, columns)
        if focused in self.boxes:
            self.boxes[focused].setFocus(Qt.FocusReason.OtherFocusReason)

    def _add(self, row: int, brew: BrewRow, columns: tuple[Figure, ...]) -> None:
        self._grid.addWidget(rule(), row, 0, 1, len(columns) + 3)
        name = label(_named(brew), "strong")
        name.setToolTip(self._all_it_said(brew))
        self._grid.addWidget(label(_day(brew)), row + 1, 0)
        self._grid.addWidget(name, row + 1, 1)
        for column, figure in enumerate(columns, 2):
            self._grid.addWidget(self._said(brew, figure), row + 1, column)
        self._grid.addWidget(self._counts(brew), row + 1, len(columns) + 2)

    def _said(self, brew: BrewRow, figure: Figure) -> QLabel:
        said = brew.of(figure)
        if said is None:
            return label(tr("not read"), "soft")
        value = value_text(figure, said.value, self._display)
        made = label(value, "" if said.counts else "soft")
        if not said.counts:
            font = made.font()
            font.setStrikeOut(True)
            made.setFont(font)
            made.setAccessibleName(tr("{value}, left out", value=value))
        return made

    def _all_it_said(self, brew: BrewRow) -> str:
        told = [
            tr(
                "{figure}: {value}",
                figure=figure_name(each.figure),
                value=value_text(each.figure, each.value, self._display),
            )
            for each in brew.seen
        ]
        return "\n".join(told)

    def _counts(self, brew: BrewRow) -> QWidget:
        """A box to tick; what is left out of a brew stands beside it, with what is asked of it."""
        box = self.boxes[brew.uid] = QCheckBox(self._counts_words(brew))
        left_out = [each for each in brew.seen if not each.counts]
        box.setEnabled(bool(brew.seen))
        box.setTristate(bool(left_out) and len(left_out) < len(brew.seen))
        state = Qt.CheckState.Checked
        if left_out:
            some = len(left_out) < len(brew.seen)
            state = Qt.CheckState.PartiallyChecked if some else Qt.CheckState.Unchecked
        box.setCheckState(state if brew.seen else Qt.CheckState.Unchecked)
        words = self._counts_words(brew)
        if brew.question is not None:
            words = tr("{words}. {question}", words=words, question=brew.question.text)
        box.setAccessibleName(
            tr("{brew}, {day}, counts: {words}", brew=_named(brew), day=_day(brew), words=words)
        )
        box.clicked.connect(partial(self._press, brew, bool(left_out)))
        if brew.question is None:
            return box
        both = QWidget()
        row = QHBoxLayout(both)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(box)
        row.addWidget(label(brew.question.text, "soft", wraps=True), 1)
        return both

    def _press(self, brew: BrewRow, counts: bool, _checked: bool = False) -> None:
        """Let all of a brew count of which something is left out; else none of it."""
        self._count(brew, counts)

    def _counts_words(self, brew: BrewRow) -> str:
        if not brew.seen:
            return tr("it says nothing yet")
        left_out = [each for each in brew.seen if not each.counts]
        if not left_out:
            return tr("yes")
        if len(left_out) == len(brew.seen):
            return tr("no")
        names = ", ".join(figure_name(each.figure) for each in left_out)
        return tr("{figures} left out", figures=names)


def _day(brew: BrewRow) -> str:
    try:
        return day_text(datetime.fromisoformat(brew.started))
    except ValueError:
        return brew.started[:10]


def _named(brew: BrewRow) -> str:
    name = brew.name[:60]
    if not brew.version:
        return name
    return tr("{name}, version {number}", name=name, number=brew.version)
