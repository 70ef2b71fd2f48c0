"""How a recipe is brewed, in a sentence: its boils, their pots, and the vessels that they fill."""

from __future__ import annotations

from collections import Counter

from designer.recipe.choices import Turn
from designer.recipe.document import Fermenter, PlannedBoil, Pot, Recipe
from designer.recipe.kinds import metric
from designer.recipe.message import Message, listed, say
from designer.recipe.plan import boils_of, is_planned, share_of, vessels_of
from designer.recipe.quantity import Kind, Quantity

ALL_OF_IT = 0.005
"""What is so near to the whole recipe is the whole."""


def plan_words(recipe: Recipe) -> Message | None:
    """Return the sentence that says how a recipe is brewed; None where it is as it is written."""
    if not is_planned(recipe):
        return None
    return say("brewed-by-plan", "Brewed {how}.", how=brewed(recipe))


def brewed(recipe: Recipe) -> Message:
    """Return how a recipe is brewed, as a part of a sentence: "as written", "in 2 boils ..."."""
    if not is_planned(recipe):
        return say("brewed-as-written", "as written")
    boils = boils_of(recipe)
    how = say(
        "brewed-in-into",
        "{boils}, into {vessels}",
        boils=_on_days(boils, _boils(boils)),
        vessels=vessels_words(vessels_of(recipe)),
    )
    share = sum(share_of(recipe, each) for each in boils)
    if abs(share - 1.0) < ALL_OF_IT:
        return how
    return say("brewed-share", "{0} of the recipe {how}", (Kind.FRACTION, share), how=how)


def _boils(boils: tuple[PlannedBoil, ...]) -> Message:
    count, pots = len(boils), vessels_words([each.pot for each in boils])
    if count == 1:
        return say("in-one-boil", "in one boil in the {pot}", pot=pots)
    if all(each.turn == Turn.AT_ONCE for each in boils[1:]):
        return say("in-pots-at-once", "in {count} pots at once ({pots})", count=count, pots=pots)
    if len({vessel_words(each.pot) for each in boils}) == 1:
        one = vessel_words(boils[0].pot)
        return say("in-boils", "in {count} boils in the {pot}", count=count, pot=one)
    return say("in-boils-in-pots", "in {count} boils ({pots})", count=count, pots=pots)


def _on_days(boils: tuple[PlannedBoil, ...], how: Message) -> Message:
    days = 1 + sum(each.turn == Turn.ANOTHER_DAY for each in boils[1:])
    return how if days == 1 else say("on-days", "{how} on {days} days", how=how, days=days)


def vessels_words(vessels: tuple[Pot | Fermenter, ...] | list[Pot]) -> object:
    """Return pots or fermenters as a part of a sentence, those that are alike counted."""
    counted = Counter(map(vessel_words, vessels))
    return listed(
        [
            each if count == 1 else say("so-many", "{count} × {vessel}", count=count, vessel=each)
            for each, count in counted.items()
        ]
    )


def vessel_words(vessel: Pot | Fermenter) -> Message:
    """Return a pot or fermenter by its name and its size, unless the name says that already."""
    if vessel.volume is None or any(size in vessel.name for size in _sizes(vessel.volume)):
        return say("vessel", "{vessel}", vessel=vessel.name)
    size = (Kind.VOLUME, vessel.volume)
    return say("vessel-of-size", "{vessel} of {0}", size, vessel=vessel.name)


def _sizes(volume: Quantity) -> tuple[str, str]:
    """Return a size as it was typed, and rounded as a vessel is called by it."""
    return volume.text, metric(Kind.VOLUME, volume.value, rounded=True)
