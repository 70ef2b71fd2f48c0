"""Alpha acid that a pot with very many hops does not dissolve.

It dissolves in the order it goes in, all of it together in the litres that are boiled, with what of
them goes off as steam: what comes late finds less room, and takes nothing from what is in.

Source of how much dissolves: `designer.wort.bitterness`.
"""

from __future__ import annotations

from designer.brewday.run import Run
from designer.wort.bitterness import dissolved_alpha_mg_l
from designer.wort.numeric import Numeric, any_positive, largest

_TINY = 1e-9


def dissolved_by_the_fit(run: Run, boiled_l: Numeric) -> dict[int, Numeric]:
    """Return by line_id the share of each hop's alpha acid that dissolves in so many litres.

    That is by the fit to measured beers; nothing is returned where all of it does.
    """
    litres = largest(boiled_l, _TINY)
    in_pot = sum((hop.alpha_mg for hop in run.plan.pot_hops), 0.0) / litres
    if not any_positive(in_pot - dissolved_alpha_mg_l(in_pot)):
        return {}
    added: Numeric = 0.0
    before: Numeric = 0.0
    shares: dict[int, Numeric] = {}
    for hop in sorted(run.plan.pot_hops, key=lambda each: run.hop_positions[each.line_id]):
        added = added + hop.alpha_mg / litres
        then = dissolved_alpha_mg_l(added)
        shares[hop.line_id] = (then - before) * litres / largest(hop.alpha_mg, _TINY)
        before = then
    return shares
