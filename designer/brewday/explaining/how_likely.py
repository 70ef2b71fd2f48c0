"""A probability in words, by a scale that is declared. Words and limits are judgement."""

from __future__ import annotations

from designer.recipe.message import Message, say

SCALE = (
    (0.95, say("likely-95", "almost certain")),
    (0.80, say("likely-80", "very likely")),
    (0.55, say("likely-55", "likely")),
    (0.30, say("likely-30", "quite possible")),
    (0.10, say("likely-10", "possible")),
    (0.03, say("likely-3", "unlikely")),
)
"""From which probability on a word is said, the highest first."""
HARDLY = say("likely-0", "hardly likely")


def how_likely(probability: float) -> Message:
    """Return a probability from 0 to 1 in words."""
    return next((words for least, words in SCALE if probability >= least - 1e-12), HARDLY)
