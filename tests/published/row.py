"""One line of the proof: a published figure beside ours."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """A figure that somebody else printed, ours, and how far apart they may be.

    `tolerance` is absolute: the rounding of the print, or what its source admits. `why` is there
    where the two differ for a reason. A row `of_the_day` is read off a whole simulated day that
    does not share the print's assumption; there the tolerance bounds what the assumption may cost.
    """

    source: str
    what: str
    published: float
    ours: float
    tolerance: float
    why: str = ""
    of_the_day: bool = False

    @property
    def difference(self) -> float:
        """Ours less the published figure."""
        return self.ours - self.published

    @property
    def holds(self) -> bool:
        """Whether the two are as near as they may be."""
        return abs(self.difference) <= self.tolerance
