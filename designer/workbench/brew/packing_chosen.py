"""How a beer is packaged: what the brewer chose, and for the rest what follows of the beer."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.brewday.packaging.filling import counted_to_fit
from designer.brewday.packaging.packaged import Packing

BEER, VOLUMES, WARMEST, COUNTS = "beer_l", "volumes", "warmest_c", "bottles"
"""What follows of the beer until it is chosen, by the names that `Packing.chosen` has."""


def as_chosen(chosen: Packing | None, follows: Packing) -> Packing:
    """Return choices with what follows of the beer where nothing else was chosen.

    Whether it is done, and what it may still fall by, is what the beer says and never a choice.
    """
    if chosen is None:
        return follows
    kept: dict[str, Any] = {
        name: getattr(follows, name)
        for name in (BEER, VOLUMES, WARMEST)
        if name not in chosen.chosen
    }
    made = replace(
        chosen,
        may_fall=follows.may_fall,
        done=follows.done,
        fermentability=follows.fermentability,
        fermenter=follows.fermenter,
        **kept,
    )
    if COUNTS in chosen.chosen:
        return made
    return replace(made, bottles=counted_to_fit(made.bottles, made.beer_l))
