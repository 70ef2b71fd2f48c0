"""What a test shows when a cause is at work, and when it is not; minutes that it takes.

Source: judgement throughout; no count of such tests is known.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from designer.brewday.explaining.asked import TestCode
from designer.brewday.explaining.explained import CauseCode


class Odds(NamedTuple):
    """How often a test finds something, by whether one of the causes that it proves is at work.

    `minutes` is what it takes, with finding and rinsing what it is done with.
    """

    proves: frozenset[CauseCode]
    finds: float
    finds_anyway: float
    minutes: float


def _of(*causes: CauseCode) -> frozenset[CauseCode]:
    return frozenset(causes)


TESTS = {
    TestCode.STIR: Odds(_of(CauseCode.NOT_MIXED), 0.90, 0.05, 5.0),
    TestCode.TOP_AND_BOTTOM: Odds(_of(CauseCode.NOT_MIXED), 0.90, 0.05, 3.0),
    TestCode.COOL: Odds(_of(CauseCode.SAMPLE_TEMPERATURE), 0.95, 0.03, 4.0),
    TestCode.WATER_CHECK: Odds(_of(CauseCode.HYDROMETER), 0.95, 0.25, 2.0),
    TestCode.SETTLE: Odds(_of(CauseCode.BUBBLES, CauseCode.MISREAD), 0.85, 0.10, 10.0),
    TestCode.WEIGH: Odds(_of(CauseCode.VOLUME), 0.90, 0.10, 5.0),
    TestCode.COUNT_PACKETS: Odds(
        _of(CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED), 0.85, 0.02, 2.0
    ),
    TestCode.SUM: Odds(_of(CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED), 0.85, 0.10, 1.0),
    TestCode.WAIT: Odds(_of(CauseCode.FERMENTING), 0.80, 0.05, 120.0),
}
"""By the test: the reading changes (stir 1.5 points, cooling as the table of warmth says, settling
a point), differs by 2 points (top and bottom), is off by a point (water), by 4 % (weighing), or
something is found (packets, what does not add up)."""

DIFFERS_FROM_POINTS = 2.0
"""Points between top and bottom from which they are said to differ."""
WATER_EYE_POINTS = 0.5
"""Standard deviation of what the eye reads in water, points."""


def likelihood(test: TestCode, finds: bool, causes: Collection[CauseCode]) -> float:
    """Return how likely a test finds something, or does not, with these causes at work."""
    odds = TESTS[test]
    found = odds.finds if odds.proves.intersection(causes) else odds.finds_anyway
    return found if finds else 1.0 - found
