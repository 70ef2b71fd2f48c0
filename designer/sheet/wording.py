"""What a figure means, for someone who has not brewed before."""

from __future__ import annotations

_ALCOHOL = ((4.0, "a light beer"), (6.0, "everyday strength"), (9.0, "strong"))
"""BJCP 2021 style tags: session up to 4 %, standard to 6 %, high to 9 %, very high above."""

_COLOUR = (
    (3.0, "straw"), (4.0, "yellow"), (6.0, "gold"), (9.0, "amber"), (14.0, "deep amber"),
    (17.0, "copper"), (22.0, "brown"), (30.0, "dark brown"), (40.0, "nearly black"),
)  # fmt: skip
"""BJCP 2021, colour reference, SRM; from memory."""

_BITTERNESS = ((0.35, "gentle"), (0.6, "balanced"), (0.9, "firm"))
"""IBU for each gravity point; common practice, no source."""


def alcohol_in_words(abv_percent: float) -> str:
    """Return how strong a beer of that alcohol is."""
    return next((words for below, words in _ALCOHOL if abv_percent < below), "very strong")


def colour_in_words(colour_srm: float) -> str:
    """Return the name of a beer colour."""
    return next((words for below, words in _COLOUR if colour_srm < below), "black")


def bitterness_in_words(bitterness_ibu: float, original_gravity: float) -> str:
    """Return how bitter a beer of that strength tastes."""
    points = 1000.0 * (original_gravity - 1.0)
    if points <= 1.0:
        return "no malt behind it" if bitterness_ibu >= 1.0 else "none"
    ratio = bitterness_ibu / points
    return next((words for below, words in _BITTERNESS if ratio < below), "bold")
