"""Amounts that a kitchen can weigh and pour: whole steps of its scale and jug, in the unit typed.

The steps are a judgement: a scale shows grams, but nobody weighs 984 g of extract.
"""

from __future__ import annotations

from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.systems import is_in_us

KG_PER_LB, KG_PER_OZ = 0.45359237, 0.028349523125
L_PER_GAL = 3.785411784
"""All three by definition."""
GRAM = 0.001
FINE = 0.2
"""What a step is divided to where a whole one does not hit."""


def weighable(kg: float, before: Quantity | None, fineness: float = 1.0) -> Quantity:
    """Return a mass near `kg` in steps for its size, in the system of the amount before it.

    With a `fineness` steps are divided, down to a gram; 0 leaves it unrounded.
    """
    if not fineness:
        return typed(Kind.MASS, kg, ".9g")
    if before is not None and is_in_us(before.text):
        return _in_us(kg, fineness)
    step = max(_step_kg(kg) * fineness, GRAM)
    rounded = round(max(round(kg / step), 1) * step, 6)
    return typed(Kind.MASS, rounded, ".6g")


def _step_kg(kg: float) -> float:
    for below, step in ((0.1, 0.001), (0.25, 0.005), (0.5, 0.01), (2.0, 0.05)):
        if kg < below:
            return step
    return 0.1


def _in_us(kg: float, fineness: float) -> Quantity:
    ounces = kg / KG_PER_OZ
    unit, kg_per_unit, step = ("lb", KG_PER_LB, 0.1) if ounces >= 16.0 else ("oz", KG_PER_OZ, 0.25)
    if ounces < 4.0:
        step = 0.05
    figure = round(max(round(kg / kg_per_unit / (step * fineness)), 1) * step * fineness, 4)
    return Quantity(figure * kg_per_unit, f"{figure:g} {unit}")


def pourable(litres: float, before: Quantity | None, fineness: float = 1.0) -> Quantity:
    """Return a volume near `litres` that a jug shows, in the system of the volume before it."""
    if not fineness:
        return typed(Kind.VOLUME, litres, ".9g")
    if before is not None and is_in_us(before.text):
        figure = round(round(litres / L_PER_GAL / (0.05 * fineness)) * 0.05 * fineness, 4)
        return Quantity(figure * L_PER_GAL, f"{figure:g} gal")
    step = 0.1 * fineness
    return typed(Kind.VOLUME, round(round(litres / step) * step, 6), ".6g")
