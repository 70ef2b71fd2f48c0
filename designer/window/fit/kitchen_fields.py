"""The fields above the ways: vessels, stove and freezer there are, and what may be asked for.

Vessels that are kept on the page of the kitchen are offered by name and bring what was measured
with them; any other size is typed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from PySide6.QtCore import QObject, QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QHBoxLayout, QLabel, QLineEdit, QWidget

from designer.brewday.fit.wish import FitWish, Measured, sized_fermenter, sized_pot
from designer.recipe.document import Fermenter, Pot, Recipe
from designer.recipe.fields import facts_of
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.icons import Tick
from designer.window.parts.refusal import read_from, within_reach
from designer.window.parts.whole_offers import WholeOffers
from designer.workbench.kitchen_vessels import fermenter_edit, measured_with, pot_edit

if TYPE_CHECKING:
    from designer.library.store.kitchen import FermenterRecord, PotRecord

LARGEST = 100_000.0
FIELDS: dict[str, tuple[str, Kind]] = {
    "pot": (message("Pot"), Kind.VOLUME),
    "second_pot": (message("Second pot"), Kind.VOLUME),
    "fermenter": (message("Fermenter"), Kind.VOLUME),
    "second": (message("Second fermenter"), Kind.VOLUME),
    "power": (message("Stove"), Kind.POWER),
    "frozen": (message("Freezer holds"), Kind.MASS),
}
"""What they are called, and what they take."""
POWER = "power"
NARROW, WIDEST = 76, 230


_Record = TypeVar("_Record", "PotRecord", "FermenterRecord")


class KeptVessels(NamedTuple):
    """Pots and fermenters of the kitchen."""

    pots: tuple[PotRecord, ...] = ()
    fermenters: tuple[FermenterRecord, ...] = ()


class _VesselField(QLineEdit):
    """A size to be typed, or one of the vessels that are kept: Down shows them."""

    def __init__(self) -> None:
        super().__init__()
        self._names = QStringListModel(self)
        self.textChanged.connect(self._fit_width)
        self._fit_width("")

    def offer(self, names: Sequence[str]) -> None:
        """Offer these names; none at all if there are none."""
        if not names:
            self.setCompleter(None)  # type: ignore[arg-type]
            return
        self._names.setStringList(list(names))
        if self.completer() is None:
            completer = QCompleter(self._names, self)
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            completer.setFilterMode(Qt.MatchFlag.MatchContains)
            # of the two signals of this name, the one with the text
            completer.activated[str].connect(self._take)  # type: ignore[index]
            self.setCompleter(completer)
            WholeOffers(completer, self)

    def setPlaceholderText(self, text: str) -> None:
        super().setPlaceholderText(text)
        self._fit_width(self.text())

    def _take(self, text: str) -> None:
        self.setText(text)
        self.textEdited.emit(text)

    def _fit_width(self, text: str) -> None:
        """Be as wide as a name wants."""
        shown = text or self.placeholderText()
        wanted = self.fontMetrics().horizontalAdvance(shown) + 26
        self.setFixedWidth(min(max(NARROW, wanted), WIDEST))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        completer = self.completer()
        if event.key() == Qt.Key.Key_Down and completer is not None:
            completer.setCompletionPrefix("")
            completer.complete()
            return
        super().keyPressEvent(event)


@dataclass(frozen=True, slots=True)
class _Given:
    """What a field showed of the recipe: its text is the quantity as long as nobody changes it."""

    text: str = ""
    quantity: Quantity | None = None


class KitchenFields(QObject):
    """Makes the fields, and reads of them what there is."""

    changed = Signal()

    def __init__(self, display: DisplayFormat, parent: QWidget) -> None:
        super().__init__(parent)
        self._display = display
        self._given: dict[str, _Given] = {}
        self._kept = KeptVessels()
        self.by_key: dict[str, QLineEdit] = {}
        self.widgets: list[QWidget] = [self._field(key) for key in FIELDS]
        for key in ("second_pot", "second"):
            self.by_key[key].setPlaceholderText(tr("none"))
        self.by_key["frozen"].setPlaceholderText(tr("as it says"))
        usual = facts_of(Pot(), POWER)
        self.by_key[POWER].setPlaceholderText(display.default(usual))
        self.whole = Tick(tr("Whole packs only"))
        self.whole.setToolTip(
            tr("No tin or bag is divided; scaling goes by the packs of your shop")
        )
        self.buying = Tick(tr("Show what needs buying"))
        self.buying.setToolTip(tr("Ways too for which something has to be bought or borrowed"))
        self.buying.setChecked(True)
        for tick in (self.whole, self.buying):
            tick.toggled.connect(self.changed)
            self.widgets.append(tick)

    def _field(self, key: str) -> QWidget:
        name, kind = FIELDS[key]
        field = _VesselField()
        field.setAccessibleName(tr(name))
        field.textEdited.connect(self.changed)
        ask_when_left(field, self._display, kind)
        words = QLabel(tr(name))
        words.setBuddy(field)
        self.by_key[key] = field
        pair = QWidget()
        row = QHBoxLayout(pair)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(5)
        row.addWidget(words)
        row.addWidget(field)
        return pair

    # what is offered

    def offer(self, kept: KeptVessels) -> None:
        """Offer vessels of the kitchen by name."""
        self._kept = kept
        pots = [self._called(each) for each in kept.pots]
        fermenters = [self._called(each) for each in kept.fermenters]
        for key, names in (
            ("pot", pots),
            ("second_pot", pots),
            ("fermenter", fermenters),
            ("second", fermenters),
        ):
            field = self.by_key[key]
            assert isinstance(field, _VesselField)
            field.offer(names)
            if names:
                field.setToolTip(tr("Type a size, or press Down for the vessels of your kitchen"))

    def _called(self, record: PotRecord | FermenterRecord) -> str:
        size = self._display.kept_text(Kind.VOLUME, record.volume)
        return f"{record.name}, {size}" if size else record.name

    def _chosen(self, key: str, records: Sequence[_Record]) -> _Record | None:
        """Return the vessel whose name is typed, or the beginning of it that no other has."""
        text = self.by_key[key].text().strip().casefold()
        named = {self._called(each).casefold(): each for each in records}
        if text in named or not text or text[0].isdigit():
            return named.get(text)
        begun = [each for name, each in named.items() if name.startswith(text)]
        return begun[0] if len(begun) == 1 else None

    # what is typed

    def show_recipe(self, recipe: Recipe) -> None:
        """Show the recipe's own vessels, where nobody typed others."""
        own = {
            "pot": recipe.pot.volume,
            "fermenter": recipe.fermenter.volume,
            "power": recipe.pot.power,
        }
        for key, quantity in own.items():
            field, before = self.by_key[key], self._given.get(key, _Given())
            if field.text() == before.text:
                text = self._display.to_edit(FIELDS[key][1], quantity)
                self._given[key] = _Given(text, quantity)
                if field.text() != text:
                    field.setText(text)

    def typed(self, key: str) -> Quantity | None:
        """What stands in a field; as it was given where its text was not changed."""
        field, given = self.by_key[key], self._given.get(key, _Given())
        if field.text() == given.text:
            return given.quantity
        if not field.text().strip():
            return None
        with read_from(field):
            found = self._display.read(FIELDS[key][1], field.text(), given.text)
            return within_reach(found, LARGEST, field.text())

    def wish(self, recipe: Recipe) -> FitWish:
        """Return the vessels and terms as a wish. Raises RefusedInputError."""
        pot, measured = self._pot("pot", recipe)
        second, measured_second = self._pot("second_pot", recipe)
        power, frozen = self.typed("power"), self.typed("frozen")
        fermenters = [self._fermenter(key, recipe) for key in ("fermenter", "second")]
        if pot is None:
            pot = replace(recipe.pot, volume=None)
        if power is not None and power != recipe.pot.power:
            pot = replace(pot, power=power)
            second = None if second is None else replace(second, power=power)
        return FitWish(
            pot,
            tuple(each for each in fermenters if each is not None) or (recipe.fermenter,),
            second_pot=second,
            whole_packs=self.whole.isChecked(),
            most_frozen_kg=None if frozen is None else frozen.value,
            may_buy_fermenter=self.buying.isChecked(),
            measured=measured,
            measured_second=measured_second,
        )

    def _pot(self, key: str, recipe: Recipe) -> tuple[Pot | None, Measured]:
        """Return a pot, and what of its losses was measured; None where there is none."""
        record = self._chosen(key, self._kept.pots)
        if record is not None:
            edit = pot_edit(recipe, record)
            return edit.apply(recipe).pot, measured_with(record)
        size = self.typed(key)
        return (None if size is None else sized_pot(recipe.pot, size)), ()

    def _fermenter(self, key: str, recipe: Recipe) -> Fermenter | None:
        record = self._chosen(key, self._kept.fermenters)
        if record is not None:
            edit = fermenter_edit(recipe, record)
            return edit.apply(recipe).fermenter
        size = self.typed(key)
        return None if size is None else sized_fermenter(recipe.fermenter, size)
