"""The brews that a kitchen learned from: what each said, and whether it counts.

A press on a heading sorts them by it, the next one the other way; at first the latest are on top.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QWidget,
)

from designer.brewday.learning.figures import Figure
from designer.recipe.same_name import folded
from designer.translation import tr
from designer.window.kitchen.figure_text import value_text
from designer.window.kitchen.learned_cells import empty, label, rule
from designer.window.parts.buttons import button
from designer.window.parts.dates import day_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.drawn_icons import drawn_icon
from designer.window.parts.ordering import Order
from designer.workbench.learning.figure_words import figure_name
from designer.workbench.learning.taught import BrewRow

MOST_FIGURES = 4
"""So many have room beside each other; what else a brew said its tip tells."""
KEPT_AS, LATEST_FIRST = "learned_brews", Order("started", down=True)


class CountsBox(QCheckBox):
    """A box that is pressed anywhere on it, its ring included."""

    def hitButton(self, place: QPoint) -> bool:
        return self.rect().contains(place)


class LearnedBrews(QWidget):
    """A line for each brew. `count` is called with a brew and whether all it says is to count."""

    def __init__(self, display: DisplayFormat, count: Callable[[BrewRow, bool], None]) -> None:
        super().__init__()
        self._display, self._count = display, count
        self.boxes: dict[str, QCheckBox] = {}
        self.heads: dict[str, QPushButton] = {}
        """The headings that sort, by what they sort by."""
        self._shown: tuple[tuple[BrewRow, ...], tuple[Figure, ...]] = ((), ())
        kept = display.settings.kept_order(KEPT_AS)
        self.order = Order(*kept) if kept is not None else LATEST_FIRST
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(16)
        self._grid.setVerticalSpacing(3)

    def show_brews(self, brews: tuple[BrewRow, ...], figures: tuple[Figure, ...]) -> None:
        """Show brews, with columns for the first of these figures."""
        self._shown = (brews, figures)
        before = {**self.boxes, **self.heads}
        focused = next((key for key, each in before.items() if each.hasFocus()), "")
        empty(self._grid)
        self.boxes, self.heads = {}, {}
        columns = figures[:MOST_FIGURES]
        heads = [("started", tr("Brewed")), ("name", tr("Recipe"))]
        heads += [(str(each), figure_name(each)) for each in columns]
        for column, (key, text) in enumerate(heads):
            self._grid.addWidget(self._head(key, text), 0, column)
            self._grid.setColumnStretch(column, 0)
        self._grid.addWidget(label(tr("Counts?"), "soft"), 0, len(heads))
        self._grid.setColumnStretch(len(heads), 1)
        for number, brew in enumerate(self._in_order(brews, columns)):
            self._add(2 * number + 1, brew, columns)
        now: dict[str, QWidget] = {**self.boxes, **self.heads}
        if focused in now:
            now[focused].setFocus(Qt.FocusReason.OtherFocusReason)

    def _head(self, key: str, text: str) -> QPushButton:
        """A heading that sorts by its column; that of the order says which way."""
        told = tr("Sort by this column")
        if key == self.order.key:
            told = tr("Sorted downwards") if self.order.down else tr("Sorted upwards")
        made = self.heads[key] = button(text, told, partial(self.sort, key))
        made.setObjectName("quiet")
        if key == self.order.key:
            made.setIcon(drawn_icon("action-move-down" if self.order.down else "action-move-up"))
        return made

    def sort(self, key: str) -> None:
        """Sort by a column, the latest or largest first; by the same again, the other way."""
        down = not self.order.down if key == self.order.key else key != "name"
        self.order = Order(key, down)
        self._display.settings.keep_order(KEPT_AS, self.order)
        self.show_brews(*self._shown)

    def _in_order(
        self, brews: tuple[BrewRow, ...], figures: tuple[Figure, ...]
    ) -> tuple[BrewRow, ...]:
        """Return brews in their order; those that say nothing of the figure come last."""
        key, down = self.order
        if key == "name":
            return tuple(sorted(brews, key=lambda each: folded(each.name), reverse=down))
        figure = next((each for each in figures if each == key), None)
        if figure is None:
            return tuple(sorted(brews, key=lambda each: each.started, reverse=down))
        said = {each.uid: seen.value for each in brews if (seen := each.of(figure)) is not None}
        with_one = [each for each in brews if each.uid in said]
        with_one.sort(key=lambda each: said[each.uid], reverse=down)
        return (*with_one, *(each for each in brews if each.uid not in said))

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
        box = self.boxes[brew.uid] = CountsBox(self._counts_words(brew))
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
