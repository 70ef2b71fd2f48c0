"""A way as a plan of the recipe: its boils with their pots and shares, and the fermenters it fills.

The recipe stays as it is written. Lines that are not just the share of a boil are its own.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.brewday.fit.changed_recipe import line_kg, litres, mass, quick_day
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar, shares
from designer.brewday.fit.packets import packets_of
from designer.recipe.choices import Turn
from designer.recipe.document import (
    LINE_TYPES,
    PlannedBoil,
    PlannedFermenter,
    Recipe,
    WortShare,
    Yeast,
)
from designer.recipe.fields import number_or_none
from designer.recipe.kinds import typed
from designer.recipe.named import lines_of
from designer.recipe.plan import wort_share
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.shares import counted, extras_in_share, masses_in_share


def planned(kitchen: Kitchen, draft: Draft) -> Recipe:
    """Return the recipe as it is written with the plan of a way; without one if it needs none."""
    written = kitchen.recipe
    if draft.recipes == (written,):
        return written
    boils = tuple(_boil(written, each, draft, place) for place, each in enumerate(draft.recipes))
    fermenters = tuple(_into_one(draft) if draft.one_fermenter else _each_its_own(draft))
    pitched = _pitched(written.yeast, draft.recipes[0].yeast, fermenters)
    return replace(written, boils=boils, fermenters=pitched)


def _boil(written: Recipe, made: Recipe, draft: Draft, place: int) -> PlannedBoil:
    share = round(_share(written, made), 3)
    own: dict[str, Any] = {}
    for name in LINE_TYPES:
        lines, found = lines_of(written, name), lines_of(made, name)
        as_share: tuple[Any, ...] = (
            extras_in_share(lines, share)  # type: ignore[arg-type]
            if name == "extras"
            else masses_in_share(lines, share)
        )
        if as_share != found:
            own[name] = found
    process, before = made.process, written.process
    return PlannedBoil(
        pot=made.pot,
        share=typed(Kind.FRACTION, share),
        turn=_turn(draft, place).value,
        start_water=process.start_water,
        boil_time=_if_other(process.boil_time, before.boil_time),
        evaporation=_if_other(process.evaporation, before.evaporation),
        left_in_pot=_if_other(process.left_in_pot, before.left_in_pot),
        **own,
    )


def _turn(draft: Draft, place: int) -> Turn:
    if place and draft.another_day:
        return Turn.ANOTHER_DAY
    return Turn.AT_ONCE if place and draft.at_once else Turn.AFTER


def _if_other(now: Quantity | None, before: Quantity | None) -> Quantity | None:
    return now if now != before else None


def _share(written: Recipe, made: Recipe) -> float:
    """Return the share of the recipe that a boil takes, by its fermentables."""
    whole = sum(map(line_kg, written.fermentables))
    return sum(map(line_kg, made.fermentables)) / whole if whole > 0.0 else 1.0


def _mark_l(made: Recipe) -> float:
    mark = number_or_none(made.process, "top_up_to")
    return float(quick_day(made).fermenter.batch_l) if mark is None else mark


def _frozen_kg(made: Recipe) -> float:
    return number_or_none(made.process, "frozen_top_up") or 0.0


def _into_one(draft: Draft) -> list[PlannedFermenter]:
    """All boils into the one fermenter."""
    return [
        PlannedFermenter(
            draft.fermenters[0],
            tuple(wort_share(place, 1.0) for place, _ in enumerate(draft.recipes, 1)),
            top_up_to=litres(sum(map(_mark_l, draft.recipes))),
            frozen_top_up=_frozen(sum(map(_frozen_kg, draft.recipes))),
        )
    ]


def _each_its_own(draft: Draft) -> list[PlannedFermenter]:
    """Each boil into the fermenters of its own cellar."""
    found: list[PlannedFermenter] = []
    for place, (made, cellar) in enumerate(zip(draft.recipes, draft.cellars, strict=True), 1):
        found += _of_cellar(place, made, cellar)
    return found


def _of_cellar(place: int, made: Recipe, cellar: Cellar) -> list[PlannedFermenter]:
    if len(cellar.fermenters) == 1:
        return [
            PlannedFermenter(
                cellar.fermenters[0],
                (WortShare(place),),
                top_up_to=made.process.top_up_to,
                frozen_top_up=made.process.frozen_top_up if _frozen_kg(made) > 0.0 else None,
            )
        ]
    mark = _mark_l(made)
    return [
        PlannedFermenter(
            fermenter,
            (wort_share(place, share),),
            top_up_to=litres(round(share * mark, 2)),  # they add up to the batch
            frozen_top_up=_frozen(share * _frozen_kg(made)),
        )
        for fermenter, share in zip(cellar.fermenters, shares(cellar, mark), strict=True)
    ]


def _frozen(kg: float) -> Quantity | None:
    return mass(round(kg, 2)) if kg > 0.0 else None


def _pitched(
    written: Yeast, yeast: Yeast, fermenters: tuple[PlannedFermenter, ...]
) -> tuple[PlannedFermenter, ...]:
    """Return the fermenters with an even share of the packets there are, at least one in each.

    `yeast` is what the way pitches. Where that is in each what the recipe says, it is left to that.
    """
    there, count = packets_of(yeast), len(fermenters)
    amount = yeast.amount
    times = max(there, count) / (there * count)
    if amount is not None and abs(times - 1.0) > 1e-9:
        value = float(f"{amount.value * times:.4g}")
        yeast = replace(yeast, amount=counted(value, amount.unit))
    own = None if yeast == written else yeast
    return tuple(replace(each, yeast=own) for each in fermenters)
