"""What can be measured on a brew day, and a reading of it.

A reading is told in base units: litres as they are read (hot where the wort is), °C, gravities
corrected to 20 °C, kilograms, shares.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol


class Measured(StrEnum):
    """What of the day is measured; the words are those of logs and files and never change."""

    WATER_IN = "water in the pot"
    STRIKE = "water before the grain"
    STEEP = "temperature of the steep"
    BOIL_START_VOLUME = "volume at the start of the boil"
    BOIL_START_GRAVITY = "gravity at the start of the boil"
    BOIL_VOLUME = "volume in the boil"
    BOIL_GRAVITY = "gravity in the boil"
    BOIL_END_VOLUME = "volume at the end of the boil"
    BOIL_END_GRAVITY = "gravity at the end of the boil"
    COOLED = "temperature of the cooled wort"
    INTO_FERMENTER = "volume into the fermenter"  # from the pot, with this boil alone
    TOPPED_UP = "volume in the fermenter"  # all that is in it once topped up after this boil
    MIXED = "temperature of the mixed wort"
    ORIGINAL_GRAVITY = "original gravity"
    ALPHA = "alpha acid of the packet"
    WEIGHT = "weight put in"


class By(StrEnum):
    """With what it was read: that tells how far off the reading may be."""

    MARK = "mark"
    DIPSTICK = "dipstick"
    SCALE = "scale"
    THERMOMETER = "thermometer"
    HYDROMETER = "hydrometer"
    REFRACTOMETER = "refractometer"
    PACKET = "packet"


@dataclass(frozen=True, slots=True)
class Reading:
    """One thing that was measured.

    `half_width` is half the 5 to 95 % range of the reading's own error, None for what is usual of
    that way of reading. `boil` and `fermenter` count from 1. `left_min` is what was left of the
    boil for readings in it. `lines` and `line_id` name the line that was weighed, or whose packet
    says its alpha acid.
    """

    what: Measured
    value: float
    by: By
    half_width: float | None = None
    boil: int = 1
    fermenter: int = 1
    left_min: float | None = None
    lines: str = ""
    line_id: int = 0


class Readable(Protocol):
    """What is to be read and where: a blank, or a reading."""

    @property
    def what(self) -> Measured:
        """What is read."""

    @property
    def boil(self) -> int:
        """Of which boil, counted from 1."""

    @property
    def fermenter(self) -> int:
        """Of which fermenter, counted from 1."""

    @property
    def left_min(self) -> float | None:
        """Minutes left of the boil."""
