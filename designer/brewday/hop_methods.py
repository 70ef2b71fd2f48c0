"""Bitterness of each hop line by the chosen method.

Tinseth's curve follows the day stretch by stretch. Rager's and Garetz's formulas know only minutes,
one gravity and volumes; they are given the day's own: minutes on the day's clock, the mean gravity
of the boil, the volume at its end. Methods are never mixed within one total.
"""

from __future__ import annotations

from collections.abc import Callable

from designer.brewday.dissolving import lost_by_the_fit
from designer.brewday.hop_inputs import HopIn
from designer.brewday.results import Boiled, Filled
from designer.brewday.run import Run
from designer.recipe.quantity import Stage
from designer.wort.bitterness_methods import garetz_ibu, rager_ibu
from designer.wort.numeric import Numeric, largest

_TINY_L = 1e-9
ByLine = dict[int, Numeric]
Gives = Callable[[HopIn, Numeric], Numeric]
"""IBU in the finished beer of a hop of whose alpha acid this share does not dissolve."""


def hop_bitterness(
    method: str, run: Run, boiled: Boiled, filled: Filled, original_gravity: Numeric
) -> tuple[ByLine, float]:
    """Return IBU in the finished beer by line_id, dry hops give 0, and how much may be missing.

    That is what all hops of a plain day give less if no more dissolves than in measured beers.
    """
    if method == "Tinseth":
        gives = _by_the_day(run, filled)
    else:
        boil_sg = (boiled.boil_gravity_start + boiled.boil_gravity_end) / 2.0
        gives = _by_formula(method, run, filled, boil_sg, original_gravity)
    lost = lost_by_the_fit(run, filled.in_pot_l + boiled.evaporated_l)
    found: ByLine = {hop.line_id: 0.0 for hop in run.plan.dry_hops}
    missing = 0.0
    for hop in run.plan.pot_hops:
        share = lost.get(hop.line_id, 0.0)
        found[hop.line_id] = gives(hop, run.inputs.undissolved * share)
        if isinstance(share, float) and share > 0.0:
            missing += float(found[hop.line_id] - gives(hop, share))
    return found, missing


def _by_the_day(run: Run, filled: Filled) -> Gives:
    share = filled.moved_fraction / largest(filled.batch_l, _TINY_L)
    utilisations = run.clock.utilisations()
    per_mg = {at: utilisations[at] * share for at in set(run.hop_positions.values())}

    def gives(hop: HopIn, lost: Numeric) -> Numeric:
        counted = hop.counted_mg
        if not isinstance(lost, float) or lost > 0.0:
            counted = counted - hop.not_dissolved_mg(lost)
        return counted * per_mg[run.hop_positions[hop.line_id]]

    return gives


def _by_formula(method: str, run: Run, filled: Filled, boil_sg: Numeric, og: Numeric) -> Gives:
    batch = largest(filled.batch_l, _TINY_L)
    pot_l = largest(filled.from_pot_l / largest(filled.moved_fraction, _TINY_L), _TINY_L)
    effect, altitude_m = run.inputs.gravity_effect, run.inputs.altitude_m

    def gives(hop: HopIn, lost: Numeric) -> Numeric:
        minutes, mass_kg = _minutes_on_the_clock(run, hop), hop.mass_kg * (1.0 - lost)
        share = hop.gains * filled.moved_fraction
        if method == "Rager":
            return share * rager_ibu(mass_kg, hop.alpha_fraction, minutes, boil_sg, batch, effect)
        return share * garetz_ibu(
            mass_kg, hop.alpha_fraction, minutes, og, batch, pot_l, altitude_m, effect
        )

    return gives


def _minutes_on_the_clock(run: Run, hop: HopIn) -> Numeric:
    """Boil-equivalent minutes from the hop's addition; a boil counts as a boil at any height."""
    if hop.when.stage in (Stage.BOIL, Stage.FIRST_WORT, Stage.STEEP):
        is_boil = hop.when.stage is Stage.BOIL
        return min(hop.when.minutes, run.inputs.boil_min) if is_boil else run.inputs.boil_min
    return run.clock.minutes_since(run.hop_positions[hop.line_id])
