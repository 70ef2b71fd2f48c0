"""Plain words for how much gas a beer should have, and the volumes that they stand for.

Volumes: common practice, no source: cask ale is served at about 1 to 1.3, bottled British ale has
near 2, most bottled ale 2.3 to 2.5, lager and Belgian ale more, wheat beer above 3.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.translation import message


class Fizz(NamedTuple):
    """A word for how lively a beer is, what is meant by it, and its volumes of CO2."""

    word: str
    means: str
    volumes: float


USUAL = Fizz(message("usual"), message("like most bottled ale"), 2.3)
FIZZ = (
    Fizz(message("soft"), message("like ale from a pump"), 1.8),
    USUAL,
    Fizz(message("lively"), message("like lager"), 2.6),
    Fizz(message("sparkling"), message("like wheat beer: strong bottles only"), 3.2),
)


def fizz_of(word: str) -> Fizz | None:
    """Return what a word stands for, in whatever case it is typed; None for another word."""
    typed = " ".join(word.casefold().split())
    return next((each for each in FIZZ if each.word == typed), None)


def nearest_fizz(volumes: float) -> Fizz:
    """Return the word that comes nearest to so many volumes."""
    return min(FIZZ, key=lambda each: abs(each.volumes - volumes))
