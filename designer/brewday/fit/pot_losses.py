"""What a pot loses: a recipe's figures are of its own pot, and a smaller one loses less.

What boils off and what stays on the bottom go with the surface: of pots alike in shape, with the
two-thirds power of their volumes. A larger pot on the same stove boils off no more, and the sludge
of the same wort is no more either: its losses are left as they are typed.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.brewday.fit.wish import Measured
from designer.recipe.document import Pot, Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.kinds import typed
from designer.recipe.message import Message, listed, say
from designer.recipe.quantity import Kind, Quantity

SURFACE_POWER = 2.0 / 3.0
LEAST_CHANGE = 0.1
"""A pot that is smaller by less than a tenth of the surface counts as the same; a judgement."""


def with_losses_of(recipe: Recipe, pot: Pot) -> Recipe:
    """Return the recipe with typed losses brought down to those of a smaller pot than its own.

    What nobody typed is not touched. A cooling constant was measured in the old pot: it goes.
    """
    share = _surface_share(recipe.pot, pot)
    if share > 1.0 - LEAST_CHANGE:
        return recipe
    process = recipe.process
    return replace(
        recipe,
        process=replace(
            process,
            evaporation=_in_share(Kind.EVAPORATION, process.evaporation, share),
            left_in_pot=_in_share(Kind.VOLUME, process.left_in_pot, share),
            cooling_constant=None,
        ),
    )


def losses_said(recipe: Recipe, pot: Pot, measured: Measured = ()) -> tuple[Message, ...]:
    """Return what is said of the losses in another pot than the recipe's own; nothing of equal.

    What was measured with that pot is no guess, and nothing is said of it.
    """
    before = recipe.process
    known: dict[str, Any] = {name: None for name, _ in measured}
    now = replace(with_losses_of(recipe, pot).process, **known)
    changed = []
    if now.left_in_pot and before.left_in_pot and now.left_in_pot != before.left_in_pot:
        left = (Kind.VOLUME, now.left_in_pot.value), (Kind.VOLUME, before.left_in_pot.value)
        changed.append(say("pot-keeps", "{0} left in it instead of {1}", *left))
    if now.evaporation and before.evaporation and now.evaporation != before.evaporation:
        steam = (
            (Kind.EVAPORATION, now.evaporation.value),
            (Kind.EVAPORATION, before.evaporation.value),
        )
        changed.append(say("pot-boils-off", "{0} boiling off instead of {1}", *steam))
    if not changed:
        return ()
    counted = say(
        "pot-losses",
        "Counted with what a pot of this size loses: {losses}; measure yours.",
        losses=listed(changed),
    )
    return (counted,)


def _surface_share(own: Pot, other: Pot) -> float:
    before, now = number_or_none(own, "volume"), number_or_none(other, "volume")
    if not before or not now:
        return 1.0
    return float(min(now / before, 1.0) ** SURFACE_POWER)


def _in_share(kind: Kind, amount: Quantity | None, share: float) -> Quantity | None:
    return None if amount is None else typed(kind, float(f"{amount.value * share:.2g}"))
