"""The recipe's own copy of each ingredient's figures, taken from the catalogue where left out.

A figure that the document gives as null was emptied by the brewer and stays so.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from designer.library.catalogue import (
    find_aid,
    find_fermentable,
    find_hop,
    find_yeast,
    new_fermentable,
    new_hop,
    new_yeast,
)
from designer.recipe.document import (
    LINE_TYPES,
    Extra,
    Fermentable,
    Hop,
    PlannedBoil,
    PlannedFermenter,
    Recipe,
    Yeast,
)
from designer.recipe.named import lines_of

Part = Fermentable | Hop | Extra | Yeast


FIGURES = {
    "fermentables": ("colour", "extract", "fermentability"),
    "hops": ("alpha",),
    "extras": ("purpose",),
    "yeast": ("attenuation", "lowest", "highest"),
}
"""The fields that the catalogue fills, by list or part."""


def with_figures(recipe: Recipe, document: object = None) -> Recipe:
    """Return the recipe with the figures that its lines leave out; unknown names get none.

    `document` holds the plain values that the recipe was read from: what stands there under its
    key, be it empty, is not left out.
    """
    given = document if isinstance(document, dict) else {}
    changes: dict[str, Any] = {"yeast": _filled("yeast", recipe.yeast, given.get("yeast", {}))}
    for name in LINE_TYPES:
        lines = lines_of(recipe, name)
        keys = given.get(name) or [{}] * len(lines)
        changes[name] = tuple(
            _filled(name, line, each) for line, each in zip(lines, keys, strict=True)
        )
    if recipe.boils:
        changes["boils"] = _of_boils(recipe.boils, given.get("boils") or [])
    if any(each.yeast is not None for each in recipe.fermenters):
        changes["fermenters"] = _of_fermenters(recipe.fermenters, given.get("fermenters") or [])
    return replace(recipe, **changes)


def _of_fermenters(
    fermenters: tuple[PlannedFermenter, ...], given: list[Any]
) -> tuple[PlannedFermenter, ...]:
    """Return fermenters whose own yeast has its figures too."""
    found = []
    for place, each in enumerate(fermenters):
        if each.yeast is not None:
            keys = given[place].get("yeast", {}) if place < len(given) else {}
            each = replace(each, yeast=_filled("yeast", each.yeast, keys))
        found.append(each)
    return tuple(found)


def _of_boils(boils: tuple[PlannedBoil, ...], given: list[Any]) -> tuple[PlannedBoil, ...]:
    """Return boils whose own lines have their figures too."""
    found = []
    for place, boil in enumerate(boils):
        keys = given[place] if place < len(given) else {}
        changes: dict[str, Any] = {}
        for name in LINE_TYPES:
            own: tuple[Any, ...] | None = getattr(boil, name)
            if own is not None:
                each = keys.get(name) or [{}] * len(own)
                changes[name] = tuple(map(partial(_filled, name), own, each))
        found.append(replace(boil, **changes))
    return tuple(found)


def emptied(name: str, part: Part) -> dict[str, Any]:
    """Return the fields of a line or the yeast that are empty, with what the catalogue has."""
    empty = [each for each in FIGURES[name] if not getattr(part, each)]
    known = _known(part) if empty else None
    return {each: getattr(known, each) for each in empty if getattr(known, each, None)}


def _filled(name: str, part: Any, given: dict[str, Any]) -> Any:
    changes = {key: value for key, value in emptied(name, part).items() if key not in given}
    return replace(part, **changes) if changes else part


def _known(part: Part) -> Part | None:
    """Return the ingredient as the catalogue has it; None if it has not."""
    if isinstance(part, Fermentable):
        fermentable = find_fermentable(part.name)
        if fermentable is None or fermentable.kind != part.kind:
            return None
        return new_fermentable(fermentable)
    if isinstance(part, Hop):
        hop = find_hop(part.name)
        return new_hop(hop) if hop is not None else None
    if isinstance(part, Yeast):
        yeast = find_yeast(part.name, part.form)
        return new_yeast(yeast) if yeast is not None else None
    aid = find_aid(part.name)
    return Extra(purpose=aid.purpose) if aid is not None else None
