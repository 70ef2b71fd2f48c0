"""The scale on which a forecast is shown: its number as it is read, its round marks."""

from __future__ import annotations

from math import ceil, floor, log10

from designer.brewday.predictions import BY_KEY, ON_OTHER_SCALES
from designer.recipe.quantity import Kind
from designer.units.scales import PLATO, from_scale, to_scale
from designer.window.parts.display_format import DisplayFormat


def number_shown(key: str, value: float, display: DisplayFormat) -> float:
    """Return a forecast's number as it is read: on the scale shown, rounded as it is there."""
    each, scale = BY_KEY[key], _scale_of(BY_KEY[key].kind, display)
    decimals = 1 if scale in PLATO else 0 if scale else each.decimals
    return round(to_scale(each.kind, value, scale) if scale else value, decimals)


def apart(key: str, one: float, other: float, display: DisplayFormat) -> str:
    """Return how far two numbers that are shown of a forecast lie apart; "" where they are one."""
    decimals = 1 if _scale_of(BY_KEY[key].kind, display) in PLATO else BY_KEY[key].decimals
    text = (
        f"{abs(number_shown(key, one, display) - number_shown(key, other, display)):.{decimals}f}"
    )
    return display.decimal(text) if float(text) else ""


def on_other_scale(key: str, value: float, display: DisplayFormat) -> str:
    """Return the number on the scale that is not shown, of a forecast that has two; else ""."""
    other = ON_OTHER_SCALES.get(key)
    if other is None or BY_KEY[key].kind is not Kind.BEER_COLOUR:
        return ""
    if display.settings.colour == "ebc":
        return f"{value:.0f} {BY_KEY[key].unit}"
    return f"{value * other.of_one:.0f} {other.unit}"


def _scale_of(kind: Kind, display: DisplayFormat) -> str:
    """Return the word of the scale that is shown of a kind; "" for its own."""
    if kind is Kind.GRAVITY and display.settings.gravity == "plato":
        return PLATO[0]
    return "ebc" if kind is Kind.BEER_COLOUR and display.settings.colour == "ebc" else ""


def marks_of(
    key: str, low: float, high: float, display: DisplayFormat, most: int
) -> list[tuple[float, str]]:
    """Return round numbers of a scale between two values, with their text; the last has the unit.

    Never more than `most` of them.
    """
    kind = BY_KEY[key].kind
    scale = _scale_of(kind, display)

    def shown(value: float) -> float:
        return to_scale(kind, value, scale) if scale else value

    first, last = shown(low), shown(high)
    step = _round_step((last - first) / max(most - 1, 1))
    places = max(-floor(log10(step) + 1e-9), 0)
    if kind is Kind.GRAVITY and not scale:
        places = BY_KEY[key].decimals
    at = range(ceil(first / step - 1e-6), floor(last / step + 1e-6) + 1)
    texts = [display.decimal(f"{number * step:.{places}f}") for number in at]
    unit = {"": BY_KEY[key].unit, "ebc": "EBC"}.get(scale, "°P")
    if texts and unit:
        texts[-1] = f"{texts[-1]} {unit}"
    values = [from_scale(kind, n * step, scale) if scale else n * step for n in at]
    return list(zip(values, texts, strict=True))


def _round_step(least: float) -> float:
    """Return the least of 1, 2, 5, 10, 20 and so on that is no less."""
    ten = 10.0 ** floor(log10(max(least, 1e-9)))
    return next(each * ten for each in (1.0, 2.0, 5.0, 10.0) if each * ten >= 0.999 * least)
