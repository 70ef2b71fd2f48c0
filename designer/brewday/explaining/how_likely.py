"""A probability in words, by a scale that is declared.

Source: words and limits after table 1 of Mastrandrea et al., Guidance note for lead authors of the
IPCC fifth assessment report on consistent treatment of uncertainties, 2010 (limits from memory).
"""

from __future__ import annotations

from designer.recipe.message import Message, say

SCALE = (
    (0.99, say("likely-99", "almost certain")),
    (0.90, say("likely-90", "very likely")),
    (0.66, say("likely-66", "likely")),
    (0.33, say("likely-33", "quite possible")),
    (0.10, say("likely-10", "unlikely")),
    (0.01, say("likely-1", "very unlikely")),
)
"""From which probability on a word is said, the highest first."""
HARDLY = say("likely-0", "hardly possible")


def how_likely(probability: float) -> Message:
    """Return a probability from 0 to 1 in words."""
    return next((words for least, words in SCALE if probability >= least - 1e-12), HARDLY)
