"""Figures as text: in the units, on the scales and with the decimal sign of whoever reads them."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.predictions import ON_OTHER_SCALES, PREDICTIONS, Prediction
from designer.brewday.results import Range
from designer.recipe.kinds import KINDS
from designer.recipe.message import Message
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.systems import is_in_us
from designer.units import ShownUnits, show
from designer.units.numbers import with_decimal_sign
from designer.units.piece_words import said_pieces, said_span
from designer.units.quoting import one_line
from designer.units.scales import to_scale

PLATO = ("°P", 1)
"""The sign of degrees Plato, and their decimals."""


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes figures, each with its unit; `number` alone leaves that to a sentence.

    `gravity` is "sg" or "plato", `colour` that of the beer, "srm" or "ebc", `ingredient_colour`
    "typed", or "beer" for the scale of the beer.
    """

    units: ShownUnits = ShownUnits.METRIC
    gravity: str = "sg"
    colour: str = "srm"
    decimal_comma: bool = False
    ingredient_colour: str = "typed"

    def __call__(self, kind: Kind, value: float) -> str:
        """Return a figure that was worked out, rounded as a brewer reads it."""
        return self._written(kind, float(value), rounded=True)

    def exactly(self, kind: Kind, value: float) -> str:
        """Return a figure as it was chosen."""
        return self._written(kind, float(value), rounded=False)

    def _written(self, kind: Kind, value: float, *, rounded: bool) -> str:
        if kind is Kind.GRAVITY and self.gravity == "plato":
            return f"{self.number(to_scale(kind, value, '°p'), PLATO[1])} {PLATO[0]}"
        if kind is Kind.BEER_COLOUR and self.colour == "ebc":
            return f"{self.number(to_scale(kind, value, 'ebc'), 0)} EBC"
        if kind is Kind.MALT_COLOUR and self.ingredient_colour == "beer":
            return f"{self.number(to_scale(kind, value, self.colour), 0)} {self.colour.upper()}"
        return self.plain(show(kind, value, self.units, rounded=rounded))

    def number(self, value: float, places: int) -> str:
        """Return a number with so many decimals."""
        return self.plain(f"{float(value):.{places}f}")

    def plain(self, text: str) -> str:
        """Return a figure with the decimal sign of its reader."""
        return text.replace(".", ",") if self.decimal_comma else text

    def grams(self, grams: float) -> str:
        """Return what is weighed on a kitchen scale, to the gram."""
        metric, us = f"{float(grams):.0f} g", show(Kind.MASS, float(grams) / 1000.0, ShownUnits.US)
        if self.units is ShownUnits.METRIC:
            return metric
        return self.plain(us if self.units is ShownUnits.US else f"{metric} ({us})")

    def typed(self, kind: Kind, quantity: Quantity) -> str:
        """Return what was typed: as it was, or in other units where those are shown."""
        in_us = is_in_us(quantity.text)
        if KINDS[kind].us_words and (
            self.units is ShownUnits.BOTH or in_us is not (self.units is ShownUnits.US)
        ):
            return self(kind, quantity.value)
        text = said_pieces(quantity.text) if kind is Kind.DOSE else said_span(quantity.text)
        if not self.decimal_comma or "," in text:
            return text
        return with_decimal_sign(text, from_comma=False, to_comma=True)

    def said(self, message: Message) -> str:
        """Return a message in one line."""
        return one_line(message.said(self, self.typed))

    def forecast(self, each: Prediction, value: float, *, unit: bool = True) -> str:
        """Return a forecast's figure, with its unit where it has one."""
        sign, places = self._scale_of(each)
        text = self.number(self._on_scale(each, value), places)
        return f"{text} {sign}".rstrip() if unit else text

    def change(self, each: Prediction, value: float, before: float) -> str:
        """Return by how much a forecast is another, "" where it is shown alike."""
        sign, places = self._scale_of(each)
        now, then = (round(self._on_scale(each, figure), places) for figure in (value, before))
        by = now - then
        if abs(by) < 0.5 * 10.0**-places:
            return ""
        return f"{self.plain(f'{by:+.{places}f}')} {sign}".rstrip()

    def span(self, each: Prediction, found: Range) -> tuple[str, str]:
        """Return the ends of a range, the unit behind the second alone."""
        return self.forecast(each, found.low, unit=False), self.forecast(each, found.high)

    def _scale_of(self, each: Prediction) -> tuple[str, int]:
        if each.kind is Kind.GRAVITY:
            return PLATO if self.gravity == "plato" else ("", each.decimals)
        if each.key == "colour_srm" and self.colour == "ebc":
            other = ON_OTHER_SCALES[each.key]
            return other.unit, other.decimals
        return each.unit, each.decimals

    def _on_scale(self, each: Prediction, value: float) -> float:
        if each.kind is Kind.GRAVITY and self.gravity == "plato":
            return to_scale(each.kind, float(value), "°p")
        if each.key == "colour_srm" and self.colour == "ebc":
            return to_scale(each.kind, float(value), "ebc")
        return float(value)


PLAIN = Figures()
"""Metric units, specific gravity, SRM and a decimal point."""


def told_forecasts() -> tuple[Prediction, ...]:
    """Return the forecasts that are told in words: colour once, on the scale that is preferred."""
    return tuple(each for each in PREDICTIONS if each.key != ON_OTHER_SCALES["colour_srm"].key)
