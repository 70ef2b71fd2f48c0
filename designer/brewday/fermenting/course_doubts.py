"""What is doubtful about the course of a fermentation: when it begins, how fast, how it ends.

The curve is the logistic of small test fermentations, apparent extract against time, with a fifth
figure for its shape: at 1 it is that logistic, near 0 a Gompertz curve, which begins sooner and
ends slower. Its middle and pace are those of a home ale at 20 °C with as much yeast as is wanted.

Sources: the logistic, ASBC Methods of Analysis, Yeast-14, Miniature fermentation assay; the fifth
figure, MacIntosh, Josey and Speers, J. ASBC 74 (2016) (both from memory). Test fermentations have
two to three times the yeast and are over within three days; figures for home are judgement.
"""

from __future__ import annotations

from designer.brewday.doubts import Doubt, Sure, ratio
from designer.translation import message

_HOME = "home ales are done in 4 to 12 days; judgement"

SPEED = ratio(message("how lively the yeast is"), 0.40, _HOME, Sure.JUDGEMENT)
"""Stretches all of the course."""
MIDDLE_DAY = Doubt(
    message("when the fermentation begins"), 2.2, 1.5, 2.2, 3.4, _HOME, Sure.JUDGEMENT
)
"""Days after pitching at which it is fastest."""
PACE_DAYS = Doubt(
    message("how fast it ferments"), 1.05, 0.65, 1.05, 1.7, _HOME, Sure.JUDGEMENT
)  # fmt: skip
"""Days in which what is left falls to 1/e of it, near the end."""
SHAPE = Doubt(
    message("how slowly it ends"), 0.5, 0.06, 0.5, 2.5,
    "between a Gompertz curve and a logistic; judgement", Sure.JUDGEMENT, least=0.02, most=4.0,
)  # fmt: skip
SLOW_SHARE = Doubt(
    message("how much ferments slowly"), 0.045, 0.012, 0.045, 0.13,
    "maltotriose is about a seventh of the sugars of wort, and taken last and slowly: Oliver "
    "(ed.), The Oxford Companion to Beer (from memory); how much of it lags is judgement",
    Sure.JUDGEMENT, most=0.4,
)  # fmt: skip
"""Share of the fall that comes behind the rest."""
SLOW_TIMES = Doubt(
    message("how slowly the last of it ferments"), 2.5, 1.4, 2.5, 4.5,
    "the same; judgement", Sure.JUDGEMENT,
)  # fmt: skip
"""So many times as slow as the rest is that share."""
TEN_DEGREES = Doubt(
    message("what warmth does to the yeast"), 2.2, 1.7, 2.2, 3.0,
    "reactions of life go two to three times as fast 10 °C warmer; judgement", Sure.JUDGEMENT,
)  # fmt: skip
"""So many times as fast is a beer that is 10 °C warmer."""
REFERENCE_C = 20.0
WARMTH_C, UNNOTED_WARMTH_C = 1.0, 2.5
"""Half widths, °C, of how warm the beer was: noted, and not noted (kitchen thermometer; guess)."""

LITTLE_YEAST_LATER, LITTLE_YEAST_SLOWER = 0.4, 0.2
"""Powers of the yeast wanted over that pitched by which it begins later and goes slower.

0.29e6 instead of 0.73e6 cells for each mL and °P were slower and ended alike (blog article "Yeast
pitching rate results", 2010); how much is judgement.
"""
LEAST_PITCHED, ENOUGH_PITCHED, MOST_PITCHED = 0.2, 1.0, 2.0

OFF_CURVE_SHARE, OFF_CURVE_EACH = 0.025, 0.015
"""Standard deviations, as shares of the whole fall, of beers about any such curve half-way.

The first is that of the beer, the second another on each day (judgement).
"""
OFF_CURVE_SG = 0.0002
UNKNOWN_ENDS_SG = (0.003, 0.004)
"""Below and above the end forecast, where its range is not known yet (judgement)."""
MOST_ORIGINAL_SG = 0.006
"""No original gravity is doubted by more than that here."""

LITTLE_LEFT_SG = 0.001
"""What is left to fall where a fermentation is called over."""

STRONGEST_ATTENUATION = 0.98
"""Apparent share of the wort that wild yeast may ferment (judgement)."""
