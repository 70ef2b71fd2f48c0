"""What a brewer has, and what may change, when a recipe is to be fitted to a kitchen."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeAlias

from designer.brewday.fit.pack_choice import ShopPack
from designer.recipe.choices import HopForm
from designer.recipe.document import Fermenter, Pot, Recipe
from designer.recipe.fields import number
from designer.recipe.kinds import metric, typed
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr


@dataclass(frozen=True, slots=True)
class HopInHand:
    """A hop that lies in the freezer: its alpha acid, with its range where the bag says none."""

    name: str
    alpha: Quantity
    mass_kg: float
    form: str = HopForm.PELLETS


Measured: TypeAlias = tuple[tuple[str, Quantity], ...]
"""Fields of the process, and what was measured."""


@dataclass(frozen=True, slots=True)
class FitWish:
    """A kitchen and a brewer's terms.

    `fermenters` are those in hand, at least one. What is in a locked line of the recipe stays as it
    is, except that part of it may be left out; when it goes in may change. `late_fraction` is the
    most of the extract that may wait until the end of the boil. With `whole_packs` no tin or bag is
    divided. `most_frozen_kg` is what the freezer holds, None for as much as the recipe says.
    `may_buy_fermenter` lets ways count with another fermenter of the same size. `packs` are the
    sizes in which the shop sells what a way wants bought; none where they are not known.
    `counted_for` is the pot there is where `pot` is that pot counted as smaller than it is.
    `measured` are fields of the process that were measured with that pot, such as its evaporation;
    `measured_second` those of the second.
    """

    pot: Pot
    fermenters: tuple[Fermenter, ...]
    second_pot: Pot | None = None
    late_fraction: float = 1.0
    whole_packs: bool = False
    hops_in_hand: tuple[HopInHand, ...] = ()
    boil_time_may_change: bool = True
    lid_may_be_used: bool = True
    most_frozen_kg: float | None = None
    may_buy_fermenter: bool = True
    packs: tuple[ShopPack, ...] = ()
    counted_for: Pot | None = None
    measured: Measured = ()
    measured_second: Measured = ()

    @property
    def pot_there_is(self) -> Pot:
        """The pot whose losses are met."""
        return self.counted_for or self.pot

    def measured_in(self, pot: Pot) -> Measured:
        """Return what was measured with one of the two pots."""
        return self.measured_second if self._is_second(pot) else self.measured

    def _is_second(self, pot: Pot) -> bool:
        second = self.second_pot
        return second is not None and (pot.name, pot.volume) == (second.name, second.volume)


def wish_for(
    recipe: Recipe,
    pot_size: float | Quantity | None = None,
    fermenter_sizes: tuple[float | Quantity, ...] = (),
    *,
    power_w: float | None = None,
) -> FitWish:
    """Return the wish for vessels of these sizes; those left out are the recipe's own."""
    pot = recipe.pot if pot_size is None else sized_pot(recipe.pot, pot_size)
    if power_w is not None:
        pot = replace(pot, power=typed(Kind.POWER, power_w))
    own = recipe.fermenter
    fermenters = tuple(sized_fermenter(own, each) for each in fermenter_sizes) or (own,)
    return FitWish(pot, fermenters)


def sized_pot(pot: Pot, size: float | Quantity) -> Pot:
    """Return the pot with another volume; diameter and heat loss were those of the old one."""
    name, size = _said(size), _size(size)
    if pot.volume is not None and pot.volume.value == size.value:
        return pot
    return replace(
        pot, name=tr("{size} pot", size=name), volume=size, diameter=None, heat_loss=None
    )


def sized_fermenter(fermenter: Fermenter, size: float | Quantity) -> Fermenter:
    """Return the fermenter with another volume."""
    name, size = _said(size), _size(size)
    if fermenter.volume is not None and fermenter.volume.value == size.value:
        return fermenter
    return replace(fermenter, name=tr("{size} fermenter", size=name), volume=size)


def _size(size: float | Quantity) -> Quantity:
    """Return litres as they would be typed, and a size as it was."""
    return size if isinstance(size, Quantity) else typed(Kind.VOLUME, size)


def _said(size: float | Quantity) -> str:
    """Return what a vessel is called by: its size as it was typed, or rounded as one says it."""
    return size.text if isinstance(size, Quantity) else metric(Kind.VOLUME, size, rounded=True)


def room_l(fermenter: Fermenter) -> float:
    """Return the litres that leave room for krausen; without a size, as many as may come."""
    if fermenter.volume is None:
        return float("inf")
    return fermenter.volume.value * (1.0 - number(fermenter, "headspace"))
