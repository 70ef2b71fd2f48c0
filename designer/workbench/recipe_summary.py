"""What the Recipe box lists of a recipe beside its name: style, vessels and its main figures."""

from __future__ import annotations

from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import MAIN
from designer.brewday.results import Outlook
from designer.library.store import Summary
from designer.library.store.values import forecast_columns
from designer.recipe.document import Recipe
from designer.recipe.plan import boils_of, is_planned, vessels_of
from designer.recipe.plan_words import vessels_words


def summary_of(recipe: Recipe, outlook: Outlook | None = None) -> Summary:
    """Return the summary of a recipe; without its `outlook` it is forecast, ranges left out.

    Of one that is brewed by a plan it tells what is brewed, and all its pots and fermenters.
    """
    day = (outlook or look_ahead(recipe, ranges=False)).day
    pots, fermenters = recipe.pot.name, recipe.fermenter.name
    if is_planned(recipe):
        pots = str(vessels_words([each.pot for each in boils_of(recipe)]))
        fermenters = str(vessels_words(vessels_of(recipe)))
    return Summary(
        style=recipe.style,
        fermenter=fermenters,
        pot=pots,
        batch_l=float(day.fermenter.batch_l),
        pot_fullest_l=float(day.pot.fullest_l),
        **forecast_columns({each.key: float(each.compute(day)) for each in MAIN}),
    )
