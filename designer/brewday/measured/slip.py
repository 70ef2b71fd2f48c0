"""What a slip of a reading is, and what the things are called that are read."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.measured.readings import Measured, Reading
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.translation import message

KIND_OF: dict[Measured, Kind] = {
    Measured.WATER_IN: Kind.VOLUME,
    Measured.STRIKE: Kind.TEMPERATURE,
    Measured.STEEP: Kind.TEMPERATURE,
    Measured.BOIL_START_VOLUME: Kind.VOLUME,
    Measured.BOIL_START_GRAVITY: Kind.GRAVITY,
    Measured.BOIL_VOLUME: Kind.VOLUME,
    Measured.BOIL_GRAVITY: Kind.GRAVITY,
    Measured.BOIL_END_VOLUME: Kind.VOLUME,
    Measured.BOIL_END_GRAVITY: Kind.GRAVITY,
    Measured.COOLED: Kind.TEMPERATURE,
    Measured.INTO_FERMENTER: Kind.VOLUME,
    Measured.TOPPED_UP: Kind.VOLUME,
    Measured.MIXED: Kind.TEMPERATURE,
    Measured.ORIGINAL_GRAVITY: Kind.GRAVITY,
    Measured.ALPHA: Kind.FRACTION,
    Measured.WEIGHT: Kind.MASS,
}
CALLED: dict[Measured, str] = {
    Measured.WATER_IN: message("the water in the pot"),
    Measured.STRIKE: message("the water before the grain"),
    Measured.STEEP: message("the steep"),
    Measured.BOIL_START_VOLUME: message("the volume as the boil starts"),
    Measured.BOIL_START_GRAVITY: message("the gravity as the boil starts"),
    Measured.BOIL_VOLUME: message("the volume in the boil"),
    Measured.BOIL_GRAVITY: message("the gravity in the boil"),
    Measured.BOIL_END_VOLUME: message("the volume as the boil ends"),
    Measured.BOIL_END_GRAVITY: message("the gravity as the boil ends"),
    Measured.COOLED: message("the cooled wort"),
    Measured.INTO_FERMENTER: message("what went into the fermenter"),
    Measured.TOPPED_UP: message("the topped up fermenter"),
    Measured.MIXED: message("the mixed wort"),
    Measured.ORIGINAL_GRAVITY: message("the original gravity"),
    Measured.ALPHA: message("the alpha acid"),
    Measured.WEIGHT: message("the weight"),
}
"""What a blank is called where a figure may belong to it."""
IN_POT = (
    Measured.WATER_IN,
    Measured.BOIL_START_VOLUME,
    Measured.BOIL_VOLUME,
    Measured.BOIL_END_VOLUME,
)


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip: its lasting name, the question that is asked, and the reading that was meant.

    `odd` is how much less likely it is than units mixed up, in standard deviations; a judgement.
    """

    code: str
    question: Message
    meant: Reading
    odd: float = 0.0


def did_you_mean(kind: Kind, value: float) -> Message:
    """Return the question whether another value was meant."""
    return say("slip-meant", "Did you mean {0}?", (kind, value))
