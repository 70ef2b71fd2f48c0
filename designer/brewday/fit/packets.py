"""Dry yeast as a shop sells it, in whole packets: what a recipe has of them, what is missing.

An opened packet does not keep, so none is divided but among fermenters filled on the same day.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from designer.brewday.yeast_doubts import PACKETS
from designer.recipe.document import Yeast
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.shares import counted
from designer.wort.pitching import packets_in

A_PACKET_TOO_FEW = 0.15
"""A batch that is so much larger than its packets of yeast are for still takes no other."""
_AS_GOOD_AS_WHOLE = 1e-6


def packets_of(yeast: Yeast) -> int:
    """Return how many packets the yeast of a recipe is; one where nobody said."""
    amount = yeast.amount
    if amount is None:
        return 1
    if amount.unit in PACKETS:
        return max(ceil(amount.value - _AS_GOOD_AS_WHOLE), 1)
    return packets_in(amount.value) if amount.unit == "g" else 1


def packets_to_buy(yeast: Yeast, fermenters: int) -> int:
    """Return how many packets are missing where each fermenter wants one."""
    return max(fermenters - packets_of(yeast), 0)


def so_many(yeast: Yeast, count: int) -> Quantity | None:
    """Return so many of the packets that a recipe has; None where nobody said what is in one."""
    there, amount = packets_of(yeast), yeast.amount
    if amount is None or count == there:
        return amount
    if amount.unit in PACKETS:
        return counted(float(count), amount.unit)
    return typed(Kind.DOSE, float(f"{amount.value * count / there:.4g}"), unit=amount.unit)


def yeast_in_share(yeast: Yeast, ratio: float) -> Yeast:
    """Return the yeast for a batch so many times as large, in whole packets, one at the least."""
    there = packets_of(yeast)
    count = max(ceil(there * (ratio - A_PACKET_TOO_FEW) - _AS_GOOD_AS_WHOLE), 1)
    return yeast if count == there else replace(yeast, amount=so_many(yeast, count))


def pitching(yeast: Yeast, fermenters: int, *, keeps_rest: bool) -> Iterator[Message]:
    """Yield how the packets of a way are pitched; nothing where it goes without saying.

    `yeast` is what goes in, `fermenters` how many are filled: each gets a packet at the least.
    """
    if not yeast.name:
        return
    count = max(packets_of(yeast), fermenters)
    each, rest = divmod(count, fermenters)
    if fermenters > 1 and rest:
        yield say(
            "pitch-and-share",
            "There are {total} packets of yeast ({name}): pitch {each} into each fermenter and "
            "share out the rest between them.",
            total=count,
            name=yeast.name,
            each=each,
        )
    elif fermenters > 1 and each > 1:
        yield say(
            "pitch-so-many-into-each",
            "Pitch {each} packets of yeast into each fermenter ({name}).",
            each=each,
            name=yeast.name,
        )
    elif fermenters > 1:
        yield say(
            "pitch-into-each",
            "Pitch a whole packet of yeast into each fermenter ({name}).",
            name=yeast.name,
        )
    elif keeps_rest and count > 1:
        yield say(
            "pitch-so-many",
            "Pitch {count} whole packets of yeast ({name}): an opened one does not keep.",
            count=count,
            name=yeast.name,
        )
    elif keeps_rest:
        yield say(
            "pitch-whole",
            "Pitch the whole packet of yeast ({name}): an opened one does not keep.",
            name=yeast.name,
        )
