"""What a brewer sees who looks into pot and fermenter on the way, on a plain day or on samples.

A reading at the minute of an addition is of the wort before it. At the start of the boil the
extract of the start is in; at its end the heat is off, and what goes in then is not. Volumes are
those in the vessel, as hot as it is, with the coil that lies in it; of the fermenter, what came
into it from the pot beside extract that was dissolved there before.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from designer.brewday.measured.readings import Measured
from designer.brewday.pot import Contents
from designer.brewday.run import Run
from designer.wort.numeric import Numeric

IN_BOIL = "boiling"
_IN_FERMENTER = ("moving", "move", "pitch")
_WITH_COIL = ("boil", IN_BOIL, "flame-out")


class Seen(NamedTuple):
    """A vessel as it was, and litres that lie in it beside the wort that is looked at."""

    held: Contents
    beside_l: Numeric

    @property
    def filled_l(self) -> Numeric:
        """Litres by which the vessel is filled, as hot as it is."""
        return self.held.filled_l + self.beside_l

    @property
    def wort_l(self) -> Numeric:
        """Litres of wort at 20 °C."""
        return self.held.volume_l

    @property
    def gravity_sg(self) -> Numeric:
        """Gravity of the wort."""
        return self.held.gravity_sg

    @property
    def temp_c(self) -> Numeric:
        """Its temperature, °C."""
        return self.held.temp_c


_READ: dict[Measured, tuple[str, Callable[[Seen], Numeric]]] = {
    Measured.WATER_IN: ("fill", lambda seen: seen.filled_l),
    Measured.STRIKE: ("strike", lambda seen: seen.temp_c),
    Measured.STEEP: ("steep", lambda seen: seen.temp_c),
    Measured.BOIL_START_VOLUME: ("boil", lambda seen: seen.filled_l),
    Measured.BOIL_START_GRAVITY: ("boil", lambda seen: seen.gravity_sg),
    Measured.BOIL_VOLUME: (IN_BOIL, lambda seen: seen.filled_l),
    Measured.BOIL_GRAVITY: (IN_BOIL, lambda seen: seen.gravity_sg),
    Measured.BOIL_END_VOLUME: ("flame-out", lambda seen: seen.filled_l),
    Measured.BOIL_END_GRAVITY: ("flame-out", lambda seen: seen.gravity_sg),
    Measured.COOLED: ("cooled", lambda seen: seen.temp_c),
    Measured.INTO_FERMENTER: ("move", lambda seen: seen.filled_l),
    Measured.TOPPED_UP: ("pitch", lambda seen: seen.wort_l),
    Measured.MIXED: ("pitch", lambda seen: seen.temp_c),
    Measured.ORIGINAL_GRAVITY: ("pitch", lambda seen: seen.gravity_sg),
}

Looks = dict[tuple[str, float], Seen]
"""What was seen, by the place and the minutes left of the boil."""


@dataclass
class LookingRun(Run):
    """A run of which is `seen` what there is to read, in the boil with `lefts` minutes left.

    It may leave out the hops, which nobody reads.
    """

    lefts: frozenset[float] = frozenset()
    seen: Looks = field(default_factory=dict)
    with_hops: bool = True

    @property
    def counts_hops(self) -> bool:
        """Whether anything is asked of bitterness."""
        return self.with_hops

    @property
    def looks_in_at(self) -> frozenset[float]:
        """Minutes left at which there is something to read."""
        boil_min = self.inputs.boil_min
        return frozenset(min(max(left, 0.0), boil_min) for left in self.lefts)

    def look(self, at: str, left_min: float = 0.0) -> None:
        """Keep what is there to be read."""
        if at == IN_BOIL and left_min not in self.looks_in_at:
            return
        vessel = self.fermenter if at in _IN_FERMENTER else self.pot
        held = Contents(vessel.extract_kg, vessel.water_kg, vessel.grain_kg)
        held.temp_c = vessel.temp_c
        self.seen[at, left_min] = Seen(held, self._beside_l(at))

    def _beside_l(self, at: str) -> Numeric:
        if at == "move":
            return -self.seen["moving", 0.0].filled_l
        return self.inputs.coil_l if at in _WITH_COIL else 0.0


def read_of(seen: Mapping[tuple[str, float], Seen], what: Measured, left_min: float) -> Numeric:
    """Return what there was to read, in the base unit; without a steep, that of the water.

    Raises KeyError for what no day tells.
    """
    at, figure = _READ[what]
    if at in ("strike", "steep") and (at, 0.0) not in seen:
        at = "fill"
    if at == IN_BOIL:
        lefts = [left for place, left in seen if place == IN_BOIL]
        left_min = min(lefts, key=lambda left: abs(left - left_min))
    return figure(seen[at, left_min if at == IN_BOIL else 0.0])
