"""How much yeast to pitch.

Wanted are so many living cells for each millilitre and degree Plato, more in strong wort, twice as
many in the cold. Dried cells need less than counted ones: at 12 °P the rule for them gives what
makers of dry yeast print, 0.5 to 0.8 g/L, and unlike their figures it goes on with the gravity.
Counts of cells per gram differ by a factor of three between sources, so the rule is a judgement.

Sources: pitching rates after Fix, as commonly cited; dry yeast counts: Van den Berg and Van
Landschoot, Cerevisia 28(3) (2003) 25 to 30, table 1 (quoted); doses: makers' data sheets (quoted);
faster with more yeast up to higher rates in strong wort: Suihko et al., J. Inst. Brew. 99 (1993)
341.
"""

from __future__ import annotations

from math import ceil

from designer.wort.numeric import Numeric, interpolate, largest

LIVE_CELLS_PER_GRAM = 9e9
"""Living cells in a gram of dry yeast out of a packet, of 5e9 to 14e9 (60 to 80 % of all).

Makers guarantee 6e9, handbooks use up to 20e9.
"""
DRY_RATES = ((15.0, 22.0), (0.5e6, 1.0e6))
"""Dried cells wanted for each mL and °P: by the strength of the wort in °P, between these two."""
COOL_TIMES = 2.0
"""So many times as many in a cool ferment."""
LOW_PART, HIGH_PART = 0.75, 1.2
"""A dose between these parts of what is wanted is usual: 0.5 to 0.8 g/L at 12 °P."""
LITTLE_PART = 0.5
"""Less than this part of it is little."""
PACKET_G, LARGEST_PACKET_G = 11.0, 11.5
"""Dry yeast for 20 L is sold so; common practice, no source."""
PACKETS_G = (LARGEST_PACKET_G, PACKET_G, 10.0, 7.0, 5.0)
"""What a packet holds: for 20 L, in kits, and of small makers; common practice, no source."""
_ALIKE = 0.025
_LATE_PARTS, _LATENESS = (0.2, LITTLE_PART), (2.0, 0.0)
_ONE_CELL = 1.0
_NO_G = 1e-9


def cells_needed(volume_l: Numeric, extract_plato: Numeric, rate: Numeric) -> Numeric:
    """Return the cells to pitch into `volume_l` of wort, `rate` for each mL and °P."""
    return rate * 1000.0 * volume_l * extract_plato


def grams_from_cells(cells: Numeric, cells_per_gram: float) -> Numeric:
    """Return the grams of dry yeast that bring so many cells."""
    return cells / largest(cells_per_gram, _ONE_CELL)


def dry_yeast_wanted_g(volume_l: Numeric, extract_plato: Numeric, *, cool: bool = False) -> Numeric:
    """Return the grams of dry yeast that a wort wants."""
    rate = interpolate(extract_plato, *DRY_RATES) * (COOL_TIMES if cool else 1.0)
    cells = cells_needed(volume_l, largest(extract_plato, 0.0), rate)
    return grams_from_cells(cells, LIVE_CELLS_PER_GRAM)


def packets(grams: float) -> int:
    """Return in how many packets so much dry yeast comes, one at the least."""
    return max(ceil(grams / LARGEST_PACKET_G - 1e-9), 1)


def packets_in(grams: float) -> int:
    """Return how many whole packets a weight is that somebody wrote down: 14 g are two of 7 g.

    Up to the largest it is one; else the fewest of a usual size, or as many as it takes.
    """
    fewest = packets(grams)
    if fewest == 1:
        return 1
    for count in range(fewest, ceil(grams / PACKETS_G[-1]) + 1):
        if any(abs(grams / count - size) <= _ALIKE * size for size in PACKETS_G):
            return count
    return fewest


def lateness(pitched_g: Numeric, wanted_g: Numeric) -> Numeric:
    """Return how much too little yeast leaves behind: 0 of enough, 1 at 0.35, 2 at 0.2 of it."""
    return interpolate(pitched_g / largest(wanted_g, _NO_G), _LATE_PARTS, _LATENESS)
