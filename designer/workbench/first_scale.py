"""How a first recipe is weighed: steps that a kitchen scale shows, in the brewer's units."""

from __future__ import annotations

from designer.brewday.first.kitchen import Scale
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, read

OUNCE_KG, POUND_OUNCES, GALLON_L = 0.028349523125, 16, 3.785411784


def scale_for(units: ShownUnits) -> Scale:
    """Return how amounts are weighed where amounts are shown in these units."""
    return _US if units is ShownUnits.US else _METRIC


def _grams(kg: float) -> Quantity:
    return read(Kind.MASS, typed(Kind.MASS, round(kg, 6)).text)


def _litres(litres: float) -> Quantity:
    return read(Kind.VOLUME, typed(Kind.VOLUME, round(litres, 3)).text)


def _pounds(kg: float) -> Quantity:
    ounces = round(kg / OUNCE_KG, 4)
    if ounces > POUND_OUNCES and ounces % 0.25:  # a jar of 3.3 lb
        return read(Kind.MASS, f"{ounces / POUND_OUNCES:g} lb")
    pounds, rest = divmod(ounces, POUND_OUNCES)
    words = [f"{pounds:g} lb"] if pounds else []
    if rest or not pounds:
        words.append(f"{rest:g} oz")
    return read(Kind.MASS, " ".join(words))


def _ounces(kg: float) -> Quantity:
    return read(Kind.MASS, f"{round(kg / OUNCE_KG, 4):g} oz")


def _gallons(litres: float) -> Quantity:
    return read(Kind.VOLUME, f"{round(litres / GALLON_L, 4):g} gal")


_METRIC = Scale(
    extract=((2.5, 0.05), (0.0, 0.025)),
    grain=((0.2, 0.025), (0.05, 0.01), (0.0, 0.005)),
    hops=((0.008, 0.001), (0.0, 0.0005)),
    litres=0.1,
    mass=_grams,
    hop_mass=_grams,
    volume=_litres,
)
_US = Scale(
    extract=((0.0, OUNCE_KG),),
    grain=((8 * OUNCE_KG, OUNCE_KG), (2 * OUNCE_KG, 0.5 * OUNCE_KG), (0.0, 0.25 * OUNCE_KG)),
    hops=((0.5 * OUNCE_KG, 0.05 * OUNCE_KG), (0.0, 0.02 * OUNCE_KG)),
    litres=0.05 * GALLON_L,
    mass=_pounds,
    hop_mass=_ounces,
    volume=_gallons,
)
