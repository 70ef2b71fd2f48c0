"""What the Recipe box lists of a recipe beside its name: style, vessels and its main figures."""

from __future__ import annotations

from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import MAIN
from designer.brewday.results import Outlook
from designer.library.store import Summary
from designer.library.store.values import forecast_columns
from designer.recipe.document import Recipe


def summary_of(recipe: Recipe, outlook: Outlook | None = None) -> Summary:
    """Return the summary of a recipe; without its `outlook` it is forecast, ranges left out."""
    day = (outlook or look_ahead(recipe, ranges=False)).day
    return Summary(
        style=recipe.style,
        fermenter=recipe.fermenter.name,
        pot=recipe.pot.name,
        batch_l=float(day.fermenter.batch_l),
        pot_fullest_l=float(day.pot.fullest_l),
        **forecast_columns({each.key: float(each.compute(day)) for each in MAIN}),
    )
