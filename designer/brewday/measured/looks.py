"""What a brewer sees who looks into pot and fermenter on the way, on a plain day or on samples.

A reading at the minute of an addition is of the wort before it. At the start of the boil the
extract of the start is in; at its end the heat is off, and what goes in then is not. Volumes are
those in the vessel, as hot as it is, with the coil that lies in it; of the fermenter, what came
into it from the pot beside extract that was dissolved there before.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from designer.brewday.measured.readings import Measured
from designer.brewday.results import Day
from designer.brewday.run import Run
from designer.wort.numeric import Numeric

START, IN_BOIL, END, MOVING, MOVED = "boil", "boiling", "flame-out", "moving", "move"
_PLACES = {
    Measured.BOIL_START_VOLUME: START,
    Measured.BOIL_START_GRAVITY: START,
    Measured.BOIL_VOLUME: IN_BOIL,
    Measured.BOIL_GRAVITY: IN_BOIL,
    Measured.BOIL_END_VOLUME: END,
    Measured.BOIL_END_GRAVITY: END,
    Measured.INTO_FERMENTER: MOVED,
}
_IS_GRAVITY = (Measured.BOIL_START_GRAVITY, Measured.BOIL_GRAVITY, Measured.BOIL_END_GRAVITY)


class Seen(NamedTuple):
    """Litres in the vessel as hot as it is, and gravity at 20 °C."""

    filled_l: Numeric
    gravity_sg: Numeric


Place = tuple[str, float]


@dataclass
class LookingRun(Run):
    """A run of which is kept what is seen at the usual places, and with `lefts` of the boil."""

    lefts: frozenset[float] = frozenset()
    seen: dict[Place, Seen] = field(default_factory=dict)

    @property
    def looks_in_at(self) -> frozenset[float]:
        """Minutes left at which there is something to read."""
        return frozenset(_in_the_boil(left, self.inputs.boil_min) for left in self.lefts)

    def look(self, at: str, left_min: float = 0.0) -> None:
        """Keep what is there to be read."""
        if at == IN_BOIL and left_min not in self.looks_in_at:
            return
        if at in (MOVING, MOVED):
            was_l = self.seen[MOVING, 0.0].filled_l if at == MOVED else 0.0
            wort = self.fermenter
            self.seen[at, left_min] = Seen(wort.filled_l - was_l, wort.gravity_sg)
        else:
            pot = self.pot
            self.seen[at, left_min] = Seen(pot.filled_l + self.inputs.coil_l, pot.gravity_sg)


def _in_the_boil(left_min: float, boil_min: float) -> float:
    return min(max(left_min, 0.0), boil_min)


class Looked(NamedTuple):
    """A day, and what was seen on the way."""

    day: Day
    seen: dict[Place, Seen]

    def at(self, what: Measured, left_min: float | None = None) -> Numeric:
        """Return what there is to read, in the base unit; KeyError for what no day tells."""
        day = self.day
        if what in _PLACES:
            found = self._seen(_PLACES[what], left_min or 0.0)
            return found.gravity_sg if what in _IS_GRAVITY else found.filled_l
        told: dict[Measured, Numeric] = {
            Measured.WATER_IN: day.pot.start_water_l,
            Measured.STRIKE: day.steep.strike_c,
            Measured.STEEP: day.steep.steeped_c,
            Measured.COOLED: day.fermenter.cool_to_c,
            Measured.TOPPED_UP: day.fermenter.batch_l,
            Measured.MIXED: day.fermenter.mixed_c,
            Measured.ORIGINAL_GRAVITY: day.beer.original_gravity,
        }
        return told[what]

    def _seen(self, at: str, left_min: float) -> Seen:
        if at != IN_BOIL:
            return self.seen[at, 0.0]
        lefts = [left for place, left in self.seen if place == IN_BOIL]
        nearest = min(lefts, key=lambda left: abs(left - left_min))
        return self.seen[at, nearest]
