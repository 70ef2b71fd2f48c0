"""What is known of each figure: at the start, how it narrowed, now, and what to do with it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QLayout, QPushButton, QWidget

from designer.brewday.learning.figures import Figure, Learned
from designer.brewday.learning.priors import PRIORS
from designer.translation import named, tr, trn
from designer.window.kitchen.figure_text import band_text, value_text
from designer.window.kitchen.learned_cells import empty, label, rule
from designer.window.kitchen.narrowing import Narrowing
from designer.window.parts.dates import day_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.targets import WordButton
from designer.workbench.learning.figure_places import figure_text
from designer.workbench.learning.figure_words import WORDS, figure_name
from designer.workbench.learning.taken import TakenFigure
from designer.workbench.learning.taught import Taught

OF_POTS = (Figure.EVAPORATION, Figure.LEFT_IN_POT, Figure.COOLING)
"""Figures of one pot; others are those of whatever was brewed in it."""


@dataclass(frozen=True, slots=True)
class Acts:
    """What the buttons of a row do."""

    take: Callable[[Learned], None]
    keep: Callable[[Learned], None]
    give_back: Callable[[Learned], None]


def is_offered(taught: Taught, learned: Learned) -> bool:
    """Whether a figure is to be taken or kept: enough is known, and nothing was said of it yet."""
    figure, subject = learned.figure, learned.subject
    if not learned.enough or taught.kept_for(figure, subject) is not None:
        return False
    taken = taught.taken_for(figure, subject)
    return taken is None or taken.value != figure_text(figure, learned.known)


def subject_words(learned: Learned) -> str:
    """Return of what a figure is; of those of the pot that is chosen, what it means."""
    of_others = "" if learned.figure in OF_POTS else learned.subject
    return named(of_others) or tr(WORDS[learned.figure].means)


class LearnedRows(QWidget):
    """A row for each figure."""

    def __init__(self, display: DisplayFormat, acts: Acts) -> None:
        super().__init__()
        self._display, self._acts = display, acts
        self._brews: tuple[str, ...] = ()
        self.buttons: dict[tuple[Figure, str], list[QPushButton]] = {}
        self._offers: list[tuple[QWidget, QLayout]] = []
        self._is_narrow = False
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(14)
        self._grid.setVerticalSpacing(2)
        for column, stretch in enumerate((3, 2, 5, 2, 4)):
            self._grid.setColumnStretch(column, stretch)

    def show_figures(
        self, taught: Taught, figures: tuple[Learned, ...], brews: tuple[str, ...]
    ) -> None:
        """Show these figures, each with what is taken of it; `brews` count below the pictures."""
        focused = self._focused()
        self._brews = brews
        empty(self._grid)
        self.buttons, self._offers = {}, []
        heads = (
            tr("This pot, this yeast"),
            tr("At the start"),
            tr("How it narrowed, brew by brew"),
            tr("Now known"),
            "",
        )
        for column, text in enumerate(heads):
            self._grid.addWidget(_soft(text), 0, column)
        for number, learned in enumerate(figures):
            self._add(2 * number + 1, taught, learned)
        self._share_room()
        if focused in self.buttons:
            self.buttons[focused][0].setFocus(Qt.FocusReason.OtherFocusReason)

    def be_narrow(self, narrow: bool) -> None:
        """Have what is offered of a figure below each other, or in one line."""
        self._is_narrow = narrow
        self._share_room()

    def _share_room(self) -> None:
        for box, line in self._offers:
            box.setMinimumWidth(0 if self._is_narrow else line.sizeHint().width())

    def _focused(self) -> tuple[Figure, str] | None:
        """Return the figure one of whose buttons has the keyboard."""
        return next(
            (k for k, many in self.buttons.items() if any(e.hasFocus() for e in many)), None
        )

    def _add(self, row: int, taught: Taught, learned: Learned) -> None:
        self._grid.addWidget(rule(), row, 0, 1, 5)
        name = figure_name(learned.figure)
        cells = (
            _two(name, subject_words(learned)),
            _two(*self._known(learned, at_start=True), bold=False, wraps=False),
            Narrowing(learned, self._display, self._brews),
            self._now(learned),
            self._what_to_do(taught, learned),
        )
        for column, cell in enumerate(cells):
            self._grid.addWidget(cell, row + 1, column, Qt.AlignmentFlag.AlignVCenter)

    def _known(self, learned: Learned, *, at_start: bool = False) -> tuple[str, str]:
        known = learned.start if at_start else learned.known
        value = value_text(learned.figure, known.value, self._display)
        return value, band_text(learned, known, self._display)

    def _now(self, learned: Learned) -> QWidget:
        if not learned.enough:
            return _soft(tr("not yet"))
        value, band = self._known(learned)
        if learned.disagree:
            band = tr("{band}; your brews differ", band=band)
        return _two(value, band, large=True, wraps=learned.disagree)

    def _what_to_do(self, taught: Taught, learned: Learned) -> QWidget:
        if not learned.enough:
            return _soft(_too_few(learned))
        box = QWidget()
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(2)
        taken = taught.taken_for(learned.figure, learned.subject)
        kept = taught.kept_for(learned.figure, learned.subject)
        row = 0
        if taken is not None:
            told = QLabel(tr("✓ taken on {day}", day=_day(taken)))
            told.setObjectName("readAs")
            grid.addWidget(told, row, 0)
            grid.addWidget(self._back(learned, taken), row + 1, 0, Qt.AlignmentFlag.AlignLeft)
            row += 2
        elif kept is not None:
            grid.addWidget(_soft(tr("you keep your own")), row, 0)
            again = self._button(learned, tr("offer it again"), self._acts.give_back, "link")
            grid.addWidget(again, row + 1, 0, Qt.AlignmentFlag.AlignLeft)
            row += 2
        if is_offered(taught, learned):
            line = self._offer(learned, is_taken=taken is not None)
            grid.addLayout(line, row, 0)
            self._offers.append((box, line))
        return box

    def _offer(self, learned: Learned, *, is_taken: bool) -> QLayout:
        """Two buttons, one below the other in a narrow window."""
        line = FlowLayout(across=6, down=4, likes_one_line=True)
        now, _ = self._known(learned)
        line.addWidget(
            self._button(learned, tr("Take {figure}", figure=now), self._acts.take, "primary")
        )
        if not is_taken:
            start, _ = self._known(learned, at_start=True)
            line.addWidget(
                self._button(learned, tr("Keep {figure}", figure=start), self._acts.keep, "")
            )
        return line

    def _back(self, learned: Learned, taken: TakenFigure) -> QPushButton:
        before = taken.before.partition("±")[0].strip()
        if not before:
            before, _ = self._known(learned, at_start=True)
        text = tr("back to {figure}", figure=before)
        return self._button(learned, text, self._acts.give_back, "link")

    def _button(
        self, learned: Learned, text: str, act: Callable[[Learned], None], look: str
    ) -> QPushButton:
        made = WordButton(text)
        made.setObjectName(look)
        name = figure_name(learned.figure)
        of = tr("{name} of {subject}", name=name, subject=named(learned.subject) or tr("your own"))
        made.setAccessibleName(tr("{what}: {button}", what=of, button=text))
        made.clicked.connect(lambda _checked=False: act(learned))
        self.buttons.setdefault((learned.figure, learned.subject), []).append(made)
        return made


def _too_few(learned: Learned) -> str:
    """Say how many readings there are, and how many it takes."""
    there = sum(each.counts for each in learned.steps)
    more = max(PRIORS[learned.figure].enough - there, 1)
    if not there:
        return trn("no reading yet: {number} first", "no reading yet: {number} first", more)
    told = trn("{number} reading", "{number} readings", there)
    return trn("{told}: {number} more first", "{told}: {number} more first", more, told=told)


def _day(taken: TakenFigure) -> str:
    try:
        return day_text(datetime.fromisoformat(taken.at))
    except ValueError:
        return taken.at[:10]


def _two(
    first: str, second: str, *, bold: bool = True, large: bool = False, wraps: bool = True
) -> QWidget:
    """Two lines, one below the other."""
    box = QWidget()
    grid = QGridLayout(box)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setVerticalSpacing(0)
    upper = QLabel(first)
    upper.setTextFormat(Qt.TextFormat.PlainText)
    if bold:
        upper.setObjectName("strong")
    if large:
        font = upper.font()
        font.setPointSizeF(1.25 * font.pointSizeF())
        upper.setFont(font)
    grid.addWidget(upper, 0, 0)
    grid.addWidget(label(second, "soft", wraps=wraps), 1, 0)
    return box


def _soft(text: str) -> QLabel:
    return label(text, "soft", wraps=True)
