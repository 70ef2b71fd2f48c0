"""Alpha acid that a pot with very many hops does not dissolve.

It dissolves in the order it goes in, all of it together in the litres that the pot holds before it
is emptied: what comes late finds less room, and takes nothing from what is in. What pellets give
beyond whole hops is no iso-alpha acid and comes all the same. Sources: `designer.wort.bitterness`.
"""

from __future__ import annotations

from designer.brewday.run import Run
from designer.wort.bitterness import dissolved_alpha_mg_l
from designer.wort.numeric import Numeric, any_positive, largest

_TINY = 1e-9


def alpha_in_pot_mg_l(run: Run, pot_l: Numeric) -> Numeric:
    """Return the alpha acid added to each of `pot_l` litres of the pot."""
    return sum((hop.alpha_mg for hop in run.plan.pot_hops), 0.0) / largest(pot_l, _TINY)


def ibu_not_dissolved(
    run: Run, ibu: dict[int, Numeric], pot_l: Numeric, *, pellets_give_more: bool
) -> dict[int, Numeric]:
    """Return by line_id what is missing of `ibu` if no more dissolves than the fit to beers says.

    Nothing where all of it does. `pellets_give_more` tells whether the method of the `ibu` counts
    pellets for more than whole hops.
    """
    in_pot = alpha_in_pot_mg_l(run, pot_l)
    if not any_positive(in_pot - dissolved_alpha_mg_l(in_pot)):
        return {}
    litres = largest(pot_l, _TINY)
    added: Numeric = 0.0
    before: Numeric = 0.0
    missing: dict[int, Numeric] = {}
    for hop in sorted(run.plan.pot_hops, key=lambda each: run.hop_positions[each.line_id]):
        added = added + hop.alpha_mg / litres
        then = dissolved_alpha_mg_l(added)
        share = (then - before) * litres / largest(hop.alpha_mg, _TINY)
        before = then
        counted = 1.0 + hop.form_excess if pellets_give_more else 1.0
        missing[hop.line_id] = ibu[hop.line_id] / counted * largest(1.0 - share, 0.0)
    return missing
