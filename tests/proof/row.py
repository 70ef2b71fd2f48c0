"""One line of the proof: a figure from elsewhere beside ours, and what kind of figure it is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What the figure is that ours is compared with, the strongest first.

    Only `PRINTED` was seen in the publication itself, or in a reprint of it; `QUOTED` was printed,
    but seen where others quote it. What is worked out here, be it by an equation of others, is
    `COMPUTED`.
    """

    LAW = "law of physics"
    LIBRARY = "independent library"
    PRINTED = "printed in a publication"
    QUOTED = "printed in a publication, seen quoted"
    COMPUTED = "computed from a published equation"
    PRACTICE = "common practice"
    MEMORY = "from memory"
    MEASURED = "measured"


@dataclass(frozen=True, slots=True)
class Row:
    """A figure that is not the program's, ours, and how far apart they may be.

    `tolerance` is absolute: the rounding of the print, or what its source admits. `why` is there
    where the two differ for a reason. A row `of_the_day` is read off a whole simulated day that
    does not share the figure's assumption; there the tolerance bounds what the assumption may cost.
    """

    kind: Kind
    source: str
    what: str
    reference: float
    ours: float
    tolerance: float
    why: str = ""
    of_the_day: bool = False

    @property
    def difference(self) -> float:
        """Ours less the reference."""
        return self.ours - self.reference

    @property
    def holds(self) -> bool:
        """Whether the two are as near as they may be."""
        return abs(self.difference) <= self.tolerance
