"""A pot filled as far as it may be, with fewer bittering hops where the beer would be too bitter.

A weaker wort draws more from its hops. To hold the bitterness by boiling less water would leave the
pot half empty and make the wort a syrup; to leave out some of the bittering hops saves them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import named
from designer.brewday.fit.changed_recipe import HOP_STEP_KG, forecast, line_kg, with_amounts
from designer.brewday.fit.hop_roles import bittering
from designer.brewday.fit.original import IBU_DEADBAND, Original
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.fit.scraps import SCRAP
from designer.brewday.search import nearest
from designer.recipe.document import Recipe
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

_FINE = 1000
_SMALL_KG = 10.0 * HOP_STEP_KG
"""Less than that is weighed more closely."""


def full_with_fewer_hops(recipe: Recipe, original: Original, most_l: float) -> Recipe | None:
    """Return the recipe in as full a pot as may be, bittering hops trimmed to hold the bitterness.

    Where it is not more bitter none is left out. Where trimming does not hold it, or would leave
    but a scrap, less water is boiled instead. None where not even the least water fits.
    """
    full = filled(recipe, original, most_l, hold_bitterness=False)
    if full is None or forecast(full, "bitterness_ibu") <= original.most_ibu:
        return full
    trimmed = _trimmed(full, original)
    if trimmed is not None:
        return trimmed
    return filled(recipe, original, most_l)


def _trimmed(full: Recipe, original: Original) -> Recipe | None:
    wanted = float(original.day.beer.bitterness_ibu)
    hops = bittering(full)

    def at(steps: int) -> Recipe:
        share = steps / _FINE
        return with_amounts(full, {hop.line_id: share * line_kg(hop) for hop in hops})

    steps = nearest(lambda n: forecast(at(n), "bitterness_ibu"), wanted, 0, _FINE)
    weighed = {hop.line_id: _weighable(line_kg(hop) * steps / _FINE) for hop in hops}
    if not hops or any(weighed[hop.line_id] >= (1.0 - SCRAP) * line_kg(hop) for hop in hops):
        return None
    if any(kg <= 0.0 for kg in weighed.values()):
        return None
    made = with_amounts(full, weighed)
    # Fewer hops hold back less wort: no more of it may come than there is room for.
    made = filled(made, original, own_water_l(made), hold_bitterness=False) or made
    off = abs(forecast(made, "bitterness_ibu") - wanted)
    return made if off <= IBU_DEADBAND else None


def _weighable(kg: float) -> float:
    step = HOP_STEP_KG if kg >= _SMALL_KG else HOP_STEP_KG / 5.0
    return round(round(kg / step) * step, 6)


def hops_saved(recipe: Recipe, boils: Sequence[Recipe]) -> Iterator[Message]:
    """Yield which bittering hops the boils of a recipe need fewer of, and how much is saved."""
    for hop in bittering(recipe):
        used = sum(line_kg(each) for boil in boils for each in boil.hops
                   if each.line_id == hop.line_id)  # fmt: skip
        saved = line_kg(hop) - used
        if saved > 0.5 * HOP_STEP_KG / 5.0:
            yield say(
                "hops-saved",
                "{name}: {0} in all instead of {1}, for a weaker wort draws more from it; that "
                "saves {2}.",
                (Kind.MASS, used),
                (Kind.MASS, line_kg(hop)),
                (Kind.MASS, saved),
                name=named(hop.name),
            )
