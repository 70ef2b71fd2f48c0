"""Showing quantities in the units a brewer likes, rounded as a kitchen reads them."""

from __future__ import annotations

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


def _metric(kind: Kind, value: float) -> str:
    if kind is Kind.MASS:
        return _metric_mass(value)
    if kind is Kind.VOLUME:
        return f"{_trimmed(1000 * value, 0)} mL" if abs(value) < 0.1 else f"{_trimmed(value, 2)} L"
    if kind is Kind.LENGTH:
        return f"{_trimmed(100 * value, 1)} cm" if abs(value) < 3.0 else f"{_trimmed(value, 0)} m"
    if kind is Kind.TIME:
        return _time(value)
    form = _FORMS.get(kind)
    if form is None:
        return _trimmed(value, 3)
    unit, factor, places = form
    return f"{_trimmed(factor * value, places)}{unit}" if places >= 0 else f"{value:.3f}"


def _metric_mass(kg: float) -> str:
    grams = 1000.0 * kg
    if abs(kg) >= 1.0:
        return f"{_trimmed(kg, 3)} kg"
    return f"{_trimmed(grams, 0 if abs(grams) >= 100.0 else 1)} g"


def _time(minutes: float) -> str:
    if minutes >= 2880.0:
        return f"{_trimmed(minutes / 1440.0, 1)} d"
    if minutes >= 180.0:
        hours, rest = divmod(round(minutes), 60)
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    return f"{_trimmed(minutes, 1 if minutes < 10.0 else 0)} min"


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
    if kind is Kind.MASS:
        return _us_mass(value)
    if kind is Kind.VOLUME:
        return _us_volume(value)
    if kind is Kind.TEMPERATURE:
        return f"{_trimmed(1.8 * value + 32.0, 0)} °F"
    if kind is Kind.TEMPERATURE_DIFFERENCE:
        return f"{_trimmed(1.8 * value, 0)} °F"
    if kind is Kind.EVAPORATION:
        return f"{_trimmed(value / US_GALLON_L, 2)} gal/h"
    if kind is Kind.LENGTH:
        inches = value / 0.0254
        return (
            f"{_trimmed(inches, 1)} in" if abs(inches) < 120 else f"{_trimmed(inches / 12, 0)} ft"
        )
    return None


def _us_mass(kg: float) -> str:
    pounds = kg / POUND_KG
    if abs(pounds) >= 1.0:
        return f"{_trimmed(pounds, 2)} lb"
    return f"{_trimmed(16.0 * pounds, 2)} oz"


def _us_volume(litres: float) -> str:
    gallons = litres / US_GALLON_L
    if abs(gallons) >= 1.0:
        return f"{_trimmed(gallons, 2)} gal"
    if abs(gallons) >= 0.2:
        return f"{_trimmed(4.0 * gallons, 2)} qt"
    return f"{_trimmed(128.0 * gallons, 1)} fl oz"
