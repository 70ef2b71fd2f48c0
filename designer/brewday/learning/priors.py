"""What is believed of a kitchen's figures before any brew, and how they differ from brew to brew.

Half widths are those of 5 to 95 % ranges. Where the day itself has a doubt of a figure, that is
what a kitchen starts from. How much of it pots or yeasts of one kitchen share, how far one brew is
from the next and how fast a kitchen changes is nowhere published: judgement, and said so.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

from designer.brewday.heat_doubts import COOLING, EVAPORATION_SCATTER
from designer.brewday.learning.figures import Figure
from designer.brewday.malt_doubts import STEEP_YIELD
from designer.brewday.vessel_doubts import LEFT_IN_POT, LEFT_IN_POT_SCATTER_L, off_by_marks
from designer.recipe.choices import VolumeMarks
from designer.recipe.document import Process, Yeast
from designer.recipe.fields import facts_of
from designer.wort.refractometer import WORT_CORRECTION

ODD_SHARE = 0.05
"""How many logs in a hundred have a slip in them: a wrong mark read, a lid left on (judgement)."""
SCATTERS = ((0.5, 0.2), (1.0, 0.5), (2.0, 0.2), (4.0, 0.1))
"""How many times the usual scatter a kitchen may have, and how likely that is (judgement)."""
DRIFTS = ((1.0, 0.6), (5.0, 0.4))
"""The same of how fast it changes; one that changes faster than is usual may leave its range."""


@dataclass(frozen=True, slots=True)
class FigurePrior:
    """How a figure is learned.

    `value` and `half_width` are what a kitchen starts from. `ratio` tells that it is learned as a
    ratio, and its widths are shares. `alike` is the part of the variance that all subjects of a
    kitchen share, 0 where there is but one; `scatter` is how far single brews lie about their
    subject, `drift` how far that moves from one brew to the next, `slip` how far off a bad log is.
    From `enough` brews on it may be taken.
    """

    value: float
    half_width: float
    ratio: bool
    alike: float
    scatter: float
    drift: float
    slip: float
    source: str
    enough: int = 3


_EVAPORATION = facts_of(Process(), "evaporation")
_ATTENUATION = facts_of(Yeast(), "attenuation")
_IN_WATER = facts_of(Process(), "hydrometer_in_water")
_TINY_SCATTER = 0.004

PRIORS: dict[Figure, FigurePrior] = {
    Figure.EVAPORATION: FigurePrior(
        _EVAPORATION.default or 1.8, _EVAPORATION.spread, ratio=True,
        alike=0.5, scatter=EVAPORATION_SCATTER, drift=0.02, slip=log(2.0),
        source=f"{_EVAPORATION.source}; {_EVAPORATION.spread_source}; one stove and one cook for "
        "all pots, the flame a little different each time: judgement",
    ),
    Figure.LEFT_IN_POT: FigurePrior(
        LEFT_IN_POT.middle, (LEFT_IN_POT.high - LEFT_IN_POT.low) / 2.0, ratio=False,
        alike=0.5, scatter=LEFT_IN_POT_SCATTER_L, drift=0.02, slip=0.8,
        source=f"{LEFT_IN_POT.source}; sludge differs with the hops, 0.1 L: judgement",
    ),
    Figure.COOLING: FigurePrior(
        0.06, log(COOLING.high / COOLING.middle), ratio=True,
        alike=0.4, scatter=0.10, drift=0.02, slip=log(2.0),
        source=f"{COOLING.source}; how often it is stirred: judgement",
    ),
    Figure.STEEP_YIELD: FigurePrior(
        1.0, log(STEEP_YIELD.high / STEEP_YIELD.middle), ratio=True,
        alike=0.0, scatter=0.06, drift=0.02, slip=0.5,
        source=f"{STEEP_YIELD.source}; one mill and one bag, another malt each time: judgement",
    ),
    Figure.EXTRACT_BIAS: FigurePrior(
        1.0, 0.03, ratio=True, alike=0.0, scatter=0.01, drift=0.003, slip=0.15,
        source="15 to 40 g stay in a tin of 1.5 kg, makers differ by two to three hundredths "
        "(`malt_doubts`); that one brewer's are all off alike is judgement",
    ),
    Figure.VOLUME_BIAS: FigurePrior(
        1.0, off_by_marks(VolumeMarks.PRINTED)[0], ratio=True,
        alike=0.1, scatter=_TINY_SCATTER, drift=0.001, slip=0.15,
        source="moulded marks within 4 % (`vessel_doubts`); a mark does not move: judgement",
    ),
    Figure.ATTENUATION: FigurePrior(
        _ATTENUATION.default or 0.75, _ATTENUATION.spread, ratio=False,
        alike=0.2, scatter=0.012, drift=0.004, slip=0.15,
        source=f"{_ATTENUATION.spread_source}; one room and one way to pitch for all yeasts, a "
        "point of gravity from brew to brew: judgement",
    ),
    Figure.HYDROMETER: FigurePrior(
        1.0, _IN_WATER.spread, ratio=False, alike=0.0, scatter=0.0003, drift=0.0001, slip=0.006,
        source=f"{_IN_WATER.spread_source}; its paper does not slip often: judgement", enough=2,
    ),
    Figure.WORT_CORRECTION: FigurePrior(
        WORT_CORRECTION, 0.03, ratio=False, alike=0.0, scatter=0.006, drift=0.001, slip=0.06,
        source="1.00 to 1.06 about 1.04; common practice, no source",
    ),
}  # fmt: skip
