"""Kitchens of every sort, and the pairs of recipe and kitchen that are looked through."""

from dataclasses import dataclass, replace

from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import HopInHand, sized_pot, wish_for
from designer.library.packs import packs
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from tests.fit_proof.recipes import recipes

MAGNUM = HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.05)


@dataclass(frozen=True)
class Home:
    """What a kitchen has: litres of its pot and fermenters, and the brewer's terms."""

    pot_l: float
    fermenters_l: tuple[float, ...]
    second_pot_l: float | None = None
    whole_packs: bool = False
    frozen_kg: float | None = None
    hops: tuple[HopInHand, ...] = ()
    may_buy: bool = True
    late: float = 1.0

    def wish(self, recipe):
        """Return what the kitchen is asked for a recipe."""
        second = self.second_pot_l
        return replace(
            wish_for(recipe, self.pot_l, self.fermenters_l),
            second_pot=None if second is None else sized_pot(recipe.pot, second),
            whole_packs=self.whole_packs,
            most_frozen_kg=self.frozen_kg,
            hops_in_hand=self.hops,
            may_buy_fermenter=self.may_buy,
            late_fraction=self.late,
            packs=packs("metric"),
        )

    def __str__(self):
        vessels = f"{self.pot_l:g} L pot, {' and '.join(f'{each:g}' for each in self.fermenters_l)}"
        more = [
            f"second pot {self.second_pot_l:g} L" if self.second_pot_l else "",
            "whole packs" if self.whole_packs else "",
            f"{self.frozen_kg:g} kg frozen" if self.frozen_kg is not None else "",
            "hops in hand" if self.hops else "",
            "nothing bought" if not self.may_buy else "",
            f"late up to {self.late:g}" if self.late < 1.0 else "",
        ]
        return ", ".join([vessels, *filter(None, more)])


HOMES = (
    Home(4.0, (5.0,)),
    Home(5.0, (12.0,), hops=(MAGNUM,)),
    Home(6.0, (10.0, 10.0), second_pot_l=5.0),
    Home(7.0, (8.0,), may_buy=False),
    Home(7.5, (15.0, 6.0), frozen_kg=2.0),
    Home(9.0, (12.0,)),
    Home(9.0, (12.0, 12.0)),
    Home(9.0, (23.0,), whole_packs=True),
    Home(10.0, (30.0,), second_pot_l=10.0),
    Home(11.0, (12.0,), whole_packs=True, may_buy=False),
    Home(12.0, (25.0,), frozen_kg=4.0),
    Home(13.0, (30.0,), hops=(MAGNUM,), late=0.5),
    Home(15.0, (12.0, 15.0), whole_packs=True),
    Home(18.0, (20.0,), frozen_kg=0.0),
    Home(22.0, (25.0,), late=0.0),
    Home(30.0, (30.0, 30.0)),
)


@dataclass(frozen=True)
class Pair:
    """A recipe in a kitchen."""

    name: str
    home: Home

    @property
    def recipe(self):
        return recipes()[self.name]

    @property
    def wish(self):
        return self.home.wish(self.recipe)

    def answer(self):
        """Return what Fit finds."""
        return ways(self.recipe, self.wish)

    def __str__(self):
        return f"{self.name}: {self.home}"


def pairs():
    """Return every recipe in every kitchen."""
    return [Pair(name, home) for name in recipes() for home in HOMES]
