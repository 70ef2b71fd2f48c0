"""What can still be changed while a day is brewed, in steps of a kitchen's scale, jug and clock.

Each lever tells its edit, the same as plain values for a log, and both in words. A step of nought
is the day as it goes on without advice.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

from designer.brewday.weighable import KG_PER_LB, KG_PER_OZ, L_PER_GAL
from designer.recipe.edits import Edit
from designer.recipe.kinds import typed
from designer.recipe.message import Message
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.systems import is_in_us

Change = Mapping[str, Any]
"""One change as plain values: `lines`, `line_id`, `field` and `to`, or `part`, `field` and `to`, or
`lines`, `line_id` and `add`; with the `boil` or `fermenter` of a plan that it is for, else 0. Of
readings taken before it tells by how many minutes a boil is `longer`, how many litres of water came
later (`more_l`), and by how much the gravity in a fermenter `raises` (see `ahead`)."""


class Lever(Protocol):
    """Something that may be changed by whole steps, from `low` to `high` of them."""

    @property
    def code(self) -> str:
        """Its lasting name."""

    @property
    def low(self) -> int:
        """The fewest steps."""

    @property
    def high(self) -> int:
        """The most steps."""

    def effort(self, steps: int) -> float:
        """Return what so many steps cost, beside misses that cost 1 at the edge of a band."""

    def edit(self, steps: int) -> Edit:
        """Return the edit."""

    def changes(self, steps: int) -> tuple[Change, ...]:
        """Return the same as plain values."""

    def said(self, steps: int) -> Message:
        """Return what is to be done, as a sentence without its stop."""

    def use(self, steps: int) -> Message:
        """Return what the button says that takes it."""

    def keep(self, steps: int) -> Message:
        """Return what the button says that leaves it."""


def step_l(before: Quantity) -> float:
    """Return a step of a jug, in litres, in the units of the volume before it."""
    return 0.05 * L_PER_GAL if is_in_us(before.text) else 0.1


def stepped_l(before: Quantity, base_l: float, steps: int) -> Quantity:
    """Return a volume so many steps from another."""
    if is_in_us(before.text):
        figure = round(base_l / L_PER_GAL + 0.05 * steps, 2)
        return Quantity(figure * L_PER_GAL, f"{figure:g} gal")
    return typed(Kind.VOLUME, round(base_l + 0.1 * steps, 1), ".6g")


OF_WATER, OF_LESS_BEER, OF_AMOUNTS, OF_AROMA, OF_TIME, NOT_AT_HAND = 0.2, 1.0, 0.15, 0.4, 0.3, 0.06
"""What changing all of a thing costs, against misses that cost 1 at the edge of a band; judged."""
AROMA_MIN = 20.0
"""Hops boiled for less bring aroma too: common practice, no source."""
EXTRACT_STEP_KG, HOP_STEP_KG = 0.01, 0.001
_EXTRACT_STEP_OZ, _HOP_STEP_OZ = 0.5, 0.05


def step_kg(before: Quantity | None, lines: str) -> float:
    """Return a step of a scale, in kilograms, in the units of the mass before it."""
    if before is not None and is_in_us(before.text):
        return KG_PER_OZ * (_HOP_STEP_OZ if lines == "hops" else _EXTRACT_STEP_OZ)
    return HOP_STEP_KG if lines == "hops" else EXTRACT_STEP_KG


def stepped_kg(before: Quantity | None, base_kg: float, steps: int, lines: str) -> Quantity:
    """Return a mass so many steps from another, as it is weighed."""
    step = step_kg(before, lines)
    if before is not None and is_in_us(before.text):
        ounces = round((base_kg + steps * step) / KG_PER_OZ, 2)
        if ounces >= 16.0 and any(each in before.text.lower() for each in ("lb", "pound")):
            pounds = round(ounces / 16.0, 3)
            return Quantity(pounds * KG_PER_LB, f"{pounds:g} lb")
        return Quantity(ounces * KG_PER_OZ, f"{ounces:g} oz")
    places = 4 if lines == "hops" else 3
    return typed(Kind.MASS, round(base_kg + steps * step, places), ".6g")


def unit_of(quantity: Quantity) -> str:
    """Return the unit in which a quantity was typed."""
    words = quantity.text.split()
    return words[-1] if words else ""
