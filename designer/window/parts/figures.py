"""Forecasts as text in the preferred scales, and a wanted forecast read from text."""

from __future__ import annotations

from designer.brewday.predictions import BY_KEY
from designer.recipe.quantity import Kind
from designer.translation import isolated
from designer.window.parts.display_format import DisplayFormat

PERCENT = "%"


def figure(key: str, value: float, display: DisplayFormat, *, unit: bool = True) -> str:
    """Return a forecast's number as text."""
    each = BY_KEY[key]
    if each.kind is Kind.NUMBER:
        text = display.decimal(f"{value:.{each.decimals}f}")
        return isolated(f"{text} {each.unit}".rstrip()) if unit else text
    in_ebc = each.kind is Kind.BEER_COLOUR and display.settings.colour == "ebc"
    if each.kind is not Kind.GRAVITY and not in_ebc:
        value = round(value, each.decimals)
    if unit:
        return display.value(each.kind, value)
    scaled = display.on_scale(each.kind, value)
    return display.decimal(f"{value:.{each.decimals}f}") if scaled is None else scaled[0]


def wanted_value(key: str, text: str, display: DisplayFormat) -> float:
    """Return the forecast that was typed; a bare number is in the scale shown.

    Raises RefusedInputError.
    """
    each = BY_KEY[key]
    if each.unit == PERCENT:
        return 100.0 * display.read(Kind.FRACTION, text).value
    bare = ""
    if each.kind is Kind.BEER_COLOUR and display.settings.colour == "ebc":
        bare = "EBC"
    elif each.kind is Kind.GRAVITY and display.settings.gravity == "plato":
        bare = "°P"
    return display.read(each.kind, text, bare=bare).value
