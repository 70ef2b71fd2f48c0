"""What is said of an odd reading: causes with their probabilities, the next test, and cures."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from designer.brewday.explaining.asked import TestCode
from designer.brewday.measured.advice_levers import Change
from designer.brewday.results import Range
from designer.recipe.edits import Edit
from designer.recipe.message import Message


class CauseCode(StrEnum):
    """What may lie behind a reading; codes of logs and the command line."""

    NOT_MIXED = "not_mixed"
    VOLUME = "volume"
    SAMPLE_TEMPERATURE = "sample_temperature"
    MISSING_EXTRACT = "missing_extract"
    MISWEIGHED = "misweighed"
    HYDROMETER = "hydrometer"
    BUBBLES = "bubbles"
    MISREAD = "misread"
    FERMENTING = "fermenting"
    NOTHING_WRONG = "nothing_wrong"
    OTHER = "other"


class Verdict(StrEnum):
    """What is said where no single cause is; else the verdict is the code of the cause."""

    FINE = "fine"
    CANNOT_TELL = "cannot_tell"
    BEYOND = "beyond"


@dataclass(frozen=True, slots=True)
class LikelyCause:
    """A cause, alone or `also` with another, and what the beer then is.

    `title` is "Not mixed", `words` one sentence with its size ("12 L in the bucket instead of 10
    L"), `how_to_tell` the test of it in a few words.
    """

    code: CauseCode
    probability: float
    title: Message
    words: Message
    how_to_tell: Message
    original_gravity: float
    abv_percent: float
    bitterness_ibu: float | None
    also: CauseCode | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a test may show and what that says: "Still 1.038: then water 56 %, extract 28 %"."""

    shows: Message
    says: Message


@dataclass(frozen=True, slots=True)
class Advised:
    """The test that tells most for its minutes, in words, and what its outcomes would say."""

    code: TestCode
    minutes: float
    title: Message
    message: Message
    outcomes: tuple[Outcome, ...] = ()


@dataclass(frozen=True, slots=True)
class Cure:
    """What can be done about it, with amounts.

    `edit` makes the recipe what the beer then is, None where nothing is to be changed; `settings`
    are the same as the words of `--set`, `changes` the same as the plain values of a log. `off`
    says why it cannot be done yet, None where it can. `after` holds the five forecasts after it.
    """

    code: str
    title: Message
    words: Message
    offer: Message
    edit: Edit | None = None
    settings: dict[str, str] = field(default_factory=dict)
    off: Message | None = None
    after: dict[str, Range] = field(default_factory=dict)
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Explained:
    """The answer to an odd reading.

    `reading_sg_20c` is the newest reading corrected to 20 °C, `by_warmth` the gravity that its
    temperature alone explains and that is added already. `expected` is what there is to be read.
    `reads` is from what to what an instrument may show it. `title` is the verdict in a few words,
    "8 points low, most likely not mixed". `causes` are those worth telling, all others as one at
    their end; `every` are all, each cause and each pair. Both have probabilities that make 1.
    """

    reading_sg_20c: float
    by_warmth: float
    expected: Range
    verdict: str
    title: Message
    words: Message
    causes: tuple[LikelyCause, ...] = ()
    every: tuple[LikelyCause, ...] = ()
    test: Advised | None = None
    cures: tuple[Cure, ...] = ()
    whole: bool = True
    reads: tuple[float, float] | None = None
