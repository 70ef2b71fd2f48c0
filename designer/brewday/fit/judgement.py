"""One plain sentence of judgement, and the order of the ways."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from designer.brewday.fit.answer import Compared, Way
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import VOLUME_DEADBAND
from designer.brewday.predictions import PREDICTIONS
from designer.recipe.message import Message, in_turn, listed, plain_figure, say
from designer.recipe.quantity import Kind


def ranked(ways: Sequence[Way]) -> tuple[Way, ...]:
    """Return the ways: those with what is in hand first, then by nearness, then by what is to do.

    How near the beer is goes before how much is to do, among those that ask for nothing and again
    among those that want something bought.
    """
    ordered = sorted(ways, key=lambda way: (not way.in_hand, way.closeness, way.effort))
    return tuple(replace(way, rank=place) for place, way in enumerate(ordered, 1))


def judgement(
    kitchen: Kitchen, draft: Draft, forecasts: Mapping[str, Compared], batch_l: float
) -> Message:
    """Return what the way is good for, what it does to the beer, and what it asks for."""
    differs = _differences(kitchen, forecasts, batch_l)
    beer = listed(differs) if differs else say("same-beer", "the beer of the recipe")
    judged = say("judged", "{gist}: {beer}.", gist=draft.gist, beer=beer)
    if draft.bought == 1:
        return in_turn(judged, say("wants-fermenter", "It needs another fermenter."))
    if draft.bought > 1:
        wants = say("wants-fermenters", "It needs {n} more fermenters.", n=draft.bought)
        return in_turn(judged, wants)
    return judged


def _differences(
    kitchen: Kitchen, forecasts: Mapping[str, Compared], batch_l: float
) -> list[Message]:
    whole = kitchen.original.batch_l
    found = []
    if abs(batch_l - whole) > VOLUME_DEADBAND * whole:
        volumes = (Kind.VOLUME, batch_l), (Kind.VOLUME, whole)
        found.append(say("other-volume", "{0} instead of {1}", *volumes))
    for each in PREDICTIONS:
        if each.weight is None:
            continue
        now = forecasts[each.key]
        alike = plain_figure(each.kind, now.value) == plain_figure(each.kind, now.original)
        if abs(now.change) > (each.deadband or 0.0) and not alike:
            differs = each.weight.more if now.change > 0 else each.weight.less
            figures = (each.kind, now.value), (each.kind, now.original)
            found.append(say(f"other-{each.key}", differs, *figures))
    return found
