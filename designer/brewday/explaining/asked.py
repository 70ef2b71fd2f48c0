"""A gravity reading as it was taken: what it showed, of which sample, and what has been tested."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from designer.brewday.measured.readings import By


class Taken(StrEnum):
    """When the sample was taken; the words are those of logs, files and the command line."""

    POT = "pot"
    TOPPED_UP = "topped-up"
    FERMENTING = "fermenting"


class Drawn(StrEnum):
    """Where the sample was drawn."""

    TOP = "top"
    MIDDLE = "middle"
    BOTTOM = "bottom"
    TAP = "tap"
    JAR = "jar"
    UNKNOWN = "unknown"


class Stirred(StrEnum):
    """How it was mixed: not at all, for a minute, lifted from the bottom, poured across."""

    NO = "no"
    LITTLE = "little"
    HARD = "hard"
    POURED = "poured"
    UNKNOWN = "unknown"


class Scale(StrEnum):
    """What the instrument's scale is in."""

    SG = "sg"
    PLATO = "plato"
    BRIX = "brix"


class TestCode(StrEnum):
    """What tells causes apart, cheapest first as a rule; codes of logs and the command line."""

    __test__ = False

    STIR = "stir"
    TOP_AND_BOTTOM = "top_and_bottom"
    COOL = "cool"
    WATER_CHECK = "water_check"
    SETTLE = "settle"
    WEIGH = "weigh"
    COUNT_PACKETS = "count_packets"
    SUM = "sum"
    WAIT = "wait"


@dataclass(frozen=True, slots=True)
class Answer:
    """What a test showed.

    `changed` tells whether the reading changed, or what was looked at was found wrong; None where
    the figure `value` tells it: litres of a level or of weighed wort, gravity in water, points
    between top and bottom.
    """

    test: TestCode
    changed: bool | None = None
    value: float | None = None


@dataclass(frozen=True, slots=True)
class GravitySample:
    """A reading of the gravity and how it was taken.

    `shown` is what the scale shows, uncorrected, in the unit of `scale`. `sample_c` is None where
    nobody took the temperature. `made_for_c` is the temperature that the instrument is made for and
    `in_water` what it shows in water of that temperature, None where it was not tried.
    `correction` is the factor of wort of a refractometer. `hours` are those since the yeast went
    in, for fermenting beer.
    """

    shown: float
    scale: Scale = Scale.SG
    by: By = By.HYDROMETER
    sample_c: float | None = None
    made_for_c: float = 20.0
    in_water: float | None = None
    correction: float | None = None
    taken: Taken = Taken.TOPPED_UP
    drawn: Drawn = Drawn.UNKNOWN
    stirred: Stirred = Stirred.UNKNOWN
    fermenter: int = 1
    hours: float | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """The samples of one wort, the newest last, and what else was found out about it.

    `pot_l` is the wort in the pot before topping up and `mark_l` the level read in the fermenter,
    None where nobody read them.
    """

    samples: tuple[GravitySample, ...]
    pot_l: float | None = None
    mark_l: float | None = None
    answers: tuple[Answer, ...] = ()
