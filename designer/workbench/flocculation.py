"""How a yeast flocculates, in words: how early it clumps and settles, and so clears the beer.

The catalogue grades it in five words, from memory, so nothing is reckoned with it.
"""

from __future__ import annotations

from designer.library.catalogue import YeastEntry
from designer.translation import message, tr
from designer.workbench.figure_sources import entry_of, source_of

WORDS = {
    "low": message("flocculates little, clears slowly"),
    "low to medium": message("flocculates little to moderately"),
    "medium": message("flocculates moderately"),
    "medium to high": message("flocculates moderately to well"),
    "high": message("flocculates well, clears early"),
}
"""Of each grade of the catalogue, from the one that stays cloudy longest."""


def flocculation_words(yeast: YeastEntry) -> str:
    """Return how a yeast flocculates and what that means for the beer."""
    return tr(WORDS[yeast.flocculation])


def told_of_yeast(name: str, form: str) -> str:
    """Return how a yeast of the catalogue flocculates, and where the figures of a yeast are from.

    What is read aloud of a field, and stands in its tip.
    """
    entry = entry_of("yeasts", name, form) if name.strip() else None
    source = source_of("yeasts", name, form)
    if not isinstance(entry, YeastEntry):
        return source
    words = flocculation_words(entry)
    return f"{words[:1].upper()}{words[1:]}. {source}"
