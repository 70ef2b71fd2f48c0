"""What the figures of a brew day in a kitchen usually are.

Beyond these a figure is not wrong, but asked about: it may have been meant a thousand times smaller
or larger, as where a point groups thousands in one country and stands before decimals in another.
The usual range of each kind stands with it (`designer.recipe.kinds`).
"""

from __future__ import annotations

from designer.recipe.document import Recipe
from designer.recipe.fields import FieldFacts
from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind

KG_PER_L = {"Fermentable": 1.2, "Hop": 0.1}
"""More extract or hops than this for each litre of the largest vessel is absurd for a recipe."""


def likely(
    facts: FieldFacts, line: object = None, recipe: Recipe | None = None
) -> tuple[float, float]:
    """Return the usual range of a field, within what the vessels of a recipe can need."""
    low, high = facts.likely or KINDS[facts.kind].likely or (facts.low, facts.high)
    low, high = max(low, facts.low), min(high, facts.high)
    share = KG_PER_L.get(type(line).__name__)
    if recipe is not None and share is not None and facts.kind is Kind.MASS:
        sizes = (recipe.pot.volume, recipe.fermenter.volume, recipe.process.top_up_to)
        largest = max((each.value for each in sizes if each is not None), default=0.0)
        if largest > 0.0:
            high = min(high, share * largest)
    return low, high
