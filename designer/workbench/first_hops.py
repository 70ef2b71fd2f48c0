"""The hops of a first recipe: for bitterness what is weighed well, late on what tastes of it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from designer.brewday.first.larder import Larder
from designer.library import catalogue
from designer.library.flavours import FlavourEntry
from designer.library.style_grists import StyleGrist
from designer.recipe.document import Hop
from designer.recipe.kind_defaults import alpha_acid
from designer.recipe.quantity import Quantity
from designer.workbench.first_wishes import Wishes, stock_of

FEWEST_HOPS_G_L, MOST_HOPS_G_L = 0.5, 3.0
"""Bittering hops for a litre that can be weighed well, and that are not dear; judgement."""
USUAL_UTILISATION = 0.22
"""Share of the alpha acid that comes through; a first guess."""


@cache
def hop(name: str) -> Hop:
    """Return a hop with the alpha acid of the catalogue; KeyError for a name it does not have."""
    entry = catalogue.find_hop(name)
    if entry is None:
        raise KeyError(name)
    return catalogue.new_hop(entry)


def in_hand_alpha(line: Hop, wishes: Wishes) -> Hop:
    """Return the hop with the alpha acid of the bag in the cupboard, where it says one."""
    stock = stock_of(wishes.in_hand, line.name)
    if stock is None or stock.alpha is None:
        return line
    return replace(line, alpha=Quantity(stock.alpha, f"{100.0 * stock.alpha:.3g} %"))


def late_hops(grist: StyleGrist, wishes: Wishes) -> tuple[Hop, ...]:
    """Return the hops for late on: of each flavour of hops one, that of the style first."""
    own = dict.fromkeys((*grist.late, *grist.bittering))
    found: list[str] = []
    for flavour in wishes.flavours:
        if flavour.hops:
            fitting = [name for name in own if name in flavour.hops]
            found.append(min(fitting, key=wishes.dearness) if fitting else _kin(flavour, own))
    if not found:
        order = list(enumerate(grist.late))
        found = [min(order, key=lambda each: wishes.dearness(each[1], 2 * each[0]))[1]]
    return tuple(in_hand_alpha(hop(name), wishes) for name in dict.fromkeys(found[:2]))


def _kin(flavour: FlavourEntry, own: dict[str, None]) -> str:
    """The first hop of a flavour that is grown where those of the style are."""
    origins = {entry.origin for name in own if (entry := catalogue.find_hop(name)) is not None}
    for name in flavour.hops:
        entry = catalogue.find_hop(name)
        if entry is not None and entry.origin in origins:
            return name
    return flavour.hops[0]


def bittering_hop(larder: Larder, ibu: float, late: tuple[Hop, ...], *, is_simple: bool) -> Hop:
    """Return the bittering hop: one of the style that is weighed well for so much bitterness."""
    if is_simple:
        return late[0]

    def counts(choice: tuple[Hop, float]) -> float:
        line, dearness = choice
        g_l = ibu / (1000.0 * alpha_acid(line) * USUAL_UTILISATION)
        few = max(FEWEST_HOPS_G_L - g_l, 0.0) / FEWEST_HOPS_G_L
        many = max(g_l - MOST_HOPS_G_L, 0.0)
        same = -0.4 if line.name == late[0].name else 0.0
        return dearness + 2.0 * few + 1.5 * many + same

    return min(larder.bittering, key=counts)[0]
