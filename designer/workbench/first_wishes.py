"""What makes one choice for a first recipe better than another: flavours, and the cupboard."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.stock import Stock
from designer.library.flavours import FlavourEntry, flavour_entries
from designer.recipe.same_name import name_key

A_PLACE, IN_HAND, FLAVOUR = 0.5, -2.5, -5.0
"""What it counts to come later in a row of the data, to be in hand, to bring a flavour."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What makes one choice better than another: flavours, and what lies in the cupboard."""

    flavours: tuple[FlavourEntry, ...]
    in_hand: tuple[Stock, ...]

    def dearness(self, name: str, place: int = 0, each_place: float = A_PLACE) -> float:
        """Return what a choice counts for, at its place in a row."""
        found = each_place * place
        if stock_of(self.in_hand, name) is not None:
            found += IN_HAND
        for each in self.flavours:
            if name in (*each.extract, *each.grain, *each.hops, *each.sugar):
                found += FLAVOUR
        return found


def stock_of(in_hand: tuple[Stock, ...], name: str) -> Stock | None:
    """Return what of a name lies in the cupboard, None for nothing."""
    key = name_key(name)
    return next((each for each in in_hand if name_key(each.name) == key and each.amount > 0), None)


def flavours_of(keys: tuple[str, ...]) -> tuple[FlavourEntry, ...]:
    """Return the flavours of these keys; of those that there are."""
    known = {each.key: each for each in flavour_entries()}
    return tuple(known[key] for key in keys if key in known)
