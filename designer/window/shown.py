"""What is typed and shown in the window, in the units, scales and signs that are preferred.

The recipe keeps what was typed. A field shows that text where it is in the shown system already,
else the value converted; it is written back only if its text was changed.
"""

from __future__ import annotations

import re
from functools import lru_cache

from designer.recipe.document import PART_TYPES
from designer.recipe.edits import ChangePart, Edit
from designer.recipe.fields import FieldFacts, facts_of
from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, read, show
from designer.window.settings import Settings
from designer.wort.density import plato_from_gravity

# Patterns are compiled when first used: only reading what is typed needs them.
_US_WORD = (
    r"(?<![a-z])(lbs?|oz|ounces?|pounds?|gals?|gallons?|qts?|quarts?|pts?|pints?|cups?|floz|in|inch"
    r"|inches|ft|feet|f|°f|gal/h|qt/h)(?![a-z])"
)
_BARE = r"[-+]?[\d.,]+"
_PLAIN = r"([-+]?[\d.,]+)\s*(\D*)"
_SYSTEMS = (Kind.MASS, Kind.VOLUME, Kind.TEMPERATURE, Kind.EVAPORATION, Kind.LENGTH)


class Shown:
    """Reads and shows quantities by the preferences in `settings`."""

    def __init__(self, settings: Settings) -> None:
        self.settings = settings

    @property
    def one_system(self) -> ShownUnits:
        """The system that a bare number belongs to."""
        units = self.settings.units
        return ShownUnits.METRIC if units is ShownUnits.BOTH else units

    @property
    def pack_set(self) -> str:
        """The set of pack sizes that belongs to the shown units: "metric" or "us"."""
        return "us" if self.one_system is ShownUnits.US else "metric"

    def decimal(self, text: str) -> str:
        """Return the text with the decimal sign of the locale."""
        return text.replace(".", ",") if self.settings.decimal_comma else text

    def value(self, kind: Kind, value: float) -> str:
        """Return a value as text in the shown units."""
        if kind is Kind.GRAVITY and self.settings.gravity == "plato":
            text = f"{float(plato_from_gravity(value)):.1f} °P"
        elif kind is Kind.BEER_COLOUR and self.settings.colour == "ebc":
            text = f"{1.97 * value:.0f} EBC"
        else:
            return show(kind, value, self.settings.units, decimal_comma=self.settings.decimal_comma)
        return self.decimal(text)

    def short(self, kind: Kind, value: float) -> str:
        """Return a computed value in one system only, for pictures with little room."""
        return self.rounded(kind, value).split(" (")[0]

    def cure(self, fix: Edit) -> str:
        """Return what a cure is called, with its figure in the shown units."""
        value = getattr(fix, "value", None)
        if not isinstance(fix, ChangePart) or not isinstance(value, Quantity):
            return fix.text
        facts = facts_of(PART_TYPES[fix.part], fix.field)
        return fix.text.replace(value.text, self.quantity(facts.kind, value))

    def rounded(self, kind: Kind, value: float) -> str:
        """Return a computed value as text, rounded as a kitchen reads it."""
        if kind is Kind.VOLUME and self.settings.units is not ShownUnits.US:
            value = round(value, 1)
        elif kind is Kind.TEMPERATURE or (kind is Kind.TIME and value >= 10.0):
            value = float(round(value))
        return self.value(kind, value)

    def quantity(self, kind: Kind, quantity: Quantity | None) -> str:
        """Return what a field shows for a quantity; nothing for None."""
        if quantity is None:
            return ""
        text = self._typed(kind, quantity)
        if kind not in _SYSTEMS:
            return text
        is_us = re.search(_US_WORD, quantity.text, re.IGNORECASE) is not None
        units = self.settings.units
        if units is ShownUnits.BOTH:
            other = ShownUnits.METRIC if is_us else ShownUnits.US
            comma = self.settings.decimal_comma
            return f"{text} ({show(kind, quantity.value, other, decimal_comma=comma)})"
        if is_us is (units is ShownUnits.US):
            return text
        return show(kind, quantity.value, units, decimal_comma=self.settings.decimal_comma)

    def to_edit(self, kind: Kind, quantity: Quantity | None) -> str:
        """Return the text that an editor starts with: one system only."""
        if quantity is not None and self.settings.units is ShownUnits.BOTH:
            return self._typed(kind, quantity)
        return self.quantity(kind, quantity)

    def _typed(self, kind: Kind, quantity: Quantity) -> str:
        """Return the text that was typed, with the decimal sign of the locale."""
        if not self.settings.decimal_comma:
            return quantity.text
        text = quantity.text if "," in quantity.text else self.decimal(quantity.text)
        if _reads_as(kind, text, comma=True) == quantity.value:
            return text
        return show(kind, quantity.value, self.one_system, decimal_comma=True)

    def default(self, facts: FieldFacts) -> str:
        """Return what stands in an empty field: the default that is then taken."""
        if facts.default is None:
            return facts.default_text
        if facts.kind in _SYSTEMS and facts.default != 0.0:
            return self.value(facts.kind, facts.default)
        return self.decimal(facts.default_text)

    def read(self, kind: Kind, text: str, before: str = "", bare: str = "") -> Quantity:
        """Return the quantity typed, with a text that reads the same on every machine.

        A bare number takes the unit of what the field showed `before`, else `bare`, else the usual
        unit of the shown system. Raises RefusedInputError.
        """
        typed = " ".join(text.split())
        if re.fullmatch(_BARE, typed) and kind is not Kind.DOSE:
            unit = _unit_of(before) or bare
            typed = f"{typed} {unit}".strip() if unit else typed
        comma = self.settings.decimal_comma
        found = read(kind, typed, shown=self.one_system, decimal_comma=comma)
        if re.fullmatch(_BARE, typed) and kind not in (Kind.DOSE, Kind.GRAVITY, Kind.NUMBER):
            return self._with_unit(kind, typed, found)
        if _reads_as(kind, found.text) != found.value:
            return Quantity(found.value, show(kind, found.value), found.spread, found.unit)
        return found

    def _with_unit(self, kind: Kind, typed: str, found: Quantity) -> Quantity:
        """Give a bare number its unit, so that it means the same to whoever opens the file."""
        usual = _unit_of(show(kind, found.value, self.one_system))
        text = f"{typed} {usual}".strip()
        if _reads_as(kind, text) != found.value:
            text = show(kind, found.value, self.one_system)
        if _reads_as(kind, text) != found.value:
            text = f"{found.value!r} {_unit_of(show(kind, found.value))}".strip()
        return Quantity(found.value, text, found.spread, found.unit)


def _unit_of(text: str) -> str:
    """The unit of a text such as "250 g"; nothing for one that is not a number and a unit."""
    parts = re.fullmatch(_PLAIN, text.strip())
    return parts.group(2).strip() if parts is not None else ""


@lru_cache(maxsize=4096)
def _reads_as(kind: Kind, text: str, *, comma: bool = False) -> float | None:
    from designer.errors import RefusedInputError

    try:
        return read(kind, text, decimal_comma=comma).value
    except RefusedInputError:
        return None


_STEPS = {
    "kg": 0.05, "g": 5.0, "lb": 0.25, "oz": 0.25, "L": 0.1, "mL": 50.0, "gal": 0.1, "qt": 0.25,
    "°C": 1.0, "°F": 1.0, "min": 5.0, "h": 0.25, "d": 1.0, "%": 0.1, "W": 100.0, "cm": 1.0,
    "in": 0.5, "m": 50.0, "L/h": 0.1, "gal/h": 0.05, "vol": 0.1, "mg/L": 0.1, "°L": 1.0,
    "EBC": 2.0, "SRM": 1.0, "IBU": 1.0, "L/kg": 0.1, "W/K": 0.5, "tablet": 0.5,
}  # fmt: skip


def stepped(text: str, steps: float) -> str | None:
    """Return the text one or more steps up or down in the unit it is in; None if it is no number.

    Small amounts take smaller steps, so that 8 g of hops goes to 9 g and 250 g of grain to 255 g.
    """
    parts = re.fullmatch(_PLAIN, text.strip())
    if parts is None:
        return None
    digits, unit = parts.group(1), parts.group(2).strip()
    comma = "," in digits and "." not in digits
    try:
        number = float(digits.replace(",", "."))
    except ValueError:
        return None
    step = _STEPS.get(unit, 1.0 if abs(number) >= 10.0 else 0.1)
    if unit in ("g", "min") and number < (100.0 if unit == "g" else 10.0):
        step = 1.0
    moved = max(round((number + steps * step) / step) * step, 0.0 if number >= 0.0 else -1e9)
    places = max(len(digits.replace(",", ".").partition(".")[2]), 2 if step < 0.1 else 1)
    shown = f"{moved:.{places}f}"
    if "." in shown:
        shown = shown.rstrip("0").rstrip(".")
    return f"{shown.replace('.', ',') if comma else shown} {unit}".strip()
