"""Which fermentables and which yeast, in which shares: for colour, character and where it ends.

All that may go in is tried by sums a kilogram, and what counts least against it is taken: how far
the beer is from what is wanted and from its ranges, unusual shares, lines to buy. The day then
weighs it out. What counts how much is judgement, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.first.larder import Aim, Larder, Role
from designer.brewday.first.shares import Shares, at, candidates, coloured, fermenting, sweetened
from designer.brewday.first.strength import alcohol, extract_kg_l, gravity_wanted
from designer.recipe.document import Yeast
from designer.recipe.kind_defaults import colour_lovibond
from designer.wort.colour import malt_colour_units, morey
from designer.wort.fermentation import final_gravity

KEPT = 12
"""Grists that are looked at with every yeast and with more and less sugar."""
NOTICED = {"original_gravity": 0.003, "final_gravity": 0.002, "abv_percent": 0.3}
NOTICED_SRM, NOTICED_COLOUR = 0.5, 0.12
"""Differences that count once; of colour so many SRM and that share of it."""
WEIGHTS = {"original_gravity": 1.0, "final_gravity": 6.0, "abv_percent": 1.0, "colour_srm": 1.2}
ASKED, OUTSIDE, NEAR_EDGE, EDGE = 3.0, 40.0, 6.0, 0.08
"""What was asked for counts so many times; a difference beyond a range, and being within that share
of its end, count so much."""
UNUSUAL, A_LINE, A_LINE_SIMPLE = 3.0, 0.4, 2.4
"""Crystal malt from one end of what is usual to the other; each line; where few are wanted."""
LEAST_BASE, NO_BASE = 0.25, 100.0
"""With less base than that it is no beer of malt extract: what is missing counts so much."""


@dataclass(frozen=True, slots=True)
class Grist:
    """Parts with their shares of all that is weighed in, the yeast, and what beer they make.

    `costs` is what counts against it.
    """

    shares: Shares
    yeast: Yeast
    original_gravity: float
    final_gravity: float
    abv_percent: float
    colour_srm: float
    costs: float

    def share_of(self, role: Role) -> float:
        """Return what parts of a role are together of all that is weighed in."""
        return sum(share for part, share in self.shares if part.role is role)


def best_grist(larder: Larder, aim: Aim) -> Grist:
    """Return the grist that comes nearest to what is wanted."""
    usual = larder.yeasts[0][0]
    rough = sorted(
        (_judged(shares, usual, aim, larder) for shares in candidates(larder, aim)),
        key=lambda each: each.costs,
    )
    finer = (
        _judged(_fixed(shares, yeast, aim, larder), yeast, aim, larder, dearness)
        for grist in rough[:KEPT]
        for yeast, dearness in larder.yeasts
        for shares in sweetened(grist.shares)
    )
    return min(finer, key=lambda each: each.costs)


def _fixed(shares: Shares, yeast: Yeast, aim: Aim, larder: Larder) -> Shares:
    """The shares with the colour of the gravity that this yeast wants."""
    return coloured(shares, larder, aim, gravity_wanted(aim, fermenting(shares, yeast)[1]))


def _judged(shares: Shares, yeast: Yeast, aim: Aim, larder: Larder, dearness: float = 0.0) -> Grist:
    extract, ferments = fermenting(shares, yeast)
    gravity = gravity_wanted(aim, ferments)
    final = float(final_gravity(gravity, ferments))
    colour = sum(share * colour_lovibond(part.line) for part, share in shares)
    kg_l = extract_kg_l(round(gravity, 4)) / extract
    figures = {
        "original_gravity": gravity,
        "final_gravity": final,
        "abv_percent": alcohol(round(gravity, 4), round(final, 4)),
        "colour_srm": float(morey(malt_colour_units(kg_l * colour, 1.0))),
    }
    costs = dearness + sum(part.dearness for part, _ in shares) + _missed(figures, aim)
    costs += _unusual(shares, larder, aim)
    costs += _lines(shares, aim)
    return Grist(shares, yeast, **figures, costs=costs)


def _lines(shares: Shares, aim: Aim) -> float:
    """What it counts that there are lines to buy; where few are wanted, sugar goes first."""
    if not aim.is_simple:
        return A_LINE * len(shares)
    return A_LINE_SIMPLE * sum(3 if part.role is Role.SUGAR else 1 for part, _ in shares)


def _missed(figures: dict[str, float], aim: Aim) -> float:
    """What it counts that a beer is not as wanted, and that it is out of its ranges."""
    costs = 0.0
    for key, value in figures.items():
        noticed = NOTICED.get(key, NOTICED_COLOUR * aim.near["colour_srm"] + NOTICED_SRM)
        weight = WEIGHTS[key] * (ASKED if key in aim.asked else 1.0)
        costs += weight * abs(value - aim.near[key]) / noticed
        if key in aim.bands:
            low, high = aim.bands[key]
            costs += OUTSIDE * max(low - value, value - high, 0.0) / noticed
            near_edge = EDGE - min(value - low, high - value) / (high - low)
            costs += NEAR_EDGE * min(max(near_edge / EDGE, 0.0), 1.0)
    return costs


def _unusual(shares: Shares, larder: Larder, aim: Aim) -> float:
    """What it counts that there is more or less crystal malt than was to go in, or no base."""
    no_base = NO_BASE * max(LEAST_BASE - shares[0][1], 0.0)
    if larder.crystals == (None,):
        return no_base
    crystal = sum(share for part, share in shares if part.role is Role.CRYSTAL)
    low, high = larder.usual[Role.CRYSTAL]
    off = abs(crystal - at((low, high), aim.crystal_at)) / max(high - low, 1e-6)
    return no_base + UNUSUAL * min(off, 1.0)
