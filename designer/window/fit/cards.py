"""The cards of Fit: a way, the recipe at its own volume, and what does not go here."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.predictions import MAIN
from designer.brewday.time_line import at_stage
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.page_frame import heading
from designer.window.parts.vessels_drawing import VesselsDrawing
from designer.workbench.forecast_text import SPANS

if TYPE_CHECKING:
    from designer.brewday.fit.answer import FitAnswer, LeftOver, Way

CARD_WIDTH = 330


def label(text: str, *, soft: bool = False, bold: bool = False) -> QLabel:
    """Return words that can be chosen and copied."""
    made = QLabel(text)
    made.setWordWrap(True)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if soft:
        made.setObjectName("soft")
    if bold:
        font = made.font()
        font.setBold(True)
        made.setFont(font)
    return made


class WayCard(QFrame):
    """One way: judgement, drawing, figures, steps, what to buy and what is left."""

    use_wanted = Signal(object)
    sheet_wanted = Signal(object)

    def __init__(self, way: Way, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.way = way
        self.setObjectName("card")
        self.setFixedWidth(CARD_WIDTH)
        self._name = tr(way.name)
        self.setAccessibleName(tr("Way {number}: {way}", number=way.rank, way=self._name))
        self._display = display
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(7)
        layout.addWidget(label(f"{way.rank}. {self._name}", bold=True))
        layout.addWidget(label(way.judgement.said(display.rounded)))
        layout.addWidget(self._drawing())
        layout.addWidget(self._figures())
        layout.addLayout(self._buttons())
        for title, texts in self._texts():
            if texts:
                layout.addWidget(heading(title))
                for text in texts:
                    layout.addWidget(label(text))
        layout.addStretch(1)

    def _drawing(self) -> VesselsDrawing:
        drawing = VesselsDrawing(self._display, brief=True)
        first = self.way.boils[0]
        drawing.show_day(first.recipe, first.day)
        drawing.setFixedHeight(150)
        return drawing

    def _figures(self) -> QWidget:
        box = QWidget()
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(1)
        boil, short = self.way.boils[0], self._display.short
        rows = [
            (
                tr(each.title),
                figure(each.key, self.way.forecasts[each.key].value, self._display),
                self._change(each.key),
            )
            for each in MAIN
        ]
        bitterness = partial(figure, "bitterness_ibu", display=self._display)
        when = str(at_stage(boil.fullest_at))
        top_up = short(Kind.VOLUME, boil.top_up_l)
        if boil.frozen_kg > 0.0:
            frozen = short(Kind.MASS, boil.frozen_kg)
            top_up = tr("{volume}, {frozen} of it frozen", volume=top_up, frozen=frozen)
        rows += [
            (
                tr("Beer"),
                short(Kind.VOLUME, self.way.batch_l),
                tr("of {volume}", volume=short(Kind.VOLUME, self.way.original_batch_l)),
            ),
            (tr("Start with"), short(Kind.VOLUME, boil.start_water_l), ""),
            (tr("Fullest"), short(Kind.VOLUME, boil.fullest_l), when),
            (
                tr("In the pot"),
                bitterness(self.way.pot_bitterness_ibu),
                tr("a pot carries {bitterness}", bitterness=bitterness(self.way.ceiling_ibu)),
            ),
            (tr("Top up"), top_up, ""),
            (tr("At the stove"), self._display.rounded(Kind.TIME, self.way.total_min), ""),
        ]
        if self.way.cost is not None:
            litre = self._display.value(Kind.MONEY, self.way.cost_per_litre or 0.0)
            rows.append(
                (
                    tr("Goes in for"),
                    self._display.value(Kind.MONEY, self.way.cost),
                    tr("{litre} a litre", litre=litre),
                )
            )
        for number, (name, value, beside) in enumerate(rows):
            labels = (label(name, soft=True), label(value, bold=True), label(beside, soft=True))
            for column, each in enumerate(labels):
                grid.addWidget(each, number, column, Qt.AlignmentFlag.AlignTop)
        grid.setColumnStretch(2, 1)
        return box

    def _change(self, key: str) -> str:
        found = self.way.forecasts[key]
        now = figure(key, found.value, self._display)
        before = figure(key, found.original, self._display)
        return tr("same") if now == before else tr("was {figure}", figure=before)

    def _buttons(self) -> QHBoxLayout:
        use = QPushButton(tr("Use this way"))
        use.setToolTip(tr("Change the recipe so, as one step that Undo takes back"))
        use.setAccessibleName(tr("Use way {number}, {way}", number=self.way.rank, way=self._name))
        use.clicked.connect(lambda _checked=False: self.use_wanted.emit(self.way))
        sheet = QPushButton(tr("Its sheet"))
        sheet.setToolTip(tr("Use this way and show the sheet to brew from"))
        sheet.setAccessibleName(
            tr("The sheet of way {number}, {way}", number=self.way.rank, way=self._name)
        )
        sheet.clicked.connect(lambda _checked=False: self.sheet_wanted.emit(self.way))
        row = QHBoxLayout()
        row.addWidget(use)
        row.addWidget(sheet)
        row.addStretch(1)
        return row

    def _texts(self) -> list[tuple[str, list[str]]]:
        show = self._display.rounded
        buy = [each.words.said(show) for each in self.way.must_buy]
        left = [f"{self._left(each)} {each.name}. {each.keep}" for each in self.way.left_over]
        return [
            (tr("How"), [each.said(show) for each in self.way.steps]),
            (tr("Buy or borrow"), buy),
            (tr("Left over"), left),
            (tr("Take care"), [each.said(show) for each in self.way.cautions]),
        ]

    def _left(self, left: LeftOver) -> str:
        kind, amount = left.figure
        if isinstance(amount, Quantity):
            return self._display.quantity(kind, amount)
        return self._display.rounded(kind, amount)


class OriginalCard(QFrame):
    """The recipe at its own volume, whatever the vessels."""

    def __init__(self, name: str, answer: FitAnswer, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self.setFixedWidth(230)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Maximum)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.addWidget(label(name or tr("The recipe"), bold=True))
        layout.addWidget(label(tr("as it would be if the vessels were large enough"), soft=True))
        for each in MAIN:
            found = answer.forecasts[each.key]
            low, high = (
                figure(each.key, end, display, unit=False) for end in (found.low, found.high)
            )
            value = figure(each.key, found.value, display)
            said = tr(
                "{forecast}: {value}  ({span})",
                forecast=tr(each.title),
                value=value,
                span=tr(SPANS[found.leans], low=low, high=high),
            )
            layout.addWidget(label(said))
        self.volume = display.short(Kind.VOLUME, float(answer.original.fermenter.batch_l))
        layout.addWidget(label(tr("{volume} of beer", volume=self.volume)))


class NoWaysCard(QFrame):
    """The ways that do not go here, and why."""

    def __init__(self, answer: FitAnswer, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self.setFixedWidth(CARD_WIDTH - 60)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.addWidget(heading(tr("Not here")))
        for each in answer.no_ways:
            layout.addWidget(label(tr(each.name), bold=True))
            layout.addWidget(label(each.reason.said(display.rounded), soft=True))
        layout.addStretch(1)
