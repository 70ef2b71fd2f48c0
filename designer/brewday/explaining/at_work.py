"""What causes make of brews: their volume, their extract, and the wort that is there to be read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from designer.brewday.explaining.drawn import Brews, OfALine
from designer.brewday.explaining.explained import CauseCode

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class AtWork:
    """Causes at work in brews, in each as large as it was drawn there.

    `volume` and `extract` are factors upon those of the day, `fermenter` and `in_pot` the points of
    the wort, mixed, and `off` what the hydrometer is off beyond its trust. A brew counts `weight`
    times. `line` tells which line was weighed or forgotten wrong; of both the forgotten one.
    """

    causes: tuple[CauseCode, ...]
    volume: Array | float
    extract: Array | float
    fermenter: Array
    in_pot: Array
    off: Array
    weight: Array
    line: OfALine | None

    def has(self, cause: CauseCode) -> bool:
        """Whether a cause is one of these."""
        return cause in self.causes


def at_work(causes: tuple[CauseCode, ...], brews: Brews) -> AtWork:
    """Return what these causes make of the brews."""
    import numpy as np

    weight = np.ones(brews.many)
    volume: Array | float = 1.0
    extract: Array | float = 1.0
    line: OfALine | None = None
    for code, of_line in (
        (CauseCode.MISSING_EXTRACT, brews.forgotten),
        (CauseCode.MISWEIGHED, brews.misweighed),
    ):
        if code in causes and of_line is not None:
            line = line or of_line
            extract = extract * of_line.extract_factor
            weight = weight * of_line.weight
    for code, size in brews.sizes.items():
        if code in causes:
            weight = weight * size.weight
    if CauseCode.VOLUME in causes:
        volume = np.exp(brews.volume.of)
    is_off = CauseCode.HYDROMETER in causes
    return AtWork(
        causes,
        volume,
        extract,
        brews.points * extract / volume,
        brews.pot_points * extract,
        brews.hydrometer.of if is_off else np.zeros(brews.many),
        weight,
        line,
    )
