"""Two readings of a pot give its evaporation or its cooling constant, as the kitchen keeps them."""

from __future__ import annotations

from designer.errors import RefusedInputError
from designer.translation import tr
from designer.wort.chilling import newton_constant

MEASURED_ONCE = "12 %"
"""How sure an evaporation is that was measured in one boil; judgement."""


def evaporation_text(before_l: float, after_l: float, boiled_min: float) -> str:
    """Return what a pot of plain water loses in an hour, both volumes read cold, with its ±.

    Raises RefusedInputError where nothing went or no time passed.
    """
    if after_l >= before_l or boiled_min <= 0.0:
        raise RefusedInputError(tr("Less must be left after the boil, and it must have lasted."))
    return f"{60.0 * (before_l - after_l) / boiled_min:.3g} L/h ± {MEASURED_ONCE}"


def cooling_text(hot_c: float, cool_c: float, bath_c: float, took_min: float) -> str:
    """Return Newton's constant of a pot in a bath.

    Raises RefusedInputError where it did not cool, cooled below its bath, or no time passed.
    """
    if not bath_c < cool_c < hot_c or took_min <= 0.0:
        raise RefusedInputError(tr("It must cool, stay warmer than the bath, and take some time."))
    return f"{float(newton_constant(hot_c, cool_c, bath_c, took_min)):.4g} /min"
