"""How hot wort may be where it meets glass, hands and air.

Glass cracks where hot wort meets it; wort above some 50 °C burns the skin within seconds to
minutes and softens plastic. So it is not poured above 40 °C, nor above 30 °C into glass, and none
is stirred hard, splashed or filled into a sample jar above that (common practice, no source).
Extract that goes straight into a bucket is dissolved there in water just boiled; not so in glass.
"""

from __future__ import annotations

from designer.recipe.choices import FermenterKind

HOTTEST_INTO_GLASS_C = 30.0
HOTTEST_TO_POUR_C = 40.0
HOTTEST_TO_SPLASH_C = 30.0
SCALDS_C = 50.0
"""55 °C burns within half a minute, 60 °C within five seconds; from memory, of tables for taps."""
_NEARLY_K = 0.5
HOT_TO_LIFT_KG = 10.0
"""Nobody lifts a hot pot that weighs more; common practice, no source."""
HOT_WATER_KG_PER_KG = 1.0
"""Water, just boiled, for a kilogram of extract to dissolve in; common practice, no source."""
POURED_BOILING_C = 90.0
"""What is left of the heat of water that has just boiled, once it is poured; a judgement."""


def hottest_to_pour_c(fermenter_kind: str) -> float:
    """Return how hot wort may be poured into a fermenter of that kind, °C."""
    is_glass = fermenter_kind == FermenterKind.GLASS_CARBOY
    return HOTTEST_INTO_GLASS_C if is_glass else HOTTEST_TO_POUR_C


def takes_hot_water(fermenter_kind: str) -> bool:
    """Whether extract may be dissolved in hot water in a fermenter of that kind."""
    return fermenter_kind != FermenterKind.GLASS_CARBOY


def cracks_glass(fermenter_kind: str, temp_c: float) -> bool:
    """Whether a fermenter of that kind is glass, and wort so hot may crack it."""
    is_glass = fermenter_kind == FermenterKind.GLASS_CARBOY
    return is_glass and temp_c > HOTTEST_INTO_GLASS_C + _NEARLY_K


def too_hot_to_splash(temp_c: float) -> bool:
    """Whether wort is too hot to be stirred hard, splashed or filled into a sample jar."""
    return temp_c > HOTTEST_TO_SPLASH_C + _NEARLY_K
