"""Done, or not yet? Where the beer stands, its figures, and what to do when."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QGridLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.translation import tr
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import unbroken
from designer.window.parts.targets import TARGET_PX


@dataclass(frozen=True, slots=True)
class StandingShown:
    """Where the beer stands, in words.

    `figures` are name, figure and tip each; `dates` a day and what to do then; `advice` is what to
    mind, `stuck` what helps a beer that has stopped, told where it is asked for.
    """

    title: str = ""
    words: str = ""
    figures: tuple[tuple[str, str, str], ...] = ()
    dates: tuple[tuple[str, str], ...] = ()
    advice: tuple[str, ...] = ()
    stuck: tuple[str, ...] = ()
    is_done: bool = False


class StandingPanel(QFrame):
    """`calendar_wanted` asks for the dates as a file of a calendar."""

    calendar_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("card")
        self.shown = StandingShown()
        self._tells_stuck = False
        self.title = words_in(2.0, bold=True)
        self.words = words_in()
        self.figures = QWidget()
        self._figures = FlowLayout(self.figures, across=26, down=6)
        self.dates = QWidget()
        self._dates = QGridLayout(self.dates)
        self._dates.setContentsMargins(0, 0, 0, 0)
        self._dates.setHorizontalSpacing(14)
        self._dates.setColumnStretch(1, 1)
        self.advice = words_in()
        self.calendar_button = link(
            tr("Add to my calendar"), tr("Save these dates as a file that a calendar takes")
        )
        self.calendar_button.clicked.connect(lambda _checked=False: self.calendar_wanted.emit())
        self.stuck_button = link(tr("Stuck? What to do"), tr("What helps a beer that has stopped"))
        self.stuck_button.clicked.connect(lambda _checked=False: self._turn_advice())
        links = FlowLayout(across=12, down=0)
        links.addWidget(self.calendar_button)
        links.addWidget(self.stuck_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 10)
        layout.setSpacing(7)
        layout.addWidget(heading(tr("Done, or not yet?")))
        for each in (self.title, self.words, rule(), self.figures, rule(), self.dates):
            layout.addWidget(each)
        layout.addWidget(self.advice)
        layout.addStretch(1)
        layout.addLayout(links)
        self._rules = [each for each in self.findChildren(QFrame) if each.objectName() == "rule"]
        self._show()

    def show_standing(self, shown: StandingShown) -> None:
        """Show where the beer stands."""
        if shown == self.shown:
            return
        self._tells_stuck = self._tells_stuck and bool(shown.stuck)
        self.shown = shown
        self._show()

    def _show(self) -> None:
        shown = self.shown
        self.title.setText(shown.title)
        self.words.setText(unbroken(shown.words))
        self._show_figures()
        self._show_dates()
        self.figures.setVisible(bool(shown.figures))
        self.dates.setVisible(bool(shown.dates))
        self._rules[0].setVisible(bool(shown.figures))
        self._rules[1].setVisible(bool(shown.dates))
        self._show_advice()
        self.stuck_button.setVisible(bool(shown.stuck))
        self.calendar_button.setVisible(bool(shown.dates))

    def _show_figures(self) -> None:
        clear(self._figures)
        for name, figure, tip in self.shown.figures:
            cell = QWidget()
            column = QVBoxLayout(cell)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(0)
            told, value = QLabel(name), QLabel(figure)
            told.setObjectName("soft")
            value.setFont(larger(1.6, bold=True))
            value.setTextFormat(Qt.TextFormat.PlainText)
            cell.setToolTip(tip)
            value.setAccessibleName(tr("{name}: {figure}", name=name, figure=figure))
            value.setAccessibleDescription(tip)
            column.addWidget(told)
            column.addWidget(value)
            self._figures.addWidget(cell)
            cell.show()

    def _show_dates(self) -> None:
        clear(self._dates)
        for row, (day, what) in enumerate(self.shown.dates):
            when, does = QLabel(day), words_in()
            when.setObjectName("strong")
            does.setText(unbroken(what))
            does.setAccessibleName(tr("{day}: {what}", day=day, what=what))
            self._dates.addWidget(when, row, 0, Qt.AlignmentFlag.AlignTop)
            self._dates.addWidget(does, row, 1)
            when.show()
            does.show()

    def _show_advice(self) -> None:
        told = (*self.shown.advice, *(self.shown.stuck if self._tells_stuck else ()))
        self.advice.setText(unbroken("\n".join(told)))
        self.advice.setVisible(bool(told))

    def _turn_advice(self) -> None:
        self._tells_stuck = not self._tells_stuck
        self._show_advice()


def larger(times: float, *, bold: bool = False) -> QFont:
    """Return the window's type, so many times as large."""
    font = QFont()
    font.setPointSizeF(times * QApplication.font().pointSizeF())
    font.setBold(bold)
    return font


def words_in(times: float = 1.0, *, bold: bool = False) -> QLabel:
    """Return a label of plain words that wraps, in type so many times as large."""
    made = QLabel()
    made.setWordWrap(True)
    made.setTextFormat(Qt.TextFormat.PlainText)
    if times != 1.0 or bold:
        made.setFont(larger(times, bold=bold))
    return made


def rule() -> QFrame:
    """Return a thin line between parts of a panel."""
    line = QFrame()
    line.setObjectName("rule")
    line.setFixedHeight(1)
    return line


def link(text: str, tip: str) -> QPushButton:
    """Return a button that looks like a link, large enough for a thumb."""
    made = QPushButton(text)
    made.setObjectName("link")
    made.setToolTip(tip)
    made.setMinimumHeight(TARGET_PX)
    made.setAutoDefault(True)
    return made


def clear(layout: QGridLayout | FlowLayout) -> None:
    """Take all widgets out of a layout."""
    while layout.count():
        item = layout.takeAt(0)
        widget = item.widget() if item is not None else None
        if widget is not None:
            widget.hide()
            widget.deleteLater()
