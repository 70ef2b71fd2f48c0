"""One plain sentence of judgement, and the order of the ways."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from designer.brewday.fit.answer import Compared, Way
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import (
    IBU_DEADBAND,
    OG_DEADBAND,
    SRM_DEADBAND,
    VOLUME_DEADBAND,
)
from designer.recipe.message import Figure, Message, in_turn, listed, say
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
) -> Message:
    """Return what the way is good for, what it does to the beer, and what it asks for."""
    differs = _differences(kitchen, forecasts, batch_l)
    beer = listed(differs) if differs else say("same-beer", "the beer of the recipe")
    judged = say("judged", "{gist}: {beer}.", gist=draft.gist, beer=beer)
    if draft.bought == 1:
        return in_turn(judged, say("wants-fermenter", "It asks for another fermenter."))
    if draft.bought > 1:
        wants = say("wants-fermenters", "It asks for {n} more fermenters.", n=draft.bought)
        return in_turn(judged, wants)
    return judged


def _differences(
    kitchen: Kitchen, forecasts: Mapping[str, Compared], batch_l: float
) -> list[Message]:
    og, ibu = forecasts["original_gravity"], forecasts["bitterness_ibu"]
    srm = forecasts["colour_srm"]
    whole = kitchen.original.batch_l
    found = []
    if abs(batch_l - whole) > VOLUME_DEADBAND * whole:
        volumes = (Kind.VOLUME, batch_l), (Kind.VOLUME, whole)
        found.append(say("other-volume", "{0} instead of {1}", *volumes))
    if abs(og.change) > OG_DEADBAND:
        found.append(
            say(
                "other-strength",
                "stronger, {0} instead of {1}" if og.change > 0 else "weaker, {0} instead of {1}",
                *_figures(Kind.GRAVITY, og),
            )
        )
    if abs(ibu.change) > IBU_DEADBAND:
        found.append(
            say(
                "other-bitterness",
                (
                    "more bitter, {0} instead of {1}"
                    if ibu.change > 0
                    else "less bitter, {0} instead of {1}"
                ),
                *_figures(Kind.BITTERNESS, ibu),
            )
        )
    if abs(srm.change) > SRM_DEADBAND:
        found.append(
            say(
                "other-colour",
                "darker, {0} instead of {1}" if srm.change > 0 else "paler, {0} instead of {1}",
                *_figures(Kind.BEER_COLOUR, srm),
            )
        )
    return found


def _figures(kind: Kind, found: Compared) -> tuple[Figure, Figure]:
    return (kind, found.value), (kind, found.original)
