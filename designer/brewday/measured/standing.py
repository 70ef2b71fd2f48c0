"""Where a brew day stands: what is done can be changed no more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum


class At(IntEnum):
    """How far a boil, or what it fills, has come; each is done once it is named."""

    BEFORE = 0
    FILLED = 1
    STEEPED = 2
    BOILING = 3
    BOILED = 4
    COOLED = 5
    MOVED = 6
    TOPPED_UP = 7
    PITCHED = 8


Goes = tuple[str, int, int]
"""A line of the recipe in a boil: its list, its line_id, and the boil counted from 1."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What of the day is done; boils and fermenters are counted from 1.

    `gone_in` are the lines that are in the pot or the fermenter, or were left out: neither is
    ahead. `left_min` is what is left of each boil that is under way.
    """

    boils: Mapping[int, At] = field(default_factory=dict)
    fermenters: Mapping[int, At] = field(default_factory=dict)
    gone_in: frozenset[Goes] = frozenset()
    left_min: Mapping[int, float] = field(default_factory=dict)

    def of_boil(self, boil: int) -> At:
        """Return how far a boil has come."""
        return self.boils.get(boil, At.BEFORE)

    def of_fermenter(self, fermenter: int) -> At:
        """Return how far a fermenter has come."""
        return self.fermenters.get(fermenter, At.BEFORE)

    def is_ahead(self, lines: str, line_id: int, boil: int) -> bool:
        """Whether a line has still to go in."""
        return (lines, line_id, boil) not in self.gone_in
