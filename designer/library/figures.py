"""The recipe's own copy of each ingredient's figures, taken from the catalogue where left out."""

from __future__ import annotations

from dataclasses import replace

from designer.library.catalogue import (
    find_aid,
    find_fermentable,
    find_hop,
    find_yeast,
    new_fermentable,
    new_hop,
    new_yeast,
)
from designer.recipe.document import Extra, Fermentable, Hop, Recipe, Yeast


def with_figures(recipe: Recipe) -> Recipe:
    """Return the recipe with the figures that its lines leave out; unknown names get none."""
    return replace(
        recipe,
        fermentables=tuple(_fermentable(line) for line in recipe.fermentables),
        hops=tuple(_hop(hop) for hop in recipe.hops),
        extras=tuple(_extra(extra) for extra in recipe.extras),
        yeast=_yeast(recipe.yeast),
    )


def _fermentable(line: Fermentable) -> Fermentable:
    entry = find_fermentable(line.name)
    if entry is None or entry.kind != line.kind:
        return line
    copy = new_fermentable(entry)
    return replace(
        line,
        colour=line.colour or copy.colour,
        extract=line.extract or copy.extract,
        fermentability=line.fermentability or copy.fermentability,
    )


def _hop(hop: Hop) -> Hop:
    entry = find_hop(hop.name)
    return hop if entry is None else replace(hop, alpha=hop.alpha or new_hop(entry).alpha)


def _yeast(yeast: Yeast) -> Yeast:
    entry = find_yeast(yeast.name, yeast.form)
    if entry is None:
        return yeast
    copy = new_yeast(entry)
    return replace(
        yeast,
        attenuation=yeast.attenuation or copy.attenuation,
        lowest=yeast.lowest or copy.lowest,
        highest=yeast.highest or copy.highest,
    )


def _extra(extra: Extra) -> Extra:
    entry = find_aid(extra.name)
    return extra if entry is None or extra.purpose else replace(extra, purpose=entry.purpose)
