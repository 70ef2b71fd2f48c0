"""What a figure of the beer means in words; messages of the program and of the sheet."""

from __future__ import annotations

from collections.abc import Mapping

from designer.translation import message

_ALCOHOL = (
    (4.0, message("a light beer")),
    (6.0, message("everyday strength")),
    (9.0, message("strong")),
)
"""BJCP 2021 style tags: session up to 4 %, standard to 6 %, high to 9 %, very high above."""

_COLOUR = (
    (3.0, message("straw")),
    (4.0, message("yellow")),
    (6.0, message("gold")),
    (9.0, message("amber")),
    (14.0, message("deep amber")),
    (17.0, message("copper")),
    (22.0, message("brown")),
    (30.0, message("dark brown")),
    (40.0, message("nearly black")),
)
"""BJCP 2021, colour reference, SRM; from memory."""

_BITTERNESS = (
    (0.35, message("gentle, leaning malty")),
    (0.6, message("balanced")),
    (0.8, message("balanced, leaning bitter")),
    (1.0, message("firmly bitter")),
)
"""IBU for each gravity point, with which beers are compared (Daniels, Designing Great Beers, from
memory); where one word ends and the next begins is common practice, no source."""


def alcohol_in_words(abv_percent: float) -> str:
    """Return how strong a beer of that alcohol is."""
    found = (words for below, words in _ALCOHOL if abv_percent < below)
    return next(found, message("very strong"))


def colour_in_words(colour_srm: float) -> str:
    """Return the name of a beer colour."""
    return next((words for below, words in _COLOUR if colour_srm < below), message("black"))


def bitterness_in_words(bitterness_ibu: float, original_gravity: float) -> str:
    """Return how bitter a beer of that strength tastes."""
    points = 1000.0 * (original_gravity - 1.0)
    if points <= 1.0:
        return message("no malt behind it") if bitterness_ibu >= 1.0 else message("not bitter")
    ratio = bitterness_ibu / points
    return next((words for below, words in _BITTERNESS if ratio < below), message("very bitter"))


def said_of(values: Mapping[str, float]) -> dict[str, str]:
    """Return by the keys of forecasts what each means, those that there are words for."""
    og, srm = values["original_gravity"], values["colour_srm"]
    said = {
        "abv_percent": alcohol_in_words(values["abv_percent"]),
        "bitterness_ibu": bitterness_in_words(values["bitterness_ibu"], og),
        "colour_srm": colour_in_words(srm) if srm > 0.0 else "",
    }
    return {key: words for key, words in said.items() if words}
