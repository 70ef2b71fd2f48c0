"""Dividing a batch among fermenters: those in hand, and as many more of the largest as it takes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.brewday.findings_vessels import MOST_HEADSPACE
from designer.brewday.fit.wish import FitWish, room_l
from designer.recipe.document import Fermenter
from designer.recipe.fields import facts_of, number
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

MOST_BOUGHT = 2
_SLACK_L = 0.05


@dataclass(frozen=True, slots=True)
class Cellar:
    """The fermenters that a batch goes into, and how many of them (the last) are to be bought."""

    fermenters: tuple[Fermenter, ...]
    bought: int = 0

    @property
    def room_l(self) -> float:
        """Litres that leave room for krausen in all of them."""
        return sum(room_l(each) for each in self.fermenters)

    def as_one(self) -> Fermenter:
        """Return one vessel that stands for all of them in a recipe."""
        if len(self.fermenters) == 1:
            return self.fermenters[0]
        volume = sum(each.volume.value for each in self.fermenters if each.volume is not None)
        room = 1.0 - self.room_l / volume
        names = [each.name for each in self.fermenters]
        alike = len(set(names)) == 1
        return replace(
            self.fermenters[0],
            name=f"{len(names)} × {names[0]}" if alike else " and ".join(names),
            volume=typed(Kind.VOLUME, volume),
            headspace=typed(Kind.FRACTION, round(room, 6)),
        )


def cellar_for(wish: FitWish, batch_l: float) -> Cellar | None:
    """Return the fewest fermenters that hold the batch, the largest first; None if too many."""
    owned = sorted(wish.fermenters, key=room_l, reverse=True)
    chosen: list[Fermenter] = []
    for each in owned:
        chosen.append(each)
        if Cellar(tuple(chosen)).room_l >= batch_l - _SLACK_L:
            return Cellar(tuple(chosen))
    for bought in range(1, MOST_BOUGHT + 1 if wish.may_buy_fermenter else 1):
        cellar = Cellar((*owned, *[owned[0]] * bought), bought)
        if cellar.room_l >= batch_l - _SLACK_L:
            return cellar
    return None


def pair_for(wish: FitWish, batch_l: float) -> Cellar | None:
    """Return two fermenters that share the batch, the second bought if need be."""
    owned = sorted(wish.fermenters, key=room_l, reverse=True)
    if len(owned) >= 2:
        pair = Cellar(tuple(owned[:2]))
        if pair.room_l >= batch_l - _SLACK_L:
            return pair
    pair = Cellar((owned[0], owned[0]), 1)
    fits = wish.may_buy_fermenter and pair.room_l >= batch_l - _SLACK_L
    return pair if fits else None


def most_owned_l(wish: FitWish) -> float:
    """Return the litres that the fermenters in hand hold with room for krausen."""
    return Cellar(wish.fermenters).room_l


def shares(cellar: Cellar, batch_l: float) -> tuple[float, ...]:
    """Return each fermenter's share of the batch: equal where it fits, else by their room."""
    count = len(cellar.fermenters)
    rooms = [room_l(each) for each in cellar.fermenters]
    if min(rooms) >= batch_l / count - _SLACK_L:
        return (1.0 / count,) * count
    rooms = [min(room, batch_l) for room in rooms]  # one of unknown size takes all that may come
    return tuple(room / sum(rooms) for room in rooms)


def brim_for(batch_l: float, fermenter: Fermenter) -> float | None:
    """Return the fermenter in litres that would hold the batch with room for krausen.

    None where that room leaves none for beer in any of them.
    """
    headspace = number(fermenter, "headspace")
    return None if headspace > MOST_HEADSPACE else batch_l / (1.0 - headspace)


def no_room_for_beer(fermenter: Fermenter) -> Message:
    """Return in words that so much room for krausen leaves none for beer."""
    return say(
        "no-room-for-beer",
        "{0} of room for krausen leaves none for beer in any fermenter; {1} is usual.",
        (Kind.FRACTION, number(fermenter, "headspace")),
        (Kind.FRACTION, facts_of(fermenter, "headspace").default or 0.0),
    )
