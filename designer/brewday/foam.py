"""The foam line of a pot: one place, so that findings, drawings, sheet and fitting agree."""

from __future__ import annotations

from designer.recipe.document import Pot
from designer.recipe.fields import number, number_or_none
from designer.wort.vessel_fit import foam_limit_l


def foam_line_l(pot: Pot) -> float | None:
    """Return the litres, hot, above which foam has no room in the pot; None for one of no size."""
    rim = number_or_none(pot, "volume")
    if rim is None:
        return None
    return float(foam_limit_l(rim, number(pot, "foam_room"), number_or_none(pot, "diameter")))
