"""Packaging: bottles or keg, with sugar, the gauge, the bottles and their labels."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.packaging.packaged import Packaged, Packing
from designer.recipe.choices import Package
from designer.recipe.quantity import Kind
from designer.sheet.labels import LabelFacts
from designer.translation import tr
from designer.window.brew.fermenting.bears_card import BearsCard
from designer.window.brew.fermenting.bottles_card import BottlesCard
from designer.window.brew.fermenting.form_rows import OneOf
from designer.window.brew.fermenting.keg_card import KegCard
from designer.window.brew.fermenting.label_card import LabelCard, LabelShown
from designer.window.brew.fermenting.packaged_card import PackagedCard
from designer.window.brew.fermenting.packing_choices import PackingChoices
from designer.window.brew.fermenting.sugar_card import SugarCard
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.drawn_icons import drawn_icon
from designer.window.parts.page_frame import heading
from designer.window.parts.sized_text import grown
from designer.window.parts.targets import TARGET_PX

WIDE_PX, MIDDLE_PX = 1080, 640
"""From the first width on four panels stand beside each other, from the second two."""
GAP = 12


class PackingPanel(QWidget):
    """Panels for what is to be packaged; what is done is told by the cards' own signals."""

    def __init__(self, choices: PackingChoices, display: DisplayFormat) -> None:
        super().__init__()
        self._choices, self._display = choices, display
        self._columns, self._room = 0, WIDE_PX
        self.kinds = QButtonGroup(self)
        self.bottles_button = self._kind(Package.BOTTLES, tr("Bottles"))
        self.keg_button = self._kind(Package.KEG, tr("Keg"))
        self._draw_kinds()
        self.told = QLabel()
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        self.told.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.sugar = SugarCard(choices, display)
        self.bears = BearsCard(choices, display)
        self.bottles = BottlesCard(choices, display)
        self.keg = KegCard(choices, display)
        self.counts = OneOf(self.bottles, self.keg)
        self.label = LabelCard(choices, display)
        self.label.words_wanted.connect(self._ask_words)
        self.label.form.closed.connect(self._close_words)
        self.labels = OneOf(self.label, self.label.form)
        self.done = PackagedCard(self)
        self.done.hide()
        self._is_done = False
        self._top = QWidget()
        top = QHBoxLayout(self._top)
        top.setContentsMargins(0, 0, 0, 0)
        top.setSpacing(10)
        top.addWidget(heading(tr("Packaging")))
        for each in (self.bottles_button, self.keg_button):
            top.addWidget(each)
        top.addWidget(self.told, 1)
        self._grid = QGridLayout()
        self._grid.setSpacing(GAP)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self._top)
        layout.addLayout(self._grid)
        self._place()

    def _kind(self, package: Package, text: str) -> QPushButton:
        made = QPushButton(text)
        made.setObjectName("switch")
        made.setCheckable(True)
        made.setMinimumSize(72, TARGET_PX)
        made.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        made.clicked.connect(lambda _checked=False: self._take_package(package))
        self.kinds.addButton(made)
        return made

    def _draw_kinds(self) -> None:
        self.bottles_button.setIcon(drawn_icon("vessel-bottle"))
        self.keg_button.setIcon(drawn_icon("vessel-keg"))

    def _take_package(self, package: Package) -> None:
        said = tr("into a keg") if package == Package.KEG else tr("into bottles")
        self._choices.choose("package", said, lambda packing: replace(packing, package=package))

    # places

    def fit_into(self, room: int) -> None:
        """Stand in so much width; panels that stand beside each other would not let it shrink."""
        self._room = room
        self._place()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._place()
        elif event.type() == QEvent.Type.PaletteChange:
            self._draw_kinds()

    def _place(self) -> None:
        """Place the panels beside or below each other, as there is room."""
        wide = self._room
        columns = 4 if wide >= grown(self, WIDE_PX) else 2 if wide >= grown(self, MIDDLE_PX) else 1
        if self._is_done:
            columns = min(columns, 2)
        if columns == self._columns:
            return
        self._columns = columns
        choosing: tuple[QWidget, ...] = (self.sugar, self.bears, self.counts)
        for each in (*choosing, self.done, self.labels):
            self._grid.removeWidget(each)
        cards = (self.done, self.labels) if self._is_done else (*choosing, self.labels)
        for number, each in enumerate(cards):
            self._grid.addWidget(each, number // columns, number % columns)
        shares = (
            (2, 1, 0, 0)
            if self._is_done
            else {4: (30, 37, 27, 24), 2: (1, 1, 0, 0), 1: (1, 0, 0, 0)}[columns]
        )
        for column, share in enumerate(shares):
            self._grid.setColumnStretch(column, share)

    # what is shown

    def be_done(self, done: bool) -> None:
        """Show what was done in place of what is to be chosen; labels stay."""
        if done is not self._is_done:
            self._is_done, self._columns = done, 0
            self._place()
        for each in (self._top, self.sugar, self.bears, self.counts):
            each.setVisible(not done)
        self.done.setVisible(done)

    def show_packing(self, *, reminded: frozenset[date]) -> None:
        """Show what is chosen and what follows of that; `reminded` are days of reminders."""
        packing, result = self._choices.packing, self._choices.result
        if packing is None or result is None:
            return
        keg = packing.package == Package.KEG
        (self.keg_button if keg else self.bottles_button).setChecked(True)
        self.told.setText(self._told(packing, result))
        self.sugar.show_packing(packing, result, self._how(packing, result), keg=keg)
        day = result.dates[0][0] if result.dates else None
        self.bears.show_packing(packing, result, reminded=day in reminded)
        self.counts.show_panel(self.keg if keg else self.bottles)
        if keg:
            self.keg.show_packing(packing, result)
        else:
            self.bottles.show_packing(packing, result)
        self.labels.setVisible(not keg)

    def _told(self, packing: Packing, result: Packaged) -> str:
        short = self._display.short
        return tr(
            "{volume} of beer, warmest at {temperature}: holds {volumes} already",
            volume=short(Kind.VOLUME, packing.beer_l),
            temperature=short(Kind.TEMPERATURE, packing.warmest_c),
            volumes=self._display.value(Kind.CARBONATION, result.residual_volumes),
        )

    def _how(self, packing: Packing, result: Packaged) -> str:
        """Say how the sugar is put in; of what is refused nothing."""
        if packing.package == Package.KEG:
            return tr("No sugar goes in: the gas comes from its bottle.")
        wanted = result.sugar(packing.sugar)
        if wanted is None:
            return tr("How much sugar is told once the beer may be bottled.")
        if wanted.grams < 0.5:
            return tr("No sugar: the beer holds as much gas already.")
        return tr(
            "Boil it in a cup of water, cool, pour into a clean bucket; siphon the beer onto it. "
            "Weigh it: spoons are too far off."
        )

    def show_label(self, facts: LabelFacts, packing: Packing) -> None:
        """Show the label of a beer with those facts."""
        bottles = tuple((each.litres, each.count) for each in packing.bottles)
        self.label.show_label(LabelShown(facts, bottles, packing.label))

    def _ask_words(self) -> None:
        self.labels.show_panel(self.label.form)
        self.label.ask_words()

    def _close_words(self) -> None:
        if self.labels.shown is self.label.form:
            self.labels.show_panel(self.label)
            self.label.words_button.setFocus(Qt.FocusReason.OtherFocusReason)
