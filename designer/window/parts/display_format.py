"""What is typed and shown in the window, in the units, scales and signs that are preferred.

The recipe keeps what was typed, tidied (`1.5kg` is `1.5 kg`). A field shows that text where it is
in the shown system already, else the value converted; it is written back only if its text was
changed. What was typed in this window is shown as it was typed, whatever its system, until other
units are chosen or the recipe is opened anew: nothing turns into something else below the hand that
typed it.
"""

from __future__ import annotations

import re
from dataclasses import replace

from PySide6.QtCore import QLocale

from designer.recipe.fields import FieldFacts
from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind, Quantity, When
from designer.recipe.systems import is_in_us
from designer.recipe.when_words import said_when
from designer.translation import isolated, tr
from designer.units import ShownUnits, read, read_when, show
from designer.units.control_characters import figures_only
from designer.units.numbers import leading_number, normalised, with_decimal_sign
from designer.units.piece_words import said_pieces, said_span
from designer.units.pint_units import BeingLookedUpError, without_waiting
from designer.units.scales import to_scale
from designer.units.writing import (
    as_read,
    is_bare,
    lasting,
    lasting_when,
    reads_back,
    same,
    tidied,
    unit_of,
    when_in_locale,
)
from designer.window.parts.settings import Settings

_PLAIN = r"([-+]?[\d.,]+)\s*(\D*)"
MOST_TYPED = 500
"""How many of the latest typed quantities are known to have been typed here."""
_SYSTEMS = tuple(kind for kind, facts in KINDS.items() if facts.us_words)
"""Kinds whose fields are shown in the other system too."""


class DisplayFormat:
    """Reads and shows quantities by the preferences in `settings`."""

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
        self._typed_here: dict[int, Quantity] = {}
        self._typed_under = self._systems()
        settings.changed.connect(self._follow_units)

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

    def value(
        self,
        kind: Kind,
        value: float,
        *,
        rounded: bool = False,
        units: ShownUnits | None = None,
    ) -> str:
        """Return a value as text in the shown units, or in others."""
        return isolated(self._value(kind, value, rounded=rounded, units=units))

    def _value(
        self,
        kind: Kind,
        value: float,
        *,
        rounded: bool = False,
        units: ShownUnits | None = None,
    ) -> str:
        scaled = self.on_scale(kind, value)
        if scaled is not None:
            return f"{scaled[0]} {scaled[1]}"
        return self.decimal(show(kind, value, units or self.settings.units, rounded=rounded))

    def on_scale(self, kind: Kind, value: float) -> tuple[str, str] | None:
        """Return figure and unit on the scale that is preferred to the usual one of its kind."""
        if kind is Kind.GRAVITY and self.settings.gravity == "plato":
            return self.decimal(f"{to_scale(kind, value, '°p'):.1f}"), "°P"
        if kind is Kind.BEER_COLOUR and self.settings.colour == "ebc":
            return f"{to_scale(kind, value, 'ebc'):.0f}", "EBC"
        if kind is Kind.MALT_COLOUR and self.settings.ingredient_colour == "beer":
            scale = self.settings.colour
            return f"{to_scale(kind, value, scale):.0f}", scale.upper()
        return None

    def single(self, kind: Kind, value: float) -> str:
        """Return a value in one system only."""
        return self.value(kind, value, units=self.one_system)

    def short(self, kind: Kind, value: float) -> str:
        """Return a computed value in one system only, for pictures with little room."""
        return self.value(kind, value, rounded=True, units=self.one_system)

    def rounded(self, kind: Kind, value: float) -> str:
        """Return a computed value as text, rounded as a kitchen reads it."""
        return self.value(kind, value, rounded=True)

    def quantity(self, kind: Kind, quantity: Quantity | None) -> str:
        """Return what is shown for a quantity; nothing for None."""
        return isolated(self._quantity(kind, quantity))

    def _quantity(self, kind: Kind, quantity: Quantity | None) -> str:
        if quantity is None:
            return ""
        text = self._typed(kind, quantity)
        if kind is Kind.DOSE:
            text = said_pieces(text)
        if kind not in _SYSTEMS:
            return self._on_beers_scale(quantity) if kind is Kind.MALT_COLOUR else text
        is_us = is_in_us(quantity.text)
        units = self.settings.units
        if units is not ShownUnits.BOTH and self.was_typed_here(quantity):
            return text
        if units is ShownUnits.BOTH:
            other = ShownUnits.METRIC if is_us else ShownUnits.US
            comma = self.settings.decimal_comma
            return f"{text} ({show(kind, quantity.value, other, decimal_comma=comma)})"
        if is_us is (units is ShownUnits.US):
            return text
        return show(kind, quantity.value, units, decimal_comma=self.settings.decimal_comma)

    def _on_beers_scale(self, quantity: Quantity) -> str:
        """Return the colour of an ingredient: as typed, or on the scale of the beer's."""
        text = self._typed(Kind.MALT_COLOUR, quantity)
        scaled = self.on_scale(Kind.MALT_COLOUR, quantity.value)
        if scaled is None or self.was_typed_here(quantity):
            return text
        return text if scaled[1] in quantity.text.upper().split() else " ".join(scaled)

    def to_edit(self, kind: Kind, quantity: Quantity | None) -> str:
        """Return the text that an editor starts with: one system only."""
        if quantity is not None and self.settings.units is ShownUnits.BOTH:
            return self._typed(kind, quantity)
        return self._quantity(kind, quantity)

    def was_typed_here(self, quantity: Quantity) -> bool:
        """Whether the quantity was typed in this window, since its units were last chosen."""
        return self._typed_here.get(id(quantity)) is quantity

    def _follow_units(self) -> None:
        if self._typed_under != self._systems():
            self._typed_under = self._systems()
            self._typed_here.clear()

    def _systems(self) -> tuple[str, ...]:
        """Return what decides in which units a typed text is shown."""
        settings = self.settings
        colours = settings.colour if settings.ingredient_colour == "beer" else ""
        return str(settings.units), settings.ingredient_colour, colours

    def meaning(self, kind: Kind, quantity: Quantity) -> str:
        """Return what a typed text was read as, in the shown units, where it does not say so."""
        read_as = self._value(kind, quantity.value)
        if quantity.spread is not None or read_as == self.to_edit(kind, quantity):
            return ""
        return "" if kind in (Kind.NUMBER, Kind.MONEY, Kind.DOSE) else read_as

    def read_as(self, kind: Kind, quantity: Quantity) -> str:
        """Return a sentence: what was typed where that is not shown, else what it was read as."""
        if self._quantity(kind, quantity) != self._typed(kind, quantity):
            typed = tr("Typed {amount}", amount=quantity.text)
            return typed if self.settings.units is not ShownUnits.BOTH else ""
        meaning = self.meaning(kind, quantity)
        return tr("Read as {amount}", amount=meaning) if meaning else ""

    def _typed(self, kind: Kind, quantity: Quantity) -> str:
        """Return the text that was typed, with the decimal sign of the locale."""
        return said_span(self._signed(kind, quantity))

    def _signed(self, kind: Kind, quantity: Quantity) -> str:
        if not self.settings.decimal_comma:
            return quantity.text
        text = quantity.text if "," in quantity.text else self.decimal(quantity.text)
        if same(as_read(kind, text, comma=True), quantity):
            return text
        text = with_decimal_sign(quantity.text, from_comma=False, to_comma=True)
        if quantity.spread is not None and same(as_read(kind, text, comma=True), quantity):
            return text
        return show(kind, quantity.value, self.one_system, decimal_comma=True)

    def default(self, facts: FieldFacts) -> str:
        """Return what stands in an empty field: the default that is then taken."""
        if facts.default is None:
            return tr(facts.default_text)
        if facts.kind in _SYSTEMS and facts.default != 0.0:
            return self._value(facts.kind, facts.default)
        # Nothing at all is a word; a figure is read back where a bare number takes its unit.
        none = facts.default == 0.0
        return self.decimal(tr(facts.default_text) if none else facts.default_text)

    def read(
        self, kind: Kind, text: str, before: str = "", bare: str = "", *, look_up: bool = True
    ) -> Quantity:
        """Return the quantity typed, with a text that reads the same on every machine.

        A bare number takes the unit of what the field showed `before`, else `bare`, else the usual
        unit of the shown system. Never waits for rarer units: until they are known, which
        `unit_words` tells, they are refused with a BeingLookedUpError; with `look_up` they are
        fetched. Raises RefusedInputError.
        """
        typed = self.with_unit(kind, text, before, bare)
        comma = self.settings.decimal_comma
        try:
            with without_waiting():
                found = read(kind, typed, shown=self.one_system, decimal_comma=comma)
        except BeingLookedUpError:
            if look_up:
                from designer.window.parts.unit_words import unit_words

                unit_words().look_up()
            raise
        quantity = _kept(kind, found)
        self._remember(quantity)
        return quantity

    def kept_text(self, kind: Kind, text: str) -> str:
        """Return a quantity's text that is kept outside a recipe, as this place writes it."""
        quantity = as_read(kind, text) if self.settings.decimal_comma else None
        return text if quantity is None else self._typed(kind, quantity)

    def with_unit(self, kind: Kind, text: str, before: str = "", bare: str = "") -> str:
        """Return what was typed, with the unit that `read` takes for a bare number."""
        typed = " ".join(figures_only(text).split())
        if is_bare(normalised(typed)):
            return f"{typed} {self._bare_unit(kind, typed, before, bare)}".strip()
        return typed

    def read_when(self, text: str) -> When:
        """Return when something goes in, with a text that says so on every machine.

        Never waits for rarer units, as `read`. Raises RefusedInputError.
        """
        typed = tidied(" ".join(figures_only(text).split()))
        comma = self.settings.decimal_comma
        try:
            with without_waiting():
                found = read_when(typed, shown=self.one_system, decimal_comma=comma)
        except BeingLookedUpError:
            from designer.window.parts.unit_words import unit_words

            unit_words().look_up()
            raise
        return lasting_when(found)

    def when(self, when: When) -> str:
        """Return what a field shows for when something goes in."""
        if not self.settings.decimal_comma:
            return said_when(when.text)
        return said_when(when_in_locale(when.text, from_comma=False, to_comma=True))

    def _bare_unit(self, kind: Kind, typed: str, before: str, bare: str) -> str:
        """Return the unit of a bare number; nothing where it needs none."""
        unit = unit_of(before) or bare
        if kind is Kind.GRAVITY:  # 1.050 and 1050 are gravities whatever scale is shown
            number = leading_number(normalised(typed), decimal_comma=self.settings.decimal_comma)
            return unit if number is not None and 2.0 < number[0] <= 100.0 else ""
        return unit or KINDS[kind].bare_in(us=self.one_system is ShownUnits.US)

    def _remember(self, quantity: Quantity) -> None:
        self._typed_here[id(quantity)] = quantity
        if len(self._typed_here) > MOST_TYPED:
            del self._typed_here[next(iter(self._typed_here))]


class ShownFirst:
    """What a field showed when typing in it began: a bare number takes its unit, also while what
    is typed there is empty or has another unit for a moment."""

    def __init__(self) -> None:
        self._merge_key, self._text = "", ""

    def of(self, merge_key: str, text: str) -> str:
        """Return the text first shown under a key; `text` is what is shown now."""
        if not merge_key:
            return text
        if merge_key != self._merge_key:
            self._merge_key, self._text = merge_key, text
        return self._text


def _kept(kind: Kind, found: Quantity) -> Quantity:
    """Return a quantity as it goes into the recipe: its text tidied, the same for every reader."""
    text = tidied(found.text)
    if text != found.text:
        for each in (text, with_decimal_sign(text, from_comma=True, to_comma=False)):
            neat = replace(found, text=each)
            if reads_back(kind, neat):
                return neat
    return lasting(kind, found)


_STEPS = {unit: step for facts in KINDS.values() for unit, step in facts.steps.items()}


def stepped(text: str, steps: float) -> str | None:
    """Return the text one or more steps up or down in the unit it is in; None if it is no number.

    Small amounts take smaller steps, so that 8 g of hops goes to 9 g and 250 g of grain to 255 g.
    """
    parts = re.fullmatch(_PLAIN, text.strip())
    if parts is None:
        return None
    digits, unit = parts.group(1), parts.group(2).strip()
    comma = "," in digits and "." not in digits
    found = leading_number(digits, decimal_comma=QLocale().decimalPoint() == ",")
    if found is None or found[1]:
        return None
    number = found[0]
    step = _STEPS.get(unit, 1.0 if abs(number) >= 10.0 else 0.1)
    if unit in ("g", "min") and number < (100.0 if unit == "g" else 10.0):
        step = 1.0
    moved = max(round((number + steps * step) / step) * step, 0.0 if number >= 0.0 else -1e9)
    digits = with_decimal_sign(digits, from_comma=QLocale().decimalPoint() == ",", to_comma=False)
    places = max(len(digits.partition(".")[2]), 2 if step < 0.1 else 1)
    shown = f"{moved:.{places}f}"
    if "." in shown:
        shown = shown.rstrip("0").rstrip(".")
    return f"{shown.replace('.', ',') if comma else shown} {unit}".strip()
