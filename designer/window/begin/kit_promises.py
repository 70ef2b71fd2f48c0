"""What the leaflet of a kit says of the beer and of the boil, each in a field of its own."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit

from designer.errors import RefusedInputError
from designer.recipe.document import Leaflet, Recipe
from designer.recipe.fields import facts_of
from designer.recipe.limits import LONGEST_TYPED
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.refusal import read_from, within_reach

LARGEST = 10_000.0


class Promise(NamedTuple):
    """A field: what it is called, and an example that stands in it while it is empty."""

    label: str
    kind: Kind
    example: str


MAKES = "makes"
PROMISES = {
    MAKES: Promise(message("Makes"), Kind.VOLUME, "20 L"),
    "boil_water": Promise(message("Water to boil"), Kind.VOLUME, ""),
    "boil_time": Promise(message("Boil for"), Kind.TIME, "10 min"),
    "original_gravity": Promise(message("Original gravity"), Kind.GRAVITY, "1.050-1.055"),
    "final_gravity": Promise(message("Final gravity"), Kind.GRAVITY, "1.010-1.014"),
    "alcohol": Promise(message("Alcohol"), Kind.FRACTION, "4.8 %"),
    "bitterness": Promise(message("Bitterness"), Kind.BITTERNESS, "24 IBU"),
}
OF_THE_WAY = (MAKES, "boil_water", "boil_time")
OF_THE_BEER = ("original_gravity", "final_gravity", "alcohol", "bitterness")


class KitPromises(QObject):
    """`changed` when one of them is typed."""

    changed = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self.fields = {key: self._field(each) for key, each in PROMISES.items()}

    def _field(self, promise: Promise) -> QLineEdit:
        field = QLineEdit()
        field.setMaxLength(LONGEST_TYPED)
        field.setAccessibleName(tr(promise.label))
        field.setPlaceholderText(self._display.decimal(promise.example))
        field.textChanged.connect(lambda _text: self.changed.emit())
        ask_when_left(field, self._display, promise.kind)
        return field

    def grid(self, keys: tuple[str, ...], across: int) -> QGridLayout:
        """Return fields below their labels, so many in a row."""
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(2)
        for number, key in enumerate(keys):
            label = QLabel(tr(PROMISES[key].label))
            label.setObjectName("soft")
            label.setBuddy(self.fields[key])
            row, column = 2 * (number // across), number % across
            grid.addWidget(label, row, column)
            grid.addWidget(self.fields[key], row + 1, column)
            grid.setColumnStretch(column, 1)
        return grid

    def makes(self) -> Quantity:
        """Return how much beer the kit makes. Raises FieldRefusedError where that is not said."""
        found = self.told(MAKES)
        if found is None:
            with read_from(self.fields[MAKES]):
                raise RefusedInputError(tr("how much beer does the kit make?"))
        return found

    def told(self, key: str) -> Quantity | None:
        """Return what a field says; None where it is empty. Raises FieldRefusedError."""
        field, text = self.fields[key], self.fields[key].text().strip()
        if not text:
            return None
        with read_from(field):
            found = within_reach(self._display.read(PROMISES[key].kind, text), LARGEST, text)
            if key in Leaflet.__dataclass_fields__:
                self._check(key, found)
            return found

    def _check(self, key: str, found: Quantity) -> None:
        facts = facts_of(Leaflet, key)
        if not facts.low <= found.value <= facts.high:
            low, high = (self._display.value(facts.kind, each) for each in (facts.low, facts.high))
            raise RefusedInputError(tr("it can be from {low} to {high}", low=low, high=high))

    def show_mended(self, before: Recipe, after: Recipe) -> None:
        """Put what a cure has changed of the leaflet into the fields."""
        for key in (MAKES, "original_gravity", "final_gravity"):
            was, now = getattr(before.leaflet, key), getattr(after.leaflet, key)
            if was != now:
                self.fields[key].setText(self._display.quantity(PROMISES[key].kind, now))

    def texts(self) -> dict[str, str]:
        """Return all that is typed, for `show_texts`."""
        return {key: field.text() for key, field in self.fields.items()}

    def show_texts(self, texts: dict[str, str]) -> None:
        """Show again what was typed."""
        for key, text in texts.items():
            self.fields[key].setText(text)
