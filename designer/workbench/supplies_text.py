"""What the day takes besides ingredients, as lines for a terminal: water treatment."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.results import Beer
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units import show


def water_lines(recipe: Recipe, beer: Beer) -> Iterator[str]:
    """Yield how the water is treated; nothing where no chlorine is told of."""
    dose = float(beer.water_treatment_g)
    if dose > 0.0:
        said = tr(
            "Water: {grams} g of {salt} into {volume} against {disinfectant}, 10 min before use",
            grams=f"{dose:.2g}",
            salt=tr(recipe.process.metabisulfite),
            volume=show(Kind.VOLUME, float(beer.water_l), rounded=True),
            disinfectant=tr(recipe.process.disinfectant),
        )
        yield f"  {said}"
        care = tr(
            "Care: sulfite harms people with asthma or a sulfite allergy; weigh it exactly, "
            "breathe none of its dust, open a window"
        )
        yield f"  {care}"
