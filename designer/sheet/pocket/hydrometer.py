"""What a hydrometer's reading is worth at the warmth of its sample, as a table for the scripts.

Between its points they go straight, which is right to 0.0001: a scale is read to 0.001.
"""

from __future__ import annotations

from typing import Any

from designer.brewday.instrument import true_gravity
from designer.recipe.document import Process
from designer.recipe.fields import number
from designer.recipe.quantity import Kind
from designer.units import ShownUnits
from designer.units.scales import to_scale

GRAVITIES = (1.0, 1.03, 1.06, 1.09, 1.12)
TEMPERATURES_C = tuple(5.0 * each for each in range(13))


def hydrometer_table(process: Process, shown: ShownUnits) -> dict[str, Any]:
    """Return what to add to readings at some gravities and temperatures, in the unit that is typed.

    `usual` is the temperature the hydrometer is made for, which holds where none is typed.
    """
    return {
        "usual": _typed(number(process, "hydrometer_made_for"), shown),
        "temperatures": [_typed(each, shown) for each in TEMPERATURES_C],
        "gravities": GRAVITIES,
        "adds": [
            [round(true_gravity(shown_sg, each, process) - shown_sg, 5) for shown_sg in GRAVITIES]
            for each in TEMPERATURES_C
        ],
    }


def _typed(temp_c: float, shown: ShownUnits) -> float:
    return to_scale(Kind.TEMPERATURE, temp_c, "f") if shown is ShownUnits.US else temp_c
