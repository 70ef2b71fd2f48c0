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

Source: Tinseth's curve (web page, 1995 to 1997); its piecewise form and the clock below the boil
are this project's, see `designer.wort.bitterness`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from designer.wort.bitterness import TINSETH_RATE
from designer.wort.numeric import Numeric, expm1


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

    def add_hops(self, alpha_mg: Numeric) -> int:
        """Put alpha acid in and return the position it went in at."""
        self.waiting_mg = self.waiting_mg + alpha_mg / self.constant
        return self.position

    def add_iso(self, iso_mg: Numeric) -> None:
        """Put in bitterness that is already made, as a hopped kit extract brings it."""
        self.iso_mg = self.iso_mg + iso_mg

    def run(self, minutes: Numeric, bigness: Numeric) -> None:
        """Let `minutes` boil-equivalent minutes pass."""
        converts = -expm1(-TINSETH_RATE * minutes)
        self.stretches.append(Stretch(minutes, bigness, converts))
        gained = self.waiting_mg * converts
        self.iso_mg = self.iso_mg + bigness * gained
        self.waiting_mg = self.waiting_mg - gained

    def utilisations(self) -> list[Numeric]:
        """Return, for every position, the utilisation of a hop that went in there."""
        later: Numeric = 0.0
        backwards: list[Numeric] = [later]
        for stretch in reversed(self.stretches):
            gains = stretch.bigness / self.constant - later
            later = later + stretch.converts * gains
            backwards.append(later)
        return backwards[::-1]
