"""Part of a recipe, or more of it, for another batch: gravity, bitterness and colour held.

Three shares are sought through the day: of the extract for the gravity, of the steeping grain for
the colour, of the hops for the bitterness. None of them is the ratio of the volumes: what stays in
the pot, and the gravity of the boil, do not shrink with the batch.
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
from designer.brewday.results import Day
from designer.brewday.search import nearest
from designer.recipe.choices import is_grain
from designer.recipe.document import Extra, Fermentable, Hop, Recipe
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage

FINE = 1000
"""Shares are sought in steps of a thousandth of the batch's ratio."""
_DRY = (Stage.DRY_HOP, Stage.FERMENTER)
_ABOUT = FINE // 12
ROUNDS = 2
"""How often the shares are sought in turn: each moves the others but little."""


@dataclass(frozen=True, slots=True)
class Shares:
    """Shares of the original's extract, grain, bittering hops and dry hops."""

    extract: float
    grain: float
    hops: float
    dry: float


def portion(
    recipe: Recipe,
    target: Day,
    batch_l: float,
    water: Callable[[Recipe], Recipe | None],
    *,
    from_contents: bool = False,
) -> tuple[Recipe, Shares] | None:
    """Return the recipe for `batch_l` in exact shares, before rounding; None where it fits no pot.

    `water` sets the water to start and gives None where none will do. With `from_contents` only
    what is there can be used: grain goes with the extract, and no share is above 1.
    """
    ratio = batch_l / max(float(target.fermenter.batch_l), 1e-9)
    shares = Shares(ratio, ratio, ratio, ratio)
    made = _tried(recipe, batch_l, shares, water)
    for turn in range(ROUNDS):
        if made is None:
            return None
        last = turn == ROUNDS - 1 and not from_contents
        shares = _sought(
            recipe, target, made, shares, ratio, from_contents=from_contents, colour=last
        )
        made = _tried(recipe, batch_l, shares, water)
    return None if made is None else (made, shares)


def _tried(
    recipe: Recipe, batch_l: float, shares: Shares, water: Callable[[Recipe], Recipe | None]
) -> Recipe | None:
    return water(with_mark(in_shares(recipe, shares, exact=True), batch_l))


def _sought(
    recipe: Recipe,
    target: Day,
    made: Recipe,
    shares: Shares,
    ratio: float,
    *,
    from_contents: bool,
    colour: bool,
) -> Shares:
    """Return the shares sought one after the other, at the water of `made`."""
    most = min(4 * FINE, int(FINE / ratio)) if from_contents else 4 * FINE

    def seek(name: str, key: str, wanted: float, shares: Shares) -> Shares:
        def value(steps: int) -> float:
            tried = _changed(shares, name, ratio * steps / FINE, from_contents=from_contents)
            return forecast(_amounts_of(made, recipe, tried), key)

        guess = round(getattr(shares, name) / ratio * FINE)
        about = (guess - _ABOUT, guess + _ABOUT)
        steps = nearest(value, wanted, 0, most, about)
        return _changed(shares, name, ratio * steps / FINE, from_contents=from_contents)

    shares = seek("extract", "original_gravity", float(target.beer.original_gravity), shares)
    if colour and any(is_grain(line.kind) for line in recipe.fermentables):
        shares = seek("grain", "colour_srm", float(target.beer.colour_srm), shares)
        shares = seek("extract", "original_gravity", float(target.beer.original_gravity), shares)
    if bitters(recipe):
        shares = seek("hops", "bitterness_ibu", float(target.beer.bitterness_ibu), shares)
    return shares


def hops_held(made: Recipe, target: Day) -> Recipe:
    """Return the recipe with all its hops in the one share that holds the bitterness."""
    if not bitters(made):
        return made

    def value(steps: int) -> float:
        tried = in_shares(made, Shares(1.0, 1.0, steps / FINE, 1.0), exact=True)
        return forecast(tried, "bitterness_ibu")

    steps = nearest(value, float(target.beer.bitterness_ibu), 0, 3 * FINE)
    return in_shares(made, Shares(1.0, 1.0, steps / FINE, 1.0))


def _changed(shares: Shares, name: str, value: float, *, from_contents: bool) -> Shares:
    if name == "extract" and from_contents:
        return replace(shares, extract=value, grain=value)
    if name == "extract":
        return replace(shares, extract=value)
    return replace(shares, grain=value) if name == "grain" else replace(shares, hops=value)


def bitters(recipe: Recipe) -> tuple[Hop, ...]:
    """Return the hops that make the beer bitter; a dry hop does not."""
    return tuple(hop for hop in recipe.hops if hop.when.stage not in _DRY and line_kg(hop) > 0.0)


def _amounts_of(made: Recipe, recipe: Recipe, shares: Shares) -> Recipe:
    return with_amounts(made, _kilograms(recipe, shares, exact=True))


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
        share = _share_of(line, shares)
        kg = line_kg(line) * share
        if not exact and share != 1.0:
            kg = _weighable(line, kg, fine=fine)
            kg = min(kg, line_kg(line)) if share < 1.0 else kg
        kilograms[line.line_id] = kg
    return kilograms


def _share_of(line: Fermentable | Hop, shares: Shares) -> float:
    if isinstance(line, Hop):
        return shares.dry if line.when.stage in _DRY else shares.hops
    return shares.grain if is_grain(line.kind) else shares.extract


def _weighable(line: Fermentable | Hop, kg: float, *, fine: bool) -> float:
    step = HOP_STEP_KG if isinstance(line, Hop) else EXTRACT_STEP_KG
    if fine or kg < 10.0 * step:
        step /= 5.0
    return round(round(kg / step) * step, 6)


def dose_in_share(amount: Quantity, share: float) -> Quantity:
    """Return a dose in a share: pieces in quarters, all else to two figures; never more than it."""
    if abs(share - 1.0) < 1e-9:
        return amount
    value = amount.value * share
    if amount.unit not in ("g", "mL"):
        value = max(round(4.0 * value) / 4.0, 0.25) if amount.value > 0.0 else 0.0
    else:
        value = float(f"{value:.2g}")
    value = min(value, amount.value) if share < 1.0 else value
    return typed(Kind.DOSE, value, unit=amount.unit)


def extras_in_share(extras: tuple[Extra, ...], share: float) -> tuple[Extra, ...]:
    """Return finings and the like in a share of their doses; what has no dose stays."""
    return tuple(
        replace(each, amount=dose_in_share(each.amount, share)) if each.amount else each
        for each in extras
    )
