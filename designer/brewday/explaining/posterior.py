"""What is thought of the causes of a reading once it was read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from designer.brewday.explaining.explained import CauseCode


@dataclass(frozen=True, slots=True)
class Weighed:
    """One explanation: no cause, one, or two at work, and what the wort then is.

    `points` are those of the wort as it is pitched, well mixed, at 20 °C. The volume is
    `volume_factor` times that of the plan, the extract in it `extract_factor` times. Of the sizes
    those count whose cause is at work, each a mean: points by which the newest sample is off for
    its layer, its warmth (`warmer_c` above what was typed, or above what the instrument is made
    for), the hydrometer, bubbles, a slip of reading and by what has fermented; `line` is the place
    in the lines of the beliefs of what was weighed or forgotten wrong, of which `line_share` is
    missing (below nothing) or too much. `layered_now` and `slipped_now` say how likely the newest
    sample is one of layers, or one with bubbles or a slip.
    """

    causes: tuple[CauseCode, ...]
    probability: float
    points: float
    volume_factor: float = 1.0
    extract_factor: float = 1.0
    layer: float = 0.0
    warmth: float = 0.0
    warmer_c: float = 0.0
    hydrometer: float = 0.0
    bubbles: float = 0.0
    misread: float = 0.0
    fallen: float = 0.0
    line: int | None = None
    line_share: float = 0.0
    layered_now: float = 0.0
    slipped_now: float = 1.0

    @property
    def original_gravity(self) -> float:
        """The gravity of the wort."""
        return 1.0 + self.points / 1000.0

    @property
    def code(self) -> CauseCode:
        """The cause, the first of two."""
        return self.causes[0] if self.causes else CauseCode.NOTHING_WRONG

    @property
    def also(self) -> CauseCode | None:
        """The second cause of a pair."""
        return self.causes[1] if len(self.causes) > 1 else None


@dataclass(frozen=True, slots=True)
class Posterior:
    """All explanations of a reading, the likeliest first; their probabilities make 1.

    `reading_points` is the newest reading as corrected, in points at 20 °C, `by_warmth` what the
    correction for its temperature added, `expected_points` the middle of what is there to be read.
    `too_hot` tells that the newest sample has to be cooled before it says much.
    """

    parts: tuple[Weighed, ...]
    reading_points: float
    by_warmth: float
    expected_points: float
    too_hot: bool = False

    @property
    def off_points(self) -> float:
        """Points by which the reading is high, or low: below nothing."""
        return self.reading_points - self.expected_points

    @property
    def leading(self) -> Weighed:
        """The likeliest explanation."""
        return self.parts[0]

    @property
    def layered_now(self) -> float:
        """How likely the newest sample was drawn of wort that is not mixed."""
        return sum(each.probability * each.layered_now for each in self.parts)

    @property
    def warm_now(self) -> float:
        """How likely the newest sample was warmer or colder than it was corrected for."""
        return sum(
            each.probability
            for each in self.parts
            if CauseCode.SAMPLE_TEMPERATURE in each.causes and abs(each.warmth) > 0.0
        )

    @property
    def points(self) -> float:
        """The mean of what the wort may be."""
        return sum(each.probability * each.points for each in self.parts)

    def of(self, code: CauseCode) -> float:
        """Return how likely a cause is, alone or with another."""
        return sum(each.probability for each in self.parts if is_in(code, each))

    def alone(self, code: CauseCode) -> float:
        """Return how likely a cause is by itself."""
        return sum(
            each.probability for each in self.parts if each.also is None and each.code is code
        )


def is_in(code: CauseCode, part: Weighed) -> bool:
    """Whether a cause is at work in an explanation."""
    return code is part.code or code in part.causes


def by_likelihood(parts: Iterable[Weighed]) -> tuple[Weighed, ...]:
    """Return explanations in order."""
    return tuple(sorted(parts, key=lambda each: -each.probability))
