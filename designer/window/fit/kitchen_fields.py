"""The fields above the ways: vessels, stove and freezer there are, and what may be asked for.

Vessels that are kept on the page of the kitchen are offered by name and bring what was measured
with them; any other size is typed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QWidget

from designer.brewday.fit.wish import FitWish, Measured, sized_fermenter, sized_pot
from designer.recipe.document import Fermenter, Pot, Recipe
from designer.recipe.fields import facts_of
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.icons import Tick
from designer.window.parts.refusal import read_from, within_reach
from designer.window.parts.vessel_field import KeptVessels, VesselField, called, chosen
from designer.workbench.kitchen_vessels import fermenter_edit, measured_with, pot_edit

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
        self.buying.setToolTip(tr("Also ways for which something has to be bought or borrowed"))
        self.buying.setChecked(True)
        for tick in (self.whole, self.buying):
            tick.toggled.connect(self.changed)
            self.widgets.append(tick)

    def _field(self, key: str) -> QWidget:
        name, kind = FIELDS[key]
        field = VesselField()
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
        pots, fermenters = called(kept.pots, self._display), called(kept.fermenters, self._display)
        for key, names in (
            ("pot", pots),
            ("second_pot", pots),
            ("fermenter", fermenters),
            ("second", fermenters),
        ):
            field = self.by_key[key]
            assert isinstance(field, VesselField)
            field.offer(names)

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
        record = chosen(self.by_key[key].text(), self._kept.pots, self._display)
        if record is not None:
            edit = pot_edit(recipe, record)
            return edit.apply(recipe).pot, measured_with(record)
        size = self.typed(key)
        return (None if size is None else sized_pot(recipe.pot, size)), ()

    def _fermenter(self, key: str, recipe: Recipe) -> Fermenter | None:
        record = chosen(self.by_key[key].text(), self._kept.fermenters, self._display)
        if record is not None:
            edit = fermenter_edit(recipe, record)
            return edit.apply(recipe).fermenter
        size = self.typed(key)
        return None if size is None else sized_fermenter(recipe.fermenter, size)
