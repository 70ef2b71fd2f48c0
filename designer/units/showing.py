"""Showing quantities in the units a brewer likes, rounded as a kitchen reads them."""

from __future__ import annotations

from functools import cache

from designer.recipe.kinds import KINDS, Form, metric, written
from designer.recipe.quantity import Kind
from designer.units.quick_words import FACTORS
from designer.units.scales import to_scale
from designer.units.shown import ShownUnits


def show(
    kind: Kind,
    value: float,
    shown: ShownUnits = ShownUnits.METRIC,
    *,
    decimal_comma: bool = False,
    rounded: bool = False,
) -> str:
    """Return the value as text with its unit, such as "6.5 L", "1.052" or "6.5 L (1.7 gal)".

    `value` is in the kind's base unit. What is shown can be typed back, but for both at once. A
    figure that was worked out is `rounded` as a kitchen reads it.
    """
    if shown is ShownUnits.METRIC or not KINDS[kind].us:
        text = metric(kind, value, rounded=rounded)
    elif shown is ShownUnits.US:
        text = _us(kind, value)
    else:
        text = f"{metric(kind, value, rounded=rounded)} ({_us(kind, value)})"
    return text.replace(".", ",") if decimal_comma else text


def _us(kind: Kind, value: float) -> str:
    if kind in (Kind.TEMPERATURE, Kind.TEMPERATURE_DIFFERENCE):
        (form,) = KINDS[kind].us
        return written(to_scale(kind, value, form.unit.lower()), (form._replace(per_base=1.0),))
    return written(value, _us_forms(kind))


@cache
def _us_forms(kind: Kind) -> tuple[Form, ...]:
    """The forms of a kind with what the quick table says their units are worth."""
    words = FACTORS[kind]
    return tuple(form._replace(per_base=1.0 / words[form.unit]) for form in KINDS[kind].us)
