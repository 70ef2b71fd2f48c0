"""How much fizz, in how much beer, and what of each sugar that takes; none where it is refused."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.packaging.fizz import FIZZ, fizz_of, nearest_fizz
from designer.brewday.packaging.packaged import Packaged, Packing
from designer.recipe.choices import PrimingSugar
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.brew.fermenting.figure_field import FigureField
from designer.window.brew.fermenting.packing_choices import PackingChoices, with_figure
from designer.window.brew.fermenting.standing_panel import larger, rule, words_in
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.icons import Choice, Mark
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import unbroken
from designer.workbench.brew.packing_chosen import BEER, VOLUMES, WARMEST

if TYPE_CHECKING:
    from designer.brewday.packaging.packaged import SugarWanted

SUGARS = {
    PrimingSugar.TABLE_SUGAR: message("Table sugar"),
    PrimingSugar.DEXTROSE: message("Dextrose"),
    PrimingSugar.ANHYDROUS_DEXTROSE: message("Dextrose, dry"),
    PrimingSugar.DRY_EXTRACT: message("Dry extract"),
    PrimingSugar.HONEY: message("Honey"),
}
LIMITS = {BEER: (0.1, 300.0), VOLUMES: (0.5, 6.0), WARMEST: (0.0, 40.0)}


def grams_text(grams: float, display: DisplayFormat) -> str:
    """Return an amount of sugar as it is weighed: to the gram."""
    return display.short(Kind.MASS, round(grams) / 1000.0)


class SugarRow(QWidget):
    """A sugar, how much of it a litre takes, and how much all of the beer."""

    def __init__(self, sugar: PrimingSugar) -> None:
        super().__init__()
        self.button = Mark(tr(SUGARS[sugar]))
        self.button.setToolTip(tr(sugar.value))
        self.a_litre = QLabel()
        self.a_litre.setObjectName("soft")
        self.grams = QLabel()
        self.grams.setFont(larger(1.25, bold=True))
        self.setMinimumHeight(36)
        row = QHBoxLayout(self)
        row.setContentsMargins(4, 0, 4, 0)
        row.addWidget(self.button)
        row.addStretch(1)
        row.addWidget(self.a_litre)
        row.addSpacing(6)
        row.addWidget(self.grams)

    def show_wanted(self, wanted: SugarWanted | None, display: DisplayFormat) -> None:
        """Show amounts, or none."""
        if wanted is None:
            grams = a_litre = ""
        else:
            grams = grams_text(wanted.grams, display)
            a_litre = tr("{mass} g a litre", mass=display.decimal(f"{wanted.grams_a_litre:.1f}"))
        self.grams.setText(grams)
        self.a_litre.setText(a_litre)
        name = self.button.text()
        told = tr("{sugar}, {grams}", sugar=name, grams=grams) if grams else name
        self.button.setAccessibleName(told)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """All of the row chooses the sugar."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.button.click()


class SugarCard(QFrame):
    """Fields and sugars for bottles; for a keg the fields alone."""

    def __init__(self, choices: PackingChoices, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._choices, self._display = choices, display
        self.title = heading(tr("Sugar"))
        self.volumes = self._field(VOLUMES, Kind.CARBONATION, tr("Fizz wanted"))
        self.beer = self._field(BEER, Kind.VOLUME, tr("Beer in the bucket"))
        self.warmest = self._field(WARMEST, Kind.TEMPERATURE, tr("Warmest since it was done"))
        self.words = Choice()
        self.words.setAccessibleName(tr("Fizz in plain words"))
        self.words.setMinimumHeight(36)
        for number, each in enumerate(FIZZ):
            self.words.addItem(tr(each.word), each.volumes)
            tip = tr("{word}: {means}", word=tr(each.word), means=tr(each.means))
            self.words.setItemData(number, tip, Qt.ItemDataRole.ToolTipRole)
        self.words.activated.connect(self._take_words)
        self.rows = {each: SugarRow(each) for each in SUGARS}
        self._group = QButtonGroup(self)
        self.how = words_in()
        self.how.setObjectName("soft")
        self._lay_out()

    def _field(self, name: str, kind: Kind, label: str) -> FigureField:
        said = {
            VOLUMES: message("fizz: {figure}"),
            BEER: message("beer in the bucket: {figure}"),
            WARMEST: message("warmest since it was done: {figure}"),
        }[name]

        def take(value: float) -> None:
            figure = self._display.short(kind, value)
            self._choices.choose(name, tr(said, figure=figure), with_figure(name, value))

        def words(text: str) -> float | None:
            found = fizz_of(text) if name == VOLUMES else None
            return None if found is None else found.volumes

        return FigureField(
            self._display, kind, label, LIMITS[name], take, self._choices.settle,
            self._choices.forget, words,
        )  # fmt: skip

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(2)
        places = ((self.volumes, 0, 0), (self.beer, 0, 1), (self.words, 1, 0), (self.warmest, 1, 1))
        names = {self.words: tr("in plain words"), self.warmest: tr("Warmest since done")}
        for field, line, place in places:
            label = QLabel(names.get(field, field.accessibleName()))
            label.setObjectName("soft")
            label.setBuddy(field)
            grid.addWidget(label, 2 * line, place)
            grid.addWidget(field, 2 * line + 1, place)
        for place in (0, 1):
            grid.setColumnStretch(place, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 10, 14, 12)
        layout.setSpacing(6)
        layout.addWidget(self.title)
        layout.addLayout(grid)
        self.sugars = QWidget()
        column = QVBoxLayout(self.sugars)
        column.setContentsMargins(0, 2, 0, 2)
        column.setSpacing(0)
        for sugar, row in self.rows.items():
            self._group.addButton(row.button)
            row.button.clicked.connect(lambda _checked=False, one=sugar: self._take_sugar(one))
            column.addWidget(row)
            if sugar is not list(self.rows)[-1]:
                column.addWidget(rule())
        layout.addWidget(self.sugars)
        layout.addWidget(self.how)
        layout.addStretch(1)

    def _take_words(self, number: int) -> None:
        volumes = float(self.words.itemData(number))
        said = tr("fizz: {figure}", figure=self._display.short(Kind.CARBONATION, volumes))
        self._choices.choose(VOLUMES, said, with_figure(VOLUMES, volumes))

    def _take_sugar(self, sugar: PrimingSugar) -> None:
        said = tr("primed with {sugar}", sugar=tr(sugar.value))
        self._choices.choose("sugar", said, lambda packing: replace(packing, sugar=sugar))

    def show_packing(self, packing: Packing, result: Packaged, how: str, *, keg: bool) -> None:
        """Show what is chosen and what follows; `how` says how it is put in."""
        self.title.setText((tr("In the keg") if keg else tr("Sugar")).upper())
        self.volumes.show_value(packing.volumes)
        self.beer.show_value(packing.beer_l)
        self.warmest.show_value(packing.warmest_c)
        fizz = nearest_fizz(packing.volumes)
        self.words.setCurrentIndex(FIZZ.index(fizz))
        self.words.setToolTip(tr("{word}: {means}", word=tr(fizz.word), means=tr(fizz.means)))
        self.sugars.setVisible(not keg)
        for sugar, row in self.rows.items():
            row.show_wanted(result.sugar(sugar), self._display)
        self.rows[packing.sugar].button.setChecked(True)
        self.how.setText(unbroken(how))
        self.how.setVisible(bool(how))
