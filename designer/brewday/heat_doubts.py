"""What nobody knows of heat in a kitchen: how fast a pot cools, and how warm a wort really is.

What a field of the recipe asks for has its spread there: evaporation, the stove's power, the heat
that the pot loses, a cooling constant that was measured.
"""

from __future__ import annotations

from designer.brewday.doubts import Doubt, Sure, ratio
from designer.recipe.choices import Stove
from designer.translation import message

COOLING = ratio(
    message("cooling constant"),
    0.5,
    "9.5 L in ice: 0.040 to 0.073 per minute, 19 L 0.028 to 0.11 (home records, second-hand); not "
    "stirred half of it (from memory)",
    Sure.ONE_SOURCE,
)
"""How much faster than usual the pot cools, where nobody took two readings."""

COOLING_IN_AIR = ratio(
    COOLING.words,
    0.75,
    "21 min with the lid off, 87 with it on, from the boil to 80 °C, 8 L in 24 cm: Hosom, article "
    "on the web, fit to kettles that cooled by themselves; a recipe says nothing of the lid",
    Sure.ONE_SOURCE,
)
"""The same where the pot stands in air."""

EVAPORATION_SCATTER = 0.08
"""Share by which what boils away in an hour differs from boil to boil on one stove in one pot, half
the 5 to 95 % range: the flame a little different each time (judgement)."""

STAND = Doubt(
    message("temperature of the stand"),
    0.0,
    -2.0,
    0.0,
    2.0,
    "kitchen thermometer; common practice, no source",
    Sure.JUDGEMENT,
)
"""Kelvin that the thermometer at the pot is off."""

_HEADS = "Sweeney et al., EPRI, ACEEE Summer Study 2014, about {}; the range is judgement"
_EFFICIENCY = message("efficiency of the stove")

STOVES: dict[str, Doubt] = {
    Stove.ELECTRIC: Doubt(
        _EFFICIENCY, 0.74, 0.60, 0.74, 0.80, _HEADS.format(0.74), Sure.ONE_SOURCE, most=0.95
    ),
    Stove.GAS: Doubt(
        _EFFICIENCY, 0.40, 0.30, 0.40, 0.50, _HEADS.format(0.40), Sure.ONE_SOURCE, most=0.95
    ),
    Stove.INDUCTION: Doubt(
        _EFFICIENCY, 0.84, 0.75, 0.84, 0.90, _HEADS.format(0.90), Sure.ONE_SOURCE, most=0.95
    ),
}
"""Share of a stove's power that reaches the pot; published: `designer.wort.heat`."""
