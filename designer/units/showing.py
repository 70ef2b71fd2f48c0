"""Showing quantities in the units a brewer likes, rounded as a kitchen reads them."""

from __future__ import annotations

from math import inf

from designer.recipe.quantity import Kind
from designer.units.shown import ShownUnits
from designer.units.spellings import POUND_KG, US_GALLON_L


def show(
    kind: Kind,
    value: float,
    shown: ShownUnits = ShownUnits.METRIC,
    *,
    decimal_comma: bool = False,
) -> str:
    """Return the value as text with its unit, such as "6.5 L", "1.052" or "6.5 L (1.7 gal)".

    `value` is in the kind's base unit. What is shown can be typed back, but for both at once.
    """
    metric = _metric(kind, value)
    us = _us(kind, value)
    if shown is ShownUnits.METRIC or us is None:
        text = metric
    elif shown is ShownUnits.US:
        text = us
    else:
        text = f"{metric} ({us})"
    return text.replace(".", ",") if decimal_comma else text


def _trimmed(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


_Steps = tuple[tuple[str, float, int, float], ...]
"""Unit, how many of it the base unit is, decimal places, and the figure it is shown below."""

_METRIC_STEPS: dict[Kind, _Steps] = {
    Kind.MASS: (("g", 1000.0, 1, 100.0), ("g", 1000.0, 0, 1000.0), ("kg", 1.0, 3, inf)),
    Kind.VOLUME: (("mL", 1000.0, 0, 100.0), ("L", 1.0, 2, inf)),
    Kind.LENGTH: (("cm", 100.0, 1, 300.0), ("m", 1.0, 0, inf)),
}
_US_STEPS: dict[Kind, _Steps] = {
    Kind.MASS: (("oz", 16.0 / POUND_KG, 2, 16.0), ("lb", 1.0 / POUND_KG, 2, inf)),
    Kind.VOLUME: (
        ("fl oz", 128.0 / US_GALLON_L, 1, 25.6),
        ("qt", 4.0 / US_GALLON_L, 2, 4.0),
        ("gal", 1.0 / US_GALLON_L, 2, inf),
    ),
    Kind.LENGTH: (("in", 1.0 / 0.0254, 1, 120.0), ("ft", 1.0 / 0.3048, 0, inf)),
}


def _stepped(value: float, steps: _Steps) -> str:
    """Show a value in the first unit in which its rounded figure is small enough.

    The rounded figure decides, so that 999.9 g is "1 kg" and not a "1000 g" which, typed back,
    would be shown otherwise.
    """
    least, text = 0.0, ""
    for unit, factor, places, below in steps:
        figure = max(round(abs(value) * factor, places), round(least * factor, places))
        text = f"{_trimmed(-figure if value < 0.0 else figure, places)} {unit}"
        if figure < below:
            break
        least = below / factor
    return text


def _metric(kind: Kind, value: float) -> str:
    if kind in _METRIC_STEPS:
        return _stepped(value, _METRIC_STEPS[kind])
    if kind is Kind.TIME:
        return _time(value)
    form = _FORMS.get(kind)
    if form is None:
        return _trimmed(value, 3)
    unit, factor, places = form
    return f"{_trimmed(factor * value, places)}{unit}" if places >= 0 else f"{value:.3f}"


def _time(minutes: float) -> str:
    whole = round(minutes)
    if whole >= 2880:
        return f"{_trimmed(max(minutes / 1440.0, 2.0), 1)} d"
    if whole >= 180:
        hours, rest = divmod(whole, 60)
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    return f"{_trimmed(minutes, 1 if round(abs(minutes), 1) < 10.0 else 0)} min"


_FORMS: dict[Kind, tuple[str, float, int]] = {
    Kind.TEMPERATURE: (" °C", 1.0, 1),
    Kind.TEMPERATURE_DIFFERENCE: (" °C", 1.0, 1),
    Kind.GRAVITY: ("", 1.0, -1),
    Kind.MALT_COLOUR: (" °L", 1.0, 1),
    Kind.BEER_COLOUR: (" SRM", 1.0, 1),
    Kind.EVAPORATION: (" L/h", 1.0, 2),
    Kind.BITTERNESS: (" IBU", 1.0, 0),
    Kind.FRACTION: (" %", 100.0, 1),
    Kind.POWER: (" W", 1.0, 0),
    Kind.LOSS_RATE: (" W/K", 1.0, 1),
    Kind.ABSORPTION: (" L/kg", 1.0, 2),
    Kind.CONCENTRATION: (" mg/L", 1.0, 2),
    Kind.CARBONATION: (" vol", 1.0, 2),
    Kind.RATE: (" /min", 1.0, 4),
    Kind.POINTS_YIELD: (" ppg", 1.0, 1),
    Kind.MONEY: ("", 1.0, 2),
}


def _us(kind: Kind, value: float) -> str | None:
    if kind in _US_STEPS:
        return _stepped(value, _US_STEPS[kind])
    if kind is Kind.TEMPERATURE:
        return f"{_trimmed(1.8 * value + 32.0, 0)} °F"
    if kind is Kind.TEMPERATURE_DIFFERENCE:
        return f"{_trimmed(1.8 * value, 0)} °F"
    if kind is Kind.EVAPORATION:
        return f"{_trimmed(value / US_GALLON_L, 2)} gal/h"
    return None
