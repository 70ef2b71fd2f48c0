"""What the parts of a brew day are called, in their order, and the keys they go by."""

from __future__ import annotations

from enum import StrEnum

from designer.translation import message


class Part(StrEnum):
    """A part of the page."""

    STOVE = "stove"
    READING = "reading"
    FERMENTING = "fermenting"
    LOG = "log"


PARTS: dict[Part, str] = {
    Part.STOVE: message("At the stove"),
    Part.READING: message("What your reading says"),
    Part.FERMENTING: message("Fermenting and packaging"),
    Part.LOG: message("Log"),
}
SHORT: dict[Part, str] = PARTS | {
    Part.STOVE: message("Stove"),
    Part.READING: message("Your reading"),
    Part.FERMENTING: message("Fermenting"),
}
"""What they are called where the line above them is short."""
