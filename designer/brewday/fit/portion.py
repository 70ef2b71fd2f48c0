"""Part of a recipe, or more of it, for another batch: gravity, bitterness and colour held.

Three shares are sought through the day: of the extract for the gravity, of the steeping grain for
the colour, of the bittering hops for the bitterness. None of them is the ratio of the volumes: what
stays in the pot, and the gravity of the boil, do not shrink with the batch. All other hops go by
the volume, so that the beer smells as it did; where there are no bittering hops, or all of them or
none do not hold the bitterness, the late ones follow, as far as it takes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from designer.brewday.fit.changed_recipe import (
    EXTRACT_STEP_KG,
    HOP_STEP_KG,
    forecast,
    line_kg,
    with_amounts,
    with_mark,
)
from designer.brewday.fit.hop_roles import bittering, bitters, is_bittering, is_dry
from designer.brewday.fit.original import IBU_DEADBAND, SOUGHT_SHARE
from designer.brewday.results import Day
from designer.brewday.search import nearest
from designer.recipe.choices import is_grain
from designer.recipe.document import Fermentable, Hop, Recipe

FINE = 1000
"""Shares are sought in steps of a thousandth of the batch's ratio."""
_MOST = 4 * FINE
MOST_TIMES = 3
"""So many times the hops are put in, and no more, where extract in whole packs came out so."""
_ABOUT = FINE // 12
ROUNDS = 2
"""How often the shares are sought in turn: each moves the others but little."""


@dataclass(frozen=True, slots=True)
class Shares:
    """Shares of the original's extract, grain, bittering, late and dry hops.

    Late hops are all that go into the hot wort and are not there to bitter.
    """

    extract: float
    grain: float
    bittering: float
    late: float
    dry: float


def portion(
    recipe: Recipe,
    target: Day,
    batch_l: float,
    water: Callable[[Recipe], Recipe | None],
    *,
    from_contents: bool = False,
    no_more_hops: bool = False,
) -> tuple[Recipe, Shares] | None:
    """Return the recipe for `batch_l` in exact shares, before rounding; None where it fits no pot.

    `water` sets the water to start and gives None where none will do. With `from_contents` only
    what is there can be used: grain goes with the extract, and no share is above 1; with
    `no_more_hops` none of the hops is.
    """
    ratio = batch_l / max(float(target.fermenter.batch_l), 1e-9)
    most_hops = _most(ratio) if from_contents or no_more_hops else _MOST
    shares = Shares(ratio, ratio, ratio, ratio, ratio)
    made = _tried(recipe, batch_l, shares, water)
    for turn in range(ROUNDS):
        if made is None:
            return None
        last = turn == ROUNDS - 1 and not from_contents
        seek = _Seek(recipe, target, made, ratio, from_contents, most_hops)
        shares = seek.sought(shares, colour=last)
        made = _tried(recipe, batch_l, shares, water)
    return None if made is None else (made, shares)


def _tried(
    recipe: Recipe, batch_l: float, shares: Shares, water: Callable[[Recipe], Recipe | None]
) -> Recipe | None:
    return water(with_mark(in_shares(recipe, shares, exact=True), batch_l))


@dataclass(frozen=True, slots=True)
class _Seek:
    """The shares sought one after the other, at the water of `made`."""

    recipe: Recipe
    target: Day
    made: Recipe
    ratio: float
    from_contents: bool
    most_hops: int

    def sought(self, shares: Shares, *, colour: bool) -> Shares:
        beer = self.target.beer
        gravity = float(beer.original_gravity)
        most = _most(self.ratio) if self.from_contents else _MOST
        shares = self._to("extract", "original_gravity", gravity, shares, most)
        if colour and any(is_grain(line.kind) for line in self.recipe.fermentables):
            shares = self._to("grain", "colour_srm", float(beer.colour_srm), shares, most)
            shares = self._to("extract", "original_gravity", gravity, shares, most)
        return self.bitter(replace(shares, late=self.ratio), float(beer.bitterness_ibu))

    def bitter(self, shares: Shares, wanted_ibu: float) -> Shares:
        """Hold the bitterness by the bittering hops and, where those cannot, by the late ones.

        The late ones give and take no more than it takes for a tongue not to notice.
        """
        trimmed, most = bittering(self.recipe), self.most_hops
        if trimmed:
            shares = self._to("bittering", "bitterness_ibu", wanted_ibu, shares, most)
        if len(trimmed) == len(bitters(self.recipe)):
            return shares
        over = self._forecast(shares, "bitterness_ibu") - wanted_ibu
        close = SOUGHT_SHARE * IBU_DEADBAND
        if abs(over) <= close:
            return shares
        edge = wanted_ibu + (close if over > 0.0 else -close)
        return self._to("late", "bitterness_ibu", edge, shares, most)

    def _to(self, name: str, key: str, wanted: float, shares: Shares, most: int) -> Shares:
        """Return the shares with one so that a forecast comes nearest to what is wanted."""

        def at(steps: int) -> Shares:
            share = self.ratio * steps / FINE
            if name == "extract" and self.from_contents:
                return replace(shares, extract=share, grain=share)
            return replace(shares, **{name: share})

        guess = round(getattr(shares, name) / self.ratio * FINE)
        about = (guess - _ABOUT, guess + _ABOUT)
        return at(nearest(lambda n: self._forecast(at(n), key), wanted, 0, most, about))

    def _forecast(self, shares: Shares, key: str) -> float:
        kilograms = _kilograms(self.recipe, shares, exact=True)
        return forecast(with_amounts(self.made, kilograms), key)


def _most(ratio: float) -> int:
    """Return the steps of a share that takes all there is."""
    return min(_MOST, int(FINE / ratio))


def hops_held(made: Recipe, target: Day) -> Recipe:
    """Return the recipe with its hops in the shares that hold the bitterness: see `portion`."""
    if not bitters(made):
        return made
    as_it_is = Shares(1.0, 1.0, 1.0, 1.0, 1.0)
    seek = _Seek(made, target, made, 1.0, from_contents=False, most_hops=MOST_TIMES * FINE)
    return in_shares(made, seek.bitter(as_it_is, float(target.beer.bitterness_ibu)))


def in_shares(recipe: Recipe, shares: Shares, *, exact: bool = False, fine: bool = False) -> Recipe:
    """Return the recipe with its amounts in shares, rounded to what a kitchen weighs.

    With `fine` large amounts are weighed as closely as small ones.
    """
    return with_amounts(recipe, _kilograms(recipe, shares, exact=exact, fine=fine))


def _kilograms(
    recipe: Recipe, shares: Shares, *, exact: bool, fine: bool = False
) -> dict[int, float]:
    kilograms: dict[int, float] = {}
    lines: tuple[Fermentable | Hop, ...] = (*recipe.fermentables, *recipe.hops)
    for line in lines:
        share = _share_of(recipe, line, shares)
        kg = line_kg(line) * share
        if not exact and share != 1.0:
            kg = _weighable(line, kg, fine=fine)
            kg = min(kg, line_kg(line)) if share < 1.0 else kg
        kilograms[line.line_id] = kg
    return kilograms


def _share_of(recipe: Recipe, line: Fermentable | Hop, shares: Shares) -> float:
    if isinstance(line, Hop):
        if is_dry(line):
            return shares.dry
        return shares.bittering if is_bittering(line, recipe) else shares.late
    return shares.grain if is_grain(line.kind) else shares.extract


def _weighable(line: Fermentable | Hop, kg: float, *, fine: bool) -> float:
    step = HOP_STEP_KG if isinstance(line, Hop) else EXTRACT_STEP_KG
    if fine or kg < 10.0 * step:
        step /= 5.0
    return round(round(kg / step) * step, 6)
