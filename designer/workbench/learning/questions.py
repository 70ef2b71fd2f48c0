"""What is asked about a brew that says something else than all the others."""

from __future__ import annotations

from designer.brewday.learning.figures import Figure, Learned
from designer.recipe.message import Message, say

_NOT_LEARNED = say(
    "bitterness-not-learned",
    "Bitterness is not learned: nobody can taste how many units of it a beer has, so no brew says.",
)

_ASKED: dict[Figure, tuple[Message, Message]] = {
    Figure.EVAPORATION: (
        say("odd-evaporation-low", "Far less boiled away than in other brews; was the lid on?"),
        say("odd-evaporation-high", "Far more boiled away than in other brews; was it read right?"),
    ),
    Figure.LEFT_IN_POT: (
        say("odd-left-low", "Far less was left in the pot than in other brews; was it strained?"),
        say("odd-left-high", "Far more was left in the pot than in other brews; was some spilled?"),
    ),
    Figure.COOLING: (
        say("odd-cooling-slow", "It cooled far slower than in other brews; was it stirred?"),
        say("odd-cooling-fast", "It cooled far faster than in other brews; was it read right?"),
    ),
    Figure.STEEP_YIELD: (
        say("odd-steep-low", "The grain gave far less than in other brews; was it crushed?"),
        say("odd-steep-high", "The grain gave far more than in other brews; was it weighed right?"),
    ),
    Figure.EXTRACT_BIAS: (
        say("odd-extract-low", "Far less extract than in other brews; did some stay in the tin?"),
        say("odd-extract-high", "Far more extract than in other brews; did more go in?"),
    ),
    Figure.VOLUME_BIAS: (
        say("odd-mark-low", "Far less in the fermenter than its mark says; was the mark misread?"),
        say("odd-mark-high", "Far more in the fermenter than its mark says; was the mark misread?"),
    ),
    Figure.ATTENUATION: (
        say("odd-attenuation-low", "It fermented far less than in other brews; was it cold?"),
        say("odd-attenuation-high", "It fermented far more than in other brews; was it infected?"),
    ),
    Figure.HYDROMETER: (
        say("odd-water-low", "Far lower in water than before; was the water warm?"),
        say("odd-water-high", "Far higher in water than before; was the water cold?"),
    ),
    Figure.WORT_CORRECTION: (
        say("odd-correction-low", "Far from other pairs of readings; was the wort mixed?"),
        say("odd-correction-high", "Far from other pairs of readings; was the wort mixed?"),
    ),
}  # fmt: skip


def question_of(figure: Figure, seen: float, known: Learned) -> Message:
    """Return what is asked about a brew that said so of a figure."""
    low, high = _ASKED[figure]
    return low if seen < known.known.value else high


def bitterness_not_learned() -> Message:
    """Return the sentence that says why bitterness is not among the figures."""
    return _NOT_LEARNED
