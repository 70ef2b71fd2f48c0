"""A first recipe of one's own: a bill for a wish, out of common lines of the catalogue."""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.first_bill import Larder, Wish, first_bill
from designer.library import catalogue
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr


def first_recipe(wish: Wish, pot: Quantity, fermenter: Quantity, style: str = "") -> Recipe:
    """Return a recipe that meets the wish in vessels as they were typed, named after its style.

    A style that the catalogue does not know is left out.
    """
    recipe = first_bill(wish, larder())
    known = catalogue.find_style(style)
    return replace(
        recipe,
        name=tr("My {style}", style=known.name) if known is not None else tr("My first bill"),
        style=known.name if known is not None else "",
        pot=replace(recipe.pot, volume=pot),
        fermenter=replace(recipe.fermenter, volume=fermenter),
    )


def larder() -> Larder:
    """Return what a first bill is made of: common lines of the catalogue."""

    def malt(name: str) -> Fermentable:
        entry = catalogue.find_fermentable(name)
        return catalogue.new_fermentable(entry) if entry is not None else Fermentable(name)

    hops = {each.name: each for each in catalogue.hops()}
    yeast = catalogue.find_yeast("Dry English ale yeast") or catalogue.yeasts()[0]
    return Larder(
        malt("Light liquid malt extract"),
        malt("Light dry malt extract"),
        malt("Crystal malt 60 °L"),
        malt("Chocolate malt"),
        catalogue.new_hop(hops["Challenger"]),
        catalogue.new_hop(hops["East Kent Golding"]),
        replace(catalogue.new_yeast(yeast), amount=typed(Kind.DOSE, 11.0, unit="g")),
    )
