"""Alpha acid turned into bitterness, followed through the day.

The day is cut into stretches. In each the clock of isomerisation runs `minutes` boil-equivalent
minutes (the rate at the wort's temperature, relative to a boil at sea level) in wort of a known
bigness B (what the gravity takes away). A hop that is in for t0 to t1 on its own clock gains

    B x [f(t1) - f(t0)],  f(t) = (1 - exp(-0.04 t)) / constant.

Because f is exponential, what is yet to be gained from a point of the day onwards obeys one
backward recursion that serves every hop at once,

    U(start of stretch) = B (1 - q) / constant + q U(end),  q = exp(-0.04 minutes),

and the same stretch acts forwards on all alpha acid that still waits in the pot. Both are exact for
a constant bigness; where it changes within a stretch the mean is taken over the converted share.

Of many samples nobody asks for bitterness before all stretches are over. So those that are alike
are worked out together then, one below the other: numpy takes little longer for ten than for one.

Source: Tinseth's curve (web page, 1995 to 1997); its piecewise form and the clock below the boil
are this project's, see `designer.wort.bitterness`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from designer.brewday.pot import Contents
from designer.wort.bitterness import TINSETH_RATE
from designer.wort.numeric import Numeric, each_row, expm1, in_rows

State = tuple[Numeric, ...]
Passing = Callable[[Contents, State], tuple[Numeric, Numeric]]
"""Tells of a stretch how many boil-equivalent minutes passed and in wort of which bigness, from the
wort as it was at its start and whatever else it takes."""


class Stretch(NamedTuple):
    """Boil-equivalent minutes, the bigness of the wort they passed in, the share they convert."""

    minutes: Numeric
    bigness: Numeric
    converts: Numeric


@dataclass
class IsoClock:
    """The stretches of one day so far, and the bitterness that the pot has at this moment.

    `iso_mg` is made bitterness and `waiting_mg` the share of the alpha acid that could still
    become so at bigness 1 (milligrams, after the utilisation constant).
    """

    constant: float
    iso_mg: Numeric = 0.0
    waiting_mg: Numeric = 0.0
    stretches: list[Stretch] = field(default_factory=list)

    @property
    def position(self) -> int:
        """The place of the next stretch: what `utilisations` is indexed by."""
        return len(self.stretches)

    def bitterness_mg(self) -> Numeric:
        """Return the bitterness that the pot has at this moment."""
        return self.iso_mg

    def add_hops(self, alpha_mg: Numeric) -> int:
        """Put alpha acid in and return the position it went in at."""
        self.waiting_mg = self.waiting_mg + alpha_mg / self.constant
        return self.position

    def add_iso(self, iso_mg: Numeric) -> None:
        """Put in bitterness that is already made, as a hopped kit extract brings it."""
        self.iso_mg = self.iso_mg + iso_mg

    def let_pass(self, passing: Passing, wort: Contents, state: State) -> None:
        """Let a stretch pass of which `passing` tells from the wort and its `state`."""
        minutes, bigness = passing(wort, state)
        self.run(minutes, bigness)

    def run(self, minutes: Numeric, bigness: Numeric) -> None:
        """Let `minutes` boil-equivalent minutes pass."""
        converts = -expm1(-TINSETH_RATE * minutes)
        self.stretches.append(Stretch(minutes, bigness, converts))
        gained = self.waiting_mg * converts
        self.iso_mg = self.iso_mg + bigness * gained
        self.waiting_mg = self.waiting_mg - gained

    def pour_off(self, share: Numeric) -> None:
        """Let a share of all that is in the pot go."""
        self.iso_mg = self.iso_mg * (1.0 - share)

    def minutes_since(self, position: int) -> Numeric:
        """Return the boil-equivalent minutes that a hop has had that went in at a position."""
        total: Numeric = 0.0
        for stretch in self.stretches[position:]:
            total = total + stretch.minutes
        return total

    def utilisations(self) -> list[Numeric]:
        """Return, for every position, the utilisation of a hop that went in there."""
        later: Numeric = 0.0
        backwards: list[Numeric] = [later]
        for stretch in reversed(self.stretches):
            gains = stretch.bigness / self.constant - later
            later = later + stretch.converts * gains
            backwards.append(later)
        return backwards[::-1]


class SampledClock(IsoClock):
    """The clock of many samples, which works its stretches out when it is asked."""

    def __init__(self, constant: float) -> None:
        super().__init__(constant)
        self._waiting: dict[Passing, list[tuple[int, State]]] = {}
        self._passed = 0
        self._put_in: list[tuple[int, Numeric]] = []
        self._left: Numeric = 1.0
        self._found: list[Numeric] = []

    @property
    def position(self) -> int:
        """The place of the next stretch."""
        return self._passed

    def let_pass(self, passing: Passing, wort: Contents, state: State) -> None:
        """Note a stretch, to be worked out with those that are alike."""
        alike = self._waiting.setdefault(passing, [])
        alike.append((self._passed, (wort.extract_kg, wort.water_kg, *state)))
        self._passed, self._found = self._passed + 1, []

    def add_hops(self, alpha_mg: Numeric) -> int:
        """Note alpha acid and return the position it went in at."""
        self._put_in.append((self._passed, alpha_mg))
        return self._passed

    def bitterness_mg(self) -> Numeric:
        """Return the bitterness that the pot has: what its hops have given and what was put in."""
        utilisations = self.utilisations()
        made = (alpha_mg * utilisations[at] for at, alpha_mg in self._put_in)
        return self._left * sum(made, self.iso_mg)

    def pour_off(self, share: Numeric) -> None:
        """Let a share of all that is in the pot go."""
        self._left = self._left * (1.0 - share)

    def minutes_since(self, position: int) -> Numeric:
        """Return the boil-equivalent minutes that a hop has had that went in at a position."""
        self._work_out()
        return super().minutes_since(position)

    def utilisations(self) -> list[Numeric]:
        """Return, for every position, the utilisation of a hop that went in there."""
        if not self._found:
            self._work_out()
            self._found = super().utilisations()
        return self._found

    def _work_out(self) -> None:
        found: dict[int, Stretch] = dict(enumerate(self.stretches))
        for passing, alike in self._waiting.items():
            places, states = zip(*alike, strict=True)
            extract_kg, water_kg, *state = map(in_rows, zip(*states, strict=True))
            minutes, bigness = passing(Contents(extract_kg, water_kg), tuple(state))
            converts = -expm1(-TINSETH_RATE * minutes)
            rows = (each_row(each, len(places)) for each in (minutes, bigness, converts))
            found.update(zip(places, map(Stretch._make, zip(*rows, strict=True)), strict=True))
        self._waiting = {}
        self.stretches = [found[at] for at in range(self._passed)]
