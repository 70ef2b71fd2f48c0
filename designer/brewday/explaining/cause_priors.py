"""How often each cause lies behind a gravity reading, and of what size it then is.

This is one generative description of a brew and of the reading of it: which causes are at work, how
large they are, and what the hydrometer then shows. How likely a reading is under each cause follows
from it. That a warm sample reads low, that bubbles move a reading by a point or two and a doubled
tin by twenty, is so a matter of sizes and signs and needs no rule of its own.

Sources: all frequencies and sizes are judgement, unless an entry says otherwise: there is no count
of what lay behind odd readings. The frequencies are set so that of the readings that are odd, four
points or more off the middle, and have a cause, the causes have the shares that were judged ("of
100 odd", below). How often nothing is wrong with an odd one is not judged anew: it follows from the
width of the day's own range, and is more often than was thought.
`tests/brewday/explaining/test_cause_priors.py` draws brews and counts them.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.brewday.explaining.asked import Drawn, Stirred
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.spreads import Even, Normal, Part, Tail

ODD_FROM_POINTS = 4.0
"""A reading is odd that lies so far from the middle of the forecast, or further."""
ODD_SHARE = 1.0 / 5.0
"""How many first readings of a small boil that was topped up are odd (judgement)."""


class OfOdd(NamedTuple):
    """Of 100 odd readings, of 100 low and of 100 high ones, how many a cause is behind."""

    of_all: float
    of_low: float
    of_high: float


OF_100_ODD = {
    CauseCode.NOT_MIXED: OfOdd(42, 35, 52),
    CauseCode.VOLUME: OfOdd(19, 18, 20),
    CauseCode.SAMPLE_TEMPERATURE: OfOdd(10, 17, 0),
    CauseCode.MISSING_EXTRACT: OfOdd(6, 8, 3),
    CauseCode.MISWEIGHED: OfOdd(5, 4, 6),
    CauseCode.HYDROMETER: OfOdd(7, 7, 7),
    CauseCode.BUBBLES: OfOdd(4, 0, 9),
    CauseCode.MISREAD: OfOdd(4, 6, 1),
    CauseCode.FERMENTING: OfOdd(1, 2, 0),
    CauseCode.NOTHING_WRONG: OfOdd(2, 3, 2),
}
"""Judgement. About 59 of 100 are low."""

OF_100_BREWS = {
    CauseCode.NOT_MIXED: 12.0,
    CauseCode.VOLUME: 9.0,
    CauseCode.SAMPLE_TEMPERATURE: 4.5,
    CauseCode.MISSING_EXTRACT: 2.3,
    CauseCode.MISWEIGHED: 3.2,
    CauseCode.HYDROMETER: 5.0,
    CauseCode.BUBBLES: 4.0,
    CauseCode.MISREAD: 1.7,
    CauseCode.FERMENTING: 0.4,
    CauseCode.OTHER: 0.25,
}
"""In how many of 100 brews a cause is at work, wort stirred a little, sample untested (judgement).

Those of small size are mostly not odd, so they are here more often than among the odd readings.
"""
TOGETHER = 0.8
"""How often two causes meet, of how often they would by chance: one odd reading in six (judgement).
"""
MIXED_AND_WARM = 2.0
"""The same of wort not mixed and a sample not cooled: warm wort, cold top-up (judgement)."""

STIRRED_TIMES = {
    Stirred.NO: 2.0,
    Stirred.LITTLE: 1.0,
    Stirred.HARD: 0.15,
    Stirred.POURED: 0.05,
    Stirred.UNKNOWN: 1.5,
}
"""How many times as often wort is not mixed, by how it was stirred (judgement).

Who cannot say has seldom lifted it from the bottom for minutes.
"""
STAYS_LAYERED = {
    Stirred.NO: 1.0,
    Stirred.LITTLE: 0.5,
    Stirred.HARD: 0.1,
    Stirred.POURED: 0.05,
    Stirred.UNKNOWN: 1.0,
}
"""How often layers are still there when wort is stirred once more (judgement)."""
LITTLE_TOP_UP = 0.2
"""Share of the batch below which a top-up makes few layers."""
LITTLE_TOP_UP_TIMES = 0.1
MIXED_BY_FERMENTING_H = 12.0
"""Fermentation mixes all in 12 to 24 h (judgement)."""
MIXED_BY_FERMENTING_TIMES = 0.1

LAYER_POWER = 2.5
"""A layer's share of the way to the pot's gravity, or to water, is an even draw to this power.

At the bottom +0, +10 and +50 points of 60 or so, at the surface -0, -8 and -40 of 46 (judgement):
5, 50 and 95 % points of 0.00, 0.18 and 0.88.
"""
LOW_BY_PLACE = {
    Drawn.TOP: 0.9,
    Drawn.MIDDLE: 0.5,
    Drawn.BOTTOM: 0.1,
    Drawn.TAP: 0.1,
    Drawn.JAR: 0.5,
    Drawn.UNKNOWN: 0.5,
}
"""How often a sample of layered wort is too weak, by where it was drawn.

A sample of the wrong sign for its place is a fifth as likely as one of which nothing is known, for
a jar may be dipped deeper than was meant (judgement).
"""

VOLUME_LOG = (
    Part(0.48, Tail(0.04, 0.030)),
    Part(0.07, Tail(0.04, 0.10)),
    Part(0.39, Tail(-0.04, -0.030)),
    Part(0.06, Tail(-0.04, -0.10)),
)
"""Logarithm of the volume over that of the plan: a mark, a jug, the boil-off, what stayed behind.

From 4 % on, for less is within what marks are known to; rarely over 8 %, sometimes far over: a
bucket filled to another mark (judgement).
"""
MARK_LIES = 0.25
"""How often the mark itself is what is wrong: then the level stands where it should (judgement)."""

WARM_ABOVE_C = (Part(0.85, Tail(4.0, 9.0)), Part(0.15, Even(-15.0, -5.0)))
"""How much warmer, °C, a sample is than the instrument is made for, where nobody took it."""
WARMER_THAN_TYPED_C = (Part(0.8, Tail(4.0, 8.0)), Part(0.2, Even(-12.0, -4.0)))
"""How much warmer than was typed: the thermometer, or the wort beside it."""
TYPED_TIMES = 0.05
"""How many times as often a sample was warm, where its temperature was typed (judgement)."""
WARM_TYPED_TIMES, WARM_TYPED_C = 0.4, 30.0
"""The same above 30 °C, where it changes while one reads (judgement)."""
HOT_C = 40.0
"""Above it a sample is to be cooled: the correction is worth less than what it adds."""
HOT_ERROR = 0.3
"""Standard deviation of the error of a correction above that, a share of it (judgement)."""
HOTTEST_C = 60.0

FORGOTTEN = (
    Part(0.34, Normal(-1.0, 0.04)),
    Part(0.26, Normal(-0.5, 0.06)),
    Part(0.20, Even(-0.95, -0.15)),
    Part(0.20, Normal(1.0, 0.04)),
)
"""What of a line is missing (below nothing) or in it once more: all, half a tin, some, twice it."""
NOTICED_SHARE, NOTICED_TIMES = 0.5, 0.05
"""A line that brings so much of all points is seldom forgotten or put in twice (judgement)."""

MISWEIGHED_BY = (
    Part(0.22, Normal(-0.093, 0.01)),
    Part(0.22, Normal(0.102, 0.01)),
    Part(0.18, Normal(0.22, 0.02)),
    Part(0.18, Normal(-0.18, 0.02)),
    Part(0.08, Normal(1.0, 0.02)),
    Part(0.12, Normal(-0.5, 0.02)),
)
"""By what share a line is weighed wrong.

A pound for 500 g and back (454 of 500, definition of the pound), dry for liquid extract and back,
the wrong pack twice or half (judgement).
"""

HYDROMETER_OFF = (Part(0.5, Tail(1.5, 1.0)), Part(0.5, Tail(-1.5, -1.0)))
"""Points that an instrument is off beyond its trust: of every three so one is off by 2.6 or more.

Of cheap instruments 70 of 100 are within a point, 20 within two, 10 off by three or more; the first
are what the trust in a hydrometer holds already (judgement).
"""
CHECKED_TIMES = 0.05
"""How many times as often an instrument is off that was tried in water (judgement)."""

BUBBLES_ON_BULB = (Part(1.0, Tail(1.0, 1.0)),)
"""Points by which bubbles, foam or the wall lift it: 1 to 4 (judgement)."""
READ_WRONG = (
    Part(0.60, Normal(-2.5, 0.6)),
    Part(0.13, Normal(-5.0, 1.5)),
    Part(0.07, Normal(5.0, 1.5)),
    Part(0.07, Normal(-10.0, 0.7)),
    Part(0.05, Normal(10.0, 0.7)),
)
"""Points by which the scale is read wrong: at the top of the curve, lines of 0.002 counted as of
0.001 or the other way round, ten off. The rest took another scale for it."""
WRONG_SCALE = 0.08
"""How often degrees Plato are read as points, of all that is read wrong (judgement)."""
EVERY_TIME = 0.5
"""Bubbles and slips of reading: how often they are in every sample, and not in one (judgement)."""

FALLEN_UNPITCHED = (Part(1.0, Tail(1.0, 3.0)),)
"""Points that wort has fallen which nobody thought to ferment yet (judgement)."""
FERMENTS_FROM_H, FERMENTS_ALL_BY_H = 6.0, 24.0
"""Yeast begins so many hours after it went in; nearly all has begun by the later (judgement)."""
FALLS_OVER_H = 48.0
"""After so many hours more the quickest beer has fallen as far as it goes (judgement)."""

OTHER_FROM, OTHER_TO = -70.0, 170.0
"""A reading that nothing here explains may show anything between: points above the forecast."""
