"""The time line of a day: moments of the vessels, the stages, and what goes in when.

Volumes are litres at 20 °C unless the name says hot; times are minutes from the start.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.recipe.message import Message, word
from designer.translation import message

STAGES = (
    message("fill"),
    message("heat water"),
    message("heat to boil"),
    message("steep"),
    message("lift"),
    message("extract in"),
    message("boil"),
    message("flame-out"),
    message("heat again"),
    message("kept hot"),
    message("stand"),
    message("cool"),
)
"""The stages of the pot, by their names in a `Day`."""
_AT_STAGE = {
    "fill": message("at the start"),
    "heat water": message("heating"),
    "steep": message("in the steep"),
    "lift": message("lifting the grain"),
    "heat to boil": message("coming to the boil"),
    "extract in": message("with the extract in"),
    "boil": message("at the boil"),
    "flame-out": message("at flame-out"),
    "heat again": message("heated again"),
    "kept hot": message("off the boil, with the extract in"),
}


def at_stage(stage: str) -> Message:
    """Return a moment of the pot, in words, by its stage."""
    return word(_AT_STAGE.get(stage, stage))


@dataclass(frozen=True, slots=True)
class Moment:
    """Pot and fermenter at one instant of the time line.

    `pot_volume_l` is what the pot holds as it is, hot, with grain, coil and hops displaced;
    `wort_l` the wort alone at 20 °C; `bitterness_ibu` that of the wort in the pot.
    """

    time_min: float
    stage: str
    temperature_c: float
    pot_volume_l: float
    wort_l: float
    gravity_sg: float
    bitterness_ibu: float
    fermenter_volume_l: float

    def moved_to(self, time_min: float) -> Moment:
        """Return the same at another minute; `replace` takes ten times as long."""
        return Moment(
            time_min,
            self.stage,
            self.temperature_c,
            self.pot_volume_l,
            self.wort_l,
            self.gravity_sg,
            self.bitterness_ibu,
            self.fermenter_volume_l,
        )


@dataclass(frozen=True, slots=True)
class Span:
    """One stage of the day: its key, what a brewer calls it, and from when to when."""

    key: str
    label: Message
    start_min: float
    end_min: float


@dataclass(frozen=True, slots=True)
class Addition:
    """One thing going in: `lines` and `line_id` name the recipe line, `time_min` the instant.

    `boil_left_min` is the boil time left, None outside the boil.
    """

    lines: str
    line_id: int
    name: str
    stage: str
    time_min: float
    boil_left_min: float | None
