"""Malt extract has been boiled once: pale beers of it come out darker than its colour makes them.

A doubt alone: the plain day adds nothing. It goes by the malt extract in a litre of beer, not by
its share of the bill, so that no grain that is added takes any of it away. Extract that is all
boiled in little water darkens further (judgement).
"""

from __future__ import annotations

from designer.brewday.extract_inputs import ExtractIn
from designer.brewday.results import Filled
from designer.brewday.run import Run
from designer.wort.colour import shown_darkening
from designer.wort.numeric import Numeric, clamp, largest, smallest
from designer.wort.water import WATER_KG_PER_L

BOILED_SMALL_SRM = 0.5
"""What boiling in a small pot adds, of extract that went in before the boil."""
SMALL_POT_L = (6.0, 8.0)
"""In less water it darkens by all of that, in more by nothing."""


def darkened(run: Run, filled: Filled, colour_srm: Numeric) -> Numeric:
    """Return the colour of the beer, darkened by what the day has drawn."""
    drawn = run.inputs.darkening_srm
    if isinstance(drawn, (float, int)) and drawn == 0.0:
        return colour_srm
    plan = run.plan
    early = _malt_extract_kg(plan.into_steep + plan.boil_start)
    late = _malt_extract_kg(plan.boil_late + plan.flame_out)
    volume = largest(filled.batch_l, 1e-9)
    in_pot, after = filled.moved_fraction / volume, _malt_extract_kg(plan.fermenter) / volume
    everywhere = shown_darkening(colour_srm, (early + late) * in_pot + after)
    small = _small(run.inputs.water_kg / WATER_KG_PER_L) * smallest(drawn, 1.0)
    boiled = shown_darkening(colour_srm, early * in_pot)
    return colour_srm + drawn * everywhere + BOILED_SMALL_SRM * small * boiled


def _small(water_l: Numeric) -> Numeric:
    least, most = SMALL_POT_L
    return clamp((most - water_l) / (most - least), 0.0, 1.0)


def _malt_extract_kg(lines: tuple[ExtractIn, ...]) -> Numeric:
    total: Numeric = 0.0
    for line in lines:
        if line.is_malt_extract:
            total = total + line.extract_kg
    return total
