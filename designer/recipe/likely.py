"""What the figures of a brew day in a kitchen usually are.

Beyond these a figure is not wrong, but asked about: it may have been meant a thousand times smaller
or larger, as where a point groups thousands in one country and stands before decimals in another.
All bounds are wide and from memory: what home brewers' kettles, packets and days come to.
"""

from __future__ import annotations

from designer.recipe.document import Recipe
from designer.recipe.fields import FieldFacts
from designer.recipe.quantity import Kind

LIKELY: dict[Kind, tuple[float, float]] = {
    Kind.MASS: (0.003, 60.0),
    Kind.VOLUME: (0.01, 300.0),
    Kind.TIME: (0.5, 90.0 * 1440.0),
    Kind.FRACTION: (0.004, 1.0),
    Kind.POWER: (200.0, 20_000.0),
    Kind.LENGTH: (0.08, 1.5),
    Kind.EVAPORATION: (0.05, 40.0),
    Kind.MALT_COLOUR: (0.4, 800.0),
    Kind.BITTERNESS: (1.0, 600.0),
    Kind.ABSORPTION: (0.1, 20.0),
    Kind.CONCENTRATION: (0.01, 20.0),
    Kind.CARBONATION: (0.4, 5.0),
    Kind.RATE: (0.0005, 1.0),
    Kind.LOSS_RATE: (0.3, 100.0),
    Kind.DOSE: (0.0, 2000.0),
    Kind.MONEY: (0.0, 500.0),
}
"""The usual range of each kind, in base units; a field may declare its own."""

KG_PER_L = {"Fermentable": 1.2, "Hop": 0.1}
"""More extract or hops than this for each litre of the largest vessel is absurd for a recipe."""


def likely(
    facts: FieldFacts, line: object = None, recipe: Recipe | None = None
) -> tuple[float, float]:
    """Return the usual range of a field, within what the vessels of a recipe can need."""
    low, high = facts.likely or LIKELY.get(facts.kind, (facts.low, facts.high))
    low, high = max(low, facts.low), min(high, facts.high)
    share = KG_PER_L.get(type(line).__name__)
    if recipe is not None and share is not None and facts.kind is Kind.MASS:
        sizes = (recipe.pot.volume, recipe.fermenter.volume, recipe.process.top_up_to)
        largest = max((each.value for each in sizes if each is not None), default=0.0)
        if largest > 0.0:
            high = min(high, share * largest)
    return low, high
