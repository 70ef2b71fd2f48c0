"""Figures of a kitchen that brews tell something of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from designer.brewday.results import Range


class Figure(StrEnum):
    """What is learned; the words are those of the store and never change. Of what, in brackets."""

    EVAPORATION = "evaporation"  # pot: L/h
    LEFT_IN_POT = "left in the pot"  # pot: L
    COOLING = "cooling constant"  # pot: 1/min at its usual fill
    STEEP_YIELD = "steep yield"  # brewer: share of the yield that the day reckons with
    EXTRACT_BIAS = "extract"  # brewer: share of the extract that the day reckons with
    VOLUME_BIAS = "fermenter mark"  # fermenter: true litres over those read
    ATTENUATION = "attenuation"  # yeast: apparent, share
    HYDROMETER = "hydrometer in water"  # instrument: gravity shown in water
    WORT_CORRECTION = "wort correction"  # refractometer: °Bx over °P


@dataclass(frozen=True, slots=True)
class Seen:
    """What one brew says of a figure of one subject (a pot, a yeast ...), and how sure that is.

    `spread` is the standard deviation of the saying in the figure's own unit. `shared` is what puts
    it off that others share, by its name, and how far, with its sign: the marks of the pot, the
    same hydrometer.
    `counts` is what the brewer said of it; None leaves it to what the other brews say.
    """

    figure: Figure
    subject: str
    value: float
    spread: float
    brew: str
    at: float
    """Seconds since 1970."""
    shared: tuple[tuple[str, float], ...] = ()
    counts: bool | None = None


@dataclass(frozen=True, slots=True)
class Start:
    """What is believed of a figure of a subject before any brew; None: as is usual of the figure.

    `half_width` is half the 5 to 95 % range, of figures that are learned as ratios a share.
    """

    figure: Figure
    subject: str
    value: float | None = None
    half_width: float | None = None


@dataclass(frozen=True, slots=True)
class LearnedStep:
    """What was known after one more brew.

    `odd` tells that a slip explains better than the kitchen what it says; it does not count then,
    but where the brewer said that it does.
    """

    brew: str
    seen: float
    known: Range
    counts: bool
    odd: bool


@dataclass(frozen=True, slots=True)
class Learned:
    """What is known of a figure of a subject.

    `start` is what was believed before any brew; `steps` how it narrowed; `known` the figure now.
    `enough` tells that it may be taken: enough brews tell of it, and it is known better than before
    them; `disagree` that brews say more different things than their
    errors explain.
    """

    figure: Figure
    subject: str
    start: Range
    steps: tuple[LearnedStep, ...]
    known: Range
    enough: bool
    disagree: bool = False
