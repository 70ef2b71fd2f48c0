"""The chosen way whole: vessels, weights, steps, what is left over, cost and time."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
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
from designer.recipe.quantity import Kind, Quantity
from designer.translation import named, tr
from designer.window.fit.side_by_side import distinct
from designer.window.fit.way_vessels import vessels_of
from designer.window.fit.weighing_out import HARD_SPACE, weighing_out
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import inks_for
from designer.window.parts.page_frame import heading
from designer.window.parts.vessels_drawing import ACROSS, VesselsDrawing
from designer.workbench.forecast_text import SPANS

if TYPE_CHECKING:
    from designer.brewday.fit.answer import FitAnswer, LeftOver, ToBuy, Way
    from designer.recipe.document import Recipe

DRAWN_HIGH = 150
WIDE, HALF = 1000, 560
"""From such a width on four columns stand beside each other, or two."""


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


class ChosenWay(QFrame):
    """One way below the table; what it is made of is put together anew for each."""

    use_wanted = Signal()
    sheet_wanted = Signal()

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("chosenWay")
        self._display = display
        self.way: Way | None = None
        self._columns: list[QWidget] = []
        self._across = 0
        self.title = label("", bold=True)
        font = self.title.font()
        font.setPointSizeF(1.25 * font.pointSizeF())
        self.title.setFont(font)
        self.title.setWordWrap(False)
        self.gist = label("", soft=True)
        self.use_button = QPushButton(tr("Use this way"))
        self.use_button.setObjectName("primary")
        self.use_button.setToolTip(
            tr("Brew it this way; the recipe stays as it is written, and Undo goes back")
        )
        self.use_button.clicked.connect(lambda _checked=False: self.use_wanted.emit())
        self.sheet_button = QPushButton(tr("Show brew sheet"))
        self.sheet_button.setToolTip(tr("Use this way and show the sheet to brew from"))
        self.sheet_button.clicked.connect(lambda _checked=False: self.sheet_wanted.emit())
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self.title)
        top.addWidget(self.gist, 1)
        top.addWidget(self.use_button)
        top.addWidget(self.sheet_button)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(22)
        self._grid.setVerticalSpacing(12)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 10, 14, 12)
        layout.addLayout(top)
        layout.addLayout(self._grid)
        layout.addStretch(1)

    def show_way(self, way: Way | None, recipe: Recipe, answer: FitAnswer) -> None:
        """Show another way, or none."""
        self.way = way
        for each in self._columns:
            self._grid.removeWidget(each)
            each.hide()
            each.deleteLater()
        self._columns, self._across = [], 0
        self.setVisible(way is not None)
        if way is None:
            return
        name = tr(way.name)
        self.title.setText(name)
        self.gist.setText(way.judgement.said(self._show))
        self.use_button.setAccessibleName(tr("Use this way: {way}", way=name))
        self.sheet_button.setAccessibleName(tr("The sheet of this way: {way}", way=name))
        self.setAccessibleName(tr("Way {number}: {way}", number=way.rank, way=name))
        self._columns = [
            self._vessels(way),
            self._weighed(way, recipe, float(answer.original.fermenter.liquid_top_up_l)),
            self._how(way),
            self._rest(way, float(answer.original.total_min)),
        ]
        self._arrange()

    def allow_use(self, allowed: bool) -> None:
        """Let the way be used or not: a way of other sizes than those that are typed is not."""
        self.use_button.setEnabled(allowed)
        self.sheet_button.setEnabled(allowed)

    def _show(self, kind: Kind, value: float) -> str:
        """Return a figure that stays on one line with its unit."""
        return self._display.rounded(kind, value).replace(" ", HARD_SPACE)

    # columns

    def _vessels(self, way: Way) -> QWidget:
        box, layout = _column(tr("Pot and fermenter"))
        drawing = VesselsDrawing(self._display, brief=True)
        drawing.show_vessels(lambda inks: vessels_of(way, self._display, inks))
        rows = -(-len(vessels_of(way, self._display, inks_for(self.palette()))) // ACROSS)
        drawing.setFixedHeight(rows * DRAWN_HIGH)
        layout.addWidget(drawing)
        layout.addStretch(1)
        return box

    def _weighed(self, way: Way, recipe: Recipe, top_up_l: float) -> QWidget:
        boils = distinct(way)
        alike = len(boils) < len(way.boils)
        box, layout = _column(tr("Weigh out for each boil") if alike else tr("Weigh out"))
        for number, boil in enumerate(boils, 1):
            if len(boils) > 1:
                layout.addWidget(
                    label(
                        tr("Boil {number}: {pot}", number=number, pot=named(boil.recipe.pot.name)),
                        soft=True,
                    )
                )
            grid = QGridLayout()
            grid.setHorizontalSpacing(8)
            grid.setVerticalSpacing(3)
            grid.setColumnStretch(1, 1)
            lines = weighing_out(recipe, top_up_l, boil, self._display)
            right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
            for row, each in enumerate(lines):
                amount = label(each.amount, bold=True)
                amount.setWordWrap(False)
                grid.addWidget(amount, row, 0, right)
                grid.addWidget(label(each.what), row, 1, Qt.AlignmentFlag.AlignTop)
            layout.addLayout(grid)
        layout.addStretch(1)
        return box

    def _how(self, way: Way) -> QWidget:
        box, layout = _column(tr("How"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        for row, said in enumerate(way.steps):
            number = QLabel(str(row + 1))
            number.setObjectName("stepNumber")
            number.setAlignment(Qt.AlignmentFlag.AlignCenter)
            grid.addWidget(number, row, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(label(said.said(self._show, self._display.quantity)), row, 1)
        layout.addLayout(grid)
        layout.addWidget(label(way.cooling.sentence.said(self._display.rounded), soft=True))
        if way.cautions:
            layout.addWidget(heading(tr("Take care")))
            for said in way.cautions:
                layout.addWidget(label(said.said(self._show)))
        layout.addStretch(1)
        return box

    def _rest(self, way: Way, written_min: float) -> QWidget:
        box, layout = _column(tr("Left over"))
        for text, soft in self._left(way):
            layout.addWidget(label(text, soft=soft))
        bought = [self._bought(each) for each in way.must_buy]
        for title, texts in (
            (tr("Buy or borrow"), bought),
            (tr("Cost and time"), [*self._cost(way), self._time(way, written_min)]),
            (tr("The beer"), self._beer(way)),
        ):
            if texts:
                layout.addWidget(heading(title))
                for each in texts:
                    layout.addWidget(label(each))
        layout.addStretch(1)
        return box

    def _left(self, way: Way) -> Iterable[tuple[str, bool]]:
        """Yield what is left over, all that is kept alike before how it is kept."""
        if not way.left_over:
            yield tr("nothing"), False
        kept: dict[str, list[str]] = {}
        for each in way.left_over:
            text = tr("{amount} of {name}", amount=self._amount(each), name=named(each.name))
            kept.setdefault(each.keeping.briefly.said(self._show), []).append(text)
        for keep, names in kept.items():
            for name in names:
                yield name, False
            yield keep, True

    def _amount(self, left: LeftOver) -> str:
        kind, amount = left.figure
        if isinstance(amount, Quantity):
            return self._display.quantity(kind, amount)
        return self._display.rounded(kind, amount)

    def _bought(self, bought: ToBuy) -> str:
        words = bought.words.said(self._show)
        if bought.price is None:
            return tr("{things}: no price", things=words)
        money = self._display.value(Kind.MONEY, round(bought.price, 2))
        return tr("{things}: {money}", things=words, money=money)

    def _cost(self, way: Way) -> Iterable[str]:
        if way.cost is None or way.cost_per_litre is None:
            if way.cost_used is None:
                yield tr("What goes in: no price")
            else:
                money = self._display.value(Kind.MONEY, round(way.cost_used, 2))
                yield tr("The recipe’s own ingredients used: {money}", money=money)
            return
        money = self._display.value(Kind.MONEY, round(way.cost, 2))
        litre, whole = (
            self._display.value(Kind.MONEY, round(each, 2))
            for each in (way.cost_per_litre, way.original_cost_per_litre or 0.0)
        )
        if way.original_cost_per_litre is None or litre == whole:
            yield tr("Goes in for {money}, {litre} a litre", money=money, litre=litre)
        else:
            yield tr(
                "Goes in for {money}, {litre} a litre (the whole recipe: {whole})",
                money=money,
                litre=litre,
                whole=whole,
            )

    def _time(self, way: Way, written_min: float) -> str:
        now, before = (
            self._display.rounded(Kind.TIME, each) for each in (way.total_min, written_min)
        )
        if now == before:
            return tr("{time} at stove and sink", time=now)
        return tr("{time} at stove and sink, {before} as written", time=now, before=before)

    def _beer(self, way: Way) -> list[str]:
        return [
            tr(
                "{forecast}: {value}  ({span})",
                forecast=tr(each.title),
                value=figure(each.key, found.value, self._display),
                span=tr(
                    SPANS[found.leans],
                    low=figure(each.key, found.low, self._display, unit=False),
                    high=figure(each.key, found.high, self._display, unit=False),
                ),
            )
            for each in MAIN
            for found in (way.forecasts[each.key],)
        ]

    # room

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """Set the columns beside each other as far as the width goes, then below."""
        across = 4 if self.width() >= WIDE else 2 if self.width() >= HALF else 1
        if across == self._across or not self._columns:
            return
        self._across = across
        for number, each in enumerate(self._columns):
            self._grid.removeWidget(each)
            self._grid.addWidget(each, number // across, number % across)
            each.show()
        for number in range(4):
            self._grid.setColumnStretch(number, (6, 5, 6, 5)[number] if number < across else 0)


def _column(title: str) -> tuple[QWidget, QVBoxLayout]:
    box = QWidget()
    box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    layout = QVBoxLayout(box)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(4)
    layout.addWidget(heading(title))
    return box, layout
