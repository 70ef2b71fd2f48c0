"""What was bottled or kegged, what comes next, and how it tastes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QLineEdit, QVBoxLayout, QWidget

from designer.brewday.packaging.packaged import Packaged, Packing
from designer.brewday.packaging.packed import packaged
from designer.recipe.choices import Package
from designer.recipe.day_words import day_words
from designer.recipe.quantity import Kind
from designer.translation import tr, trn
from designer.window.brew.fermenting.beer_shown import said
from designer.window.brew.fermenting.form_rows import choice_of
from designer.window.brew.fermenting.standing_panel import words_in
from designer.window.brew.fermenting.sugar_card import grams_text
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import unbroken
from designer.window.parts.targets import TARGET_PX
from designer.workbench.brew.brew_told import MARKS
from designer.workbench.brew.brewing import Tasting

LONGEST_NOTE = 4000


BEFORE = ("sound-glass", "sound-plastic", "extract-differs")
"""Cautions that were for before it was packaged."""


@dataclass(frozen=True, slots=True)
class PackagedShown:
    """What was done, in lines; what comes when; how it tasted."""

    title: str
    words: tuple[str, ...] = ()
    dates: tuple[str, ...] = ()
    tastings: tuple[str, ...] = ()


def packaged_shown(
    packing: Packing, on: date, tastings: Sequence[Tasting], display: DisplayFormat
) -> PackagedShown:
    """Return what there is to tell of a beer that was packaged on a day."""
    result = packaged(packing, on)
    is_keg = packing.package == Package.KEG
    day = day_words(on)
    return PackagedShown(
        tr("In the keg since {day}", day=day) if is_keg else tr("In bottles since {day}", day=day),
        (
            *(_in_keg(result, display) if is_keg else _in_bottles(packing, result, display)),
            *(said(what, display) for code, what in result.cautions if code not in BEFORE),
        ),
        tuple(
            tr("{day}: {what}", day=day_words(when), what=said(what, display))
            for when, what in result.dates
        ),
        tuple(map(_tasting, tastings)),
    )


def _in_keg(result: Packaged, display: DisplayFormat) -> tuple[str, ...]:
    return (display.short(Kind.VOLUME, result.filled_l),)


def _in_bottles(packing: Packing, result: Packaged, display: DisplayFormat) -> tuple[str, ...]:
    filled = trn(
        "{volume} in {number} bottle",
        "{volume} in {number} bottles",
        result.caps,
        volume=display.short(Kind.VOLUME, result.filled_l),
    )
    wanted = result.sugar(packing.sugar)
    if wanted is None:
        return (filled,)
    primed = tr(
        "primed with {grams} of {sugar} for {volumes}",
        grams=grams_text(wanted.grams, display),
        sugar=tr(packing.sugar.value),
        volumes=display.short(Kind.CARBONATION, packing.volumes),
    )
    return filled, primed


def _tasting(tasting: Tasting) -> str:
    day = day_words(datetime.fromtimestamp(tasting.at.wall).date())
    mark = tr(MARKS[tasting.mark]) if tasting.mark else ""
    told = ". ".join(each for each in (mark, tasting.text) if each)
    return tr("{day}: {said}", day=day, said=told)


class PackagedCard(QFrame):
    """`tasted` carries a mark, 0 for none, and what there is to say."""

    tasted = Signal(int, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.title = words_in(1.6, bold=True)
        self.words, self.dates, self.tastings = words_in(), words_in(), words_in()
        self.mark = choice_of(
            [(tr("no mark"), 0)]
            + [(tr("{mark}: {word}", mark=n, word=tr(w)), n) for n, w in MARKS.items()],
            self._enable,
        )
        self.mark.setAccessibleName(tr("Mark of the beer"))
        self.mark.setMinimumHeight(TARGET_PX)
        self.note = QLineEdit()
        self.note.setMaxLength(LONGEST_NOTE)
        self.note.setMinimumHeight(TARGET_PX)
        self.note.setAccessibleName(tr("How it tastes"))
        self.note.setPlaceholderText(tr("How it looks, smells and tastes"))
        self.note.textChanged.connect(self._enable)
        self.note.returnPressed.connect(self._keep)
        self.keep_button = LargeButton(
            tr("Keep the notes"), tr("Add them to the brew's log"), self._keep
        )
        row = FlowLayout(across=8, down=6)
        row.addWidget(self.mark)
        row.addWidget(self.keep_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(8)
        for each in (self.title, self.words, self.dates, heading(tr("Tasting notes"))):
            layout.addWidget(each)
        layout.addWidget(self.tastings)
        layout.addWidget(self.note)
        layout.addLayout(row)
        layout.addStretch(1)
        self._enable()

    def show_packaged(self, shown: PackagedShown) -> None:
        """Show what was done, and what comes when."""
        self.title.setText(shown.title)
        for label, lines in (
            (self.words, shown.words),
            (self.dates, shown.dates),
            (self.tastings, shown.tastings),
        ):
            label.setText(unbroken("\n".join(lines)))
            label.setVisible(bool(lines))

    def _says(self) -> bool:
        return bool(self.note.text().strip()) or int(self.mark.currentData() or 0) > 0

    def _enable(self, _text: str = "") -> None:
        self.keep_button.setEnabled(self._says())

    def _keep(self) -> None:
        if self._says():
            mark, text = int(self.mark.currentData() or 0), self.note.text().strip()
            self.note.clear()
            self.mark.setCurrentIndex(0)
            self._enable()
            self.tasted.emit(mark, text)
