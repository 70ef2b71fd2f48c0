"""Alpha acid that a pot with very many hops does not dissolve.

It dissolves in the order it goes in, all of it together in the litres that are boiled, with what of
them goes off as steam: what comes late finds less room, and takes nothing from what is in.

Source of how much dissolves: `designer.wort.bitterness`.
"""

from __future__ import annotations

from itertools import accumulate

from designer.brewday.hop_inputs import HopIn
from designer.brewday.run import Run
from designer.wort.bitterness import dissolved_alpha_mg_l
from designer.wort.numeric import Numeric, any_positive, largest, row_by_row

_TINY = 1e-9


def lost_by_the_fit(run: Run, boiled_l: Numeric) -> dict[int, Numeric]:
    """Return by line_id the share of each hop's alpha acid that does not dissolve in the litres.

    That is by the fit to measured beers; nothing is returned where all of it does. What goes in at
    one moment dissolves alike.
    """
    litres = largest(boiled_l, _TINY)
    in_pot = sum((hop.alpha_mg for hop in run.plan.pot_hops), 0.0) / litres
    if not any_positive(in_pot - dissolved_alpha_mg_l(in_pot)):
        return {}
    together: dict[int, list[HopIn]] = {}
    for hop in run.plan.pot_hops:
        together.setdefault(run.hop_positions[hop.line_id], []).append(hop)
    in_order = [hops for _, hops in sorted(together.items())]
    alphas = [sum((hop.alpha_mg for hop in hops), 0.0) / litres for hops in in_order]
    before: Numeric = 0.0
    lost: dict[int, Numeric] = {}
    dissolved = row_by_row(dissolved_alpha_mg_l, list(accumulate(alphas)))
    for hops, alpha, then in zip(in_order, alphas, dissolved, strict=True):
        share = largest(1.0 - (then - before) / largest(alpha, _TINY), 0.0)
        lost.update(dict.fromkeys((hop.line_id for hop in hops), share))
        before = then
    return lost
