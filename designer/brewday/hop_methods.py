"""Bitterness of each hop line by the chosen method.

Tinseth's curve follows the day stretch by stretch. Rager's and Garetz's formulas know only minutes,
one gravity and volumes; they are given the day's own: minutes on the day's clock, the mean gravity
of the boil, the volume at its end. Methods are never mixed within one total.
"""

from __future__ import annotations

from designer.brewday.inputs import HopIn
from designer.brewday.results import Filled
from designer.brewday.run import Run
from designer.recipe.quantity import Stage
from designer.wort.bitterness_methods import garetz_ibu, rager_ibu
from designer.wort.numeric import Numeric, largest

_TINY_L = 1e-9


def bitterness_by_line(
    method: str, run: Run, filled: Filled, boil_sg: Numeric, original_gravity: Numeric
) -> dict[int, Numeric]:
    """Return IBU in the finished beer by line_id if all alpha acid dissolves; dry hops give 0."""
    if method == "Tinseth":
        gives = _by_the_day(run, filled)
    else:
        gives = {
            hop.line_id: _by_formula(method, hop, run, filled, boil_sg, original_gravity)
            for hop in run.plan.pot_hops
        }
    return {**{hop.line_id: 0.0 for hop in run.plan.dry_hops}, **gives}


def _by_the_day(run: Run, filled: Filled) -> dict[int, Numeric]:
    utilisations = run.clock.utilisations()
    share = filled.moved_fraction / largest(filled.batch_l, _TINY_L)
    return {
        hop.line_id: hop.counted_mg * utilisations[run.hop_positions[hop.line_id]] * share
        for hop in run.plan.pot_hops
    }


def _by_formula(
    method: str, hop: HopIn, run: Run, filled: Filled, boil_sg: Numeric, og: Numeric
) -> Numeric:
    batch = largest(filled.batch_l, _TINY_L)
    minutes = _minutes_on_the_clock(run, hop)
    share, effect = hop.gains * filled.moved_fraction, run.inputs.gravity_effect
    if method == "Rager":
        return share * rager_ibu(hop.mass_kg, hop.alpha_fraction, minutes, boil_sg, batch, effect)
    pot_l = largest(filled.from_pot_l / largest(filled.moved_fraction, _TINY_L), _TINY_L)
    return share * garetz_ibu(
        hop.mass_kg, hop.alpha_fraction, minutes, og, batch, pot_l, run.inputs.altitude_m, effect
    )


def _minutes_on_the_clock(run: Run, hop: HopIn) -> Numeric:
    """Boil-equivalent minutes from the hop's addition; a boil counts as a boil at any height."""
    if hop.when.stage in (Stage.BOIL, Stage.FIRST_WORT, Stage.STEEP):
        is_boil = hop.when.stage is Stage.BOIL
        return min(hop.when.minutes, run.inputs.boil_min) if is_boil else run.inputs.boil_min
    passed = run.clock.stretches[run.hop_positions[hop.line_id] :]
    total: Numeric = 0.0
    for stretch in passed:
        total = total + stretch.minutes
    return total
