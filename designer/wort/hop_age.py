"""What hops lose of their alpha acid between harvest and pot.

The loss runs like a reaction: twice as fast for every 15 °C, three quarters as fast in sealed
plastic, half as fast in a barrier bag without air. How fast it runs is a matter of variety: 15 to
50 % are lost in half a year at 20 °C in the open. Pellets lose rather more than this says when kept
cold, so it is right to within half of itself. What oxidises stays partly bitter: of the bitterness
only six tenths of the loss are lost (judgement; old hops were "not problematic" for early
bitterness, Foods 12(23) (2023) 4353, abstract).

Sources: Garetz, BrewingTechniques 2(1) (1994), with table and formulas, the factors for packing
from memory; on Nickerson and Likens, J. ASBC 37 (1979). Variety sheets for the range of losses.
"""

from __future__ import annotations

from designer.wort.numeric import Numeric, exp, largest, log

USUAL_LOSS = 0.30
"""Lost in half a year at 20 °C in the open, where the variety's own figure is not known."""
OPEN, SEALED, BARRIER = 1.0, 0.75, 0.5
"""How fast hops age by how they are packed."""
OF_BITTERNESS = 0.6
"""Share of the lost alpha acid that is lost to bitterness; judgement."""

_HALF_A_YEAR_DAYS, _DOUBLES_EVERY_C = 180.0, 15.0


def ageing_per_day(temp_c: float, packing: float, lost_in_half_a_year: float = USUAL_LOSS) -> float:
    """Return how fast alpha acid goes, per day; `packing` is OPEN, SEALED or BARRIER."""
    at_20_c = -log(1.0 - lost_in_half_a_year) / _HALF_A_YEAR_DAYS
    return float(at_20_c * 2.0 ** ((temp_c - 20.0) / _DOUBLES_EVERY_C) * packing)


def alpha_kept(aged: Numeric) -> Numeric:
    """Return the share of alpha acid that is left after `aged`, the rate times the days."""
    return exp(-largest(aged, 0.0))


def bitterness_kept(kept: Numeric) -> Numeric:
    """Return the share of bitterness that is left where so much alpha acid is."""
    return 1.0 - OF_BITTERNESS * (1.0 - kept)
