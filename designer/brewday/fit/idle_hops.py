"""Why a hop in hand goes into none of the ways: each is looked at, or it is said why not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import NoWay, Way, named
from designer.brewday.fit.wish import FitWish
from designer.recipe.message import Message, say

OTHER_HOPS = "other hops"


def idle_hops(wish: FitWish, found: Sequence[Way], failed: Sequence[NoWay]) -> Iterator[Message]:
    """Yield for each hop in hand that no way puts in why that is so.

    Hops in hand make up for bitterness that one strong boil loses, the strongest first. Where all
    of them together are not enough, the way that does not work says that already.
    """
    if any(each.key == OTHER_HOPS for each in failed):
        return
    users = [way for way in found if way.key == OTHER_HOPS]
    put_in = {hop.name for way in users for each in way.recipes for hop in each.hops}
    one_boil = any(way.key in ("one boil", "less water") for way in found)
    for hand in wish.hops_in_hand:
        name = named(hand.name)
        if users and hand.name in put_in:
            continue
        if users:
            yield say(
                "hop-not-reached",
                "{name} stays in the freezer: a stronger hop in hand is enough.",
                name=name,
            )
        elif one_boil:
            yield say(
                "hop-not-needed",
                "{name} stays in the freezer: no bitterness is lost that it would make up for.",
                name=name,
            )
        else:
            yield say(
                "hop-no-one-boil",
                "{name} stays in the freezer: hops in hand make up for what one strong boil of all "
                "of it loses, and there is none here.",
                name=name,
            )
