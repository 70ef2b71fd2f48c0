"""What the Recipe box lists of a recipe beside its name: style, vessels and its main figures."""

from __future__ import annotations

from designer.brewday.outlook import look_ahead
from designer.brewday.results import Outlook
from designer.library.store import Summary
from designer.recipe.document import Recipe


def summary_of(recipe: Recipe, outlook: Outlook | None = None) -> Summary:
    """Return the summary of a recipe; without its `outlook` it is forecast, ranges left out."""
    day = (outlook or look_ahead(recipe, ranges=False)).day
    return Summary(
        style=recipe.style,
        fermenter=recipe.fermenter.name,
        pot=recipe.pot.name,
        og=float(day.original_gravity),
        fg=float(day.final_gravity),
        abv=float(day.abv_percent),
        ibu=float(day.bitterness_ibu),
        srm=float(day.colour_srm),
        batch_l=float(day.batch_l),
        pot_fullest_l=float(day.fullest_l),
    )
