"""What a hop is for: to bitter, by its time in the boil, or to be smelt and tasted.

A bittering hop is trimmed where a beer would come out too bitter, for nobody tastes how much of it
there was. All others go in by the litre: with fewer of them the beer smells of less hop, whatever
its bitterness.
"""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.fit.answer import named
from designer.brewday.fit.changed_recipe import HOP_STEP_KG, line_kg
from designer.brewday.hop_inputs import BEFORE_THE_BOIL
from designer.recipe.document import Hop, Recipe
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind, Stage

BITTERING_MIN = 30.0
"""Boiled for so long, little of a hop's own aroma is left; a judgement: between the 60 min of a
bittering addition and the 15 min or less of one for taste and smell (common practice, no source).
"""
_DRY = (Stage.DRY_HOP, Stage.FERMENTER)
_ROUNDING_KG = 0.5 * HOP_STEP_KG + 1e-6


def bitters(recipe: Recipe) -> tuple[Hop, ...]:
    """Return the hops that make the beer bitter; a dry hop does not."""
    return tuple(hop for hop in recipe.hops if not is_dry(hop) and line_kg(hop) > 0.0)


def is_dry(hop: Hop) -> bool:
    """Tell whether a hop goes into the fermenter."""
    return hop.when.stage in _DRY


def boiled_min(hop: Hop, recipe: Recipe) -> float:
    """Return for how long a hop boils; 0 for one that goes in afterwards."""
    whole = number(recipe.process, "boil_time")
    if hop.when.stage in BEFORE_THE_BOIL:
        return whole
    return min(hop.when.minutes, whole) if hop.when.stage is Stage.BOIL else 0.0


def is_bittering(hop: Hop, recipe: Recipe) -> bool:
    """Tell whether a hop is there to bitter: in before the boil, or boiled for half an hour."""
    return hop.when.stage in BEFORE_THE_BOIL or boiled_min(hop, recipe) >= BITTERING_MIN


def bittering(recipe: Recipe) -> tuple[Hop, ...]:
    """Return the hops that are there to bitter."""
    return tuple(hop for hop in bitters(recipe) if is_bittering(hop, recipe))


def late_followed(recipe: Recipe, made: Recipe, ratio: float) -> Iterator[Message]:
    """Yield what late hops are more or less a litre in a batch that is `ratio` of the recipe's.

    Nothing where they kept their weight a litre, so that bittering hops alone held the bitterness.
    """
    new = {hop.line_id: line_kg(hop) for hop in made.hops}
    for hop in bitters(recipe):
        if is_bittering(hop, recipe):
            continue
        kg, by_the_litre = new.get(hop.line_id, 0.0), ratio * line_kg(hop)
        change = kg / by_the_litre - 1.0
        if kg <= 0.0:
            yield say("late-hop-out", "{hop}: none of it, it is bitter without.", hop=_put_in(hop))
        elif abs(kg - by_the_litre) > _ROUNDING_KG:
            figures = (Kind.MASS, kg), (Kind.FRACTION, round(abs(change), 2))
            yield (
                say(
                    "late-hop-less",
                    "{hop}: {0}, {1} less a litre than in the recipe, or it would be too bitter.",
                    *figures,
                    hop=_put_in(hop),
                )
                if change < 0.0
                else say(
                    "late-hop-more",
                    "{hop}: {0}, {1} more a litre than in the recipe, for it lacks bitterness.",
                    *figures,
                    hop=_put_in(hop),
                )
            )


def _put_in(hop: Hop) -> Message:
    name = named(hop.name)
    if hop.when.stage is Stage.BOIL:
        return say("hop-in-boil", "{name} at {0} left", (Kind.TIME, hop.when.minutes), name=name)
    if hop.when.stage is Stage.STAND:
        return say("hop-in-stand", "{name} in the stand", name=name)
    return say("hop-at-flame-out", "{name} at flame-out", name=name)
