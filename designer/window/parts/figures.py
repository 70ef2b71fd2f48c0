"""Forecasts as text in the preferred scales, and a wanted forecast read from text."""

from __future__ import annotations

from designer.brewday.predictions import PREDICTIONS
from designer.recipe.quantity import Kind
from designer.window.parts.display_format import Shown

_KINDS = {each.key: each.kind for each in PREDICTIONS}


def figure(key: str, value: float, shown: Shown, *, unit: bool = True) -> str:
    """Return a forecast's number as text."""
    kind = _KINDS[key]
    if key == "abv_percent":
        return shown.decimal(f"{value:.1f}") + (" %" if unit else "")
    in_ebc = kind is Kind.BEER_COLOUR and shown.settings.colour == "ebc"
    if kind in (Kind.BITTERNESS, Kind.BEER_COLOUR) and not in_ebc:
        value = float(round(value))
    text = shown.value(kind, value)
    return text if unit else text.split(" ")[0]


def wanted_value(key: str, text: str, shown: Shown) -> float:
    """Return the forecast that was typed; a bare number is in the scale shown.

    Raises RefusedInputError.
    """
    kind = _KINDS[key]
    if key == "abv_percent":
        return 100.0 * shown.read(Kind.FRACTION, text).value
    bare = ""
    if kind is Kind.BEER_COLOUR and shown.settings.colour == "ebc":
        bare = "EBC"
    elif kind is Kind.GRAVITY and shown.settings.gravity == "plato":
        bare = "°P"
    return shown.read(kind, text, bare=bare).value
