"""One plain sentence of judgement, and the order of the ways."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from designer.brewday.fit.answer import Compared, Figures, Said, Way
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import (
    IBU_DEADBAND,
    OG_DEADBAND,
    SRM_DEADBAND,
    VOLUME_DEADBAND,
)
from designer.recipe.quantity import Kind


def ranked(ways: Sequence[Way]) -> tuple[Way, ...]:
    """Return the ways, the nearest to the original first, then the one with the least to do."""
    ordered = sorted(ways, key=lambda way: (way.closeness, way.effort))
    return tuple(replace(way, rank=place) for place, way in enumerate(ordered, 1))


def judgement(
    kitchen: Kitchen,
    draft: Draft,
    forecasts: Mapping[str, Compared],
    batch_l: float,
) -> Said:
    """Return what the way is good for, what it does to the beer, and what it asks for."""
    differs, figures = _differences(kitchen, forecasts, batch_l)
    beer = " and ".join(differs) if differs else "the beer of the recipe"
    gist = draft.gist.template
    bought = draft.bought
    wants = " It asks for another fermenter." if bought == 1 else ""
    wants = f" It asks for {bought} more fermenters." if bought > 1 else wants
    return Said(f"{gist}: {beer}.{wants}", figures)


def _differences(
    kitchen: Kitchen, forecasts: Mapping[str, Compared], batch_l: float
) -> tuple[list[str], Figures]:
    words: list[str] = []
    figures: list[tuple[Kind, float]] = []

    def add(text: str, kind: Kind, *values: float) -> None:
        places = [f"{{{len(figures) + i}}}" for i in range(len(values))]
        figures.extend((kind, value) for value in values)
        words.append(text.format(*places))

    og, ibu = forecasts["original_gravity"], forecasts["bitterness_ibu"]
    srm = forecasts["colour_srm"]
    whole = kitchen.original.batch_l
    if abs(batch_l - whole) > VOLUME_DEADBAND * whole:
        add("{} instead of {}", Kind.VOLUME, batch_l, whole)
    if abs(og.change) > OG_DEADBAND:
        stronger = "stronger" if og.change > 0 else "weaker"
        add(f"{stronger}, {{}} instead of {{}}", Kind.GRAVITY, og.value, og.original)
    if abs(ibu.change) > IBU_DEADBAND:
        more = "more" if ibu.change > 0 else "less"
        add(f"{more} bitter, {{}} instead of {{}}", Kind.BITTERNESS, ibu.value, ibu.original)
    if abs(srm.change) > SRM_DEADBAND:
        darker = "darker" if srm.change > 0 else "paler"
        add(f"{darker}, {{}} instead of {{}}", Kind.BEER_COLOUR, srm.value, srm.original)
    return words, tuple(figures)
