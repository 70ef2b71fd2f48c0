"""Forecasts as text in the preferred scales, and a wanted forecast read from text."""

from __future__ import annotations

from designer.brewday.predictions import PREDICTIONS
from designer.recipe.quantity import Kind
from designer.window.parts.display_format import DisplayFormat

_KINDS = {each.key: each.kind for each in PREDICTIONS}


def figure(key: str, value: float, display: DisplayFormat, *, unit: bool = True) -> str:
    """Return a forecast's number as text."""
    kind = _KINDS[key]
    if key == "abv_percent":
        return display.decimal(f"{value:.1f}") + (" %" if unit else "")
    in_ebc = kind is Kind.BEER_COLOUR and display.settings.colour == "ebc"
    if kind in (Kind.BITTERNESS, Kind.BEER_COLOUR) and not in_ebc:
        value = float(round(value))
    text = display.value(kind, value)
    return text if unit else text.split(" ")[0]


def wanted_value(key: str, text: str, display: DisplayFormat) -> float:
    """Return the forecast that was typed; a bare number is in the scale shown.

    Raises RefusedInputError.
    """
    kind = _KINDS[key]
    if key == "abv_percent":
        return 100.0 * display.read(Kind.FRACTION, text).value
    bare = ""
    if kind is Kind.BEER_COLOUR and display.settings.colour == "ebc":
        bare = "EBC"
    elif kind is Kind.GRAVITY and display.settings.gravity == "plato":
        bare = "°P"
    return display.read(kind, text, bare=bare).value
