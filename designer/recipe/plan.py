"""How a recipe is brewed: the plain recipe of each boil, and what each fermenter gets of it.

The beer as it is written stays in the recipe; its plan is a list of boils and a list of fermenters.
A recipe with neither is brewed as it is written. One that has boils alone fills its own fermenter
from all of them; one that has fermenters alone boils as it is written.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, NamedTuple

from designer.recipe.choices import Turn
from designer.recipe.document import (
    LINE_TYPES,
    Fermenter,
    PlannedBoil,
    PlannedFermenter,
    Process,
    Recipe,
    WortShare,
    Yeast,
)
from designer.recipe.edits import ChangeRecipe, Together
from designer.recipe.fields import number, number_or_none
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind, Quantity
from designer.recipe.shares import counted, extras_in_share, masses_in_share

ROUNDING = 0.006
"""Shares that come so near to the whole are the whole: three times 33.3 %."""


class Pour(NamedTuple):
    """What one fermenter gets of one boil, both counted from 1.

    `share` is that of the boil's wort, `mark_l` to what it is topped up for it (None: not), and
    `frozen_kg` how much of that top-up is frozen; `of_fermenter` is its part of the fermenter.
    """

    boil: int
    fermenter: int
    share: float
    mark_l: float | None
    frozen_kg: float
    of_fermenter: float


def is_planned(recipe: Recipe) -> bool:
    """Whether the recipe says how it is to be brewed, other than as it is written."""
    return bool(recipe.boils or recipe.fermenters)


def as_written(recipe: Recipe) -> Recipe:
    """Return the recipe without its plan."""
    return replace(recipe, boils=(), fermenters=()) if is_planned(recipe) else recipe


def planning(
    boils: tuple[PlannedBoil, ...], fermenters: tuple[PlannedFermenter, ...], text: Message
) -> Together:
    """Return the edit that gives a recipe a plan; with none it is brewed as written."""
    changes = (("boils", boils), ("fermenters", fermenters))
    return Together(tuple(ChangeRecipe(name, value, text) for name, value in changes), text)


AS_WRITTEN = planning((), (), say("as-written", "brew as written"))
"""The edit that takes the plan away."""


def boils_of(recipe: Recipe) -> tuple[PlannedBoil, ...]:
    """Return the boils by which the recipe is brewed, at least one."""
    return recipe.boils or (PlannedBoil(pot=recipe.pot, share=typed(Kind.FRACTION, 1.0)),)


def fermenters_of(recipe: Recipe) -> tuple[PlannedFermenter, ...]:
    """Return the fermenters that are filled, at least one."""
    process = recipe.process
    return recipe.fermenters or (
        PlannedFermenter(
            recipe.fermenter,
            top_up_to=process.top_up_to,
            frozen_top_up=process.frozen_top_up,
        ),
    )


def share_of(recipe: Recipe, boil: PlannedBoil) -> float:
    """Return the share of the recipe that a boil takes: what it says, else an equal one."""
    return 1.0 / len(boils_of(recipe)) if boil.share is None else boil.share.value


def yeast_of(recipe: Recipe, fermenter: PlannedFermenter) -> Yeast:
    """Return the yeast that is pitched into a fermenter: its own, else the recipe's."""
    return recipe.yeast if fermenter.yeast is None else fermenter.yeast


def vessels_of(recipe: Recipe) -> tuple[Fermenter, ...]:
    """Return all vessels that are filled."""
    return tuple(each.fermenter for each in fermenters_of(recipe))


def pours(recipe: Recipe) -> tuple[Pour, ...]:
    """Return what goes from which boil into which fermenter, by fermenter.

    The mark and the frozen water of a fermenter that several boils fill are shared between them by
    what each brings of the recipe.
    """
    boils, fermenters = boils_of(recipe), fermenters_of(recipe)
    given = [_shares_from(recipe, each) for each in fermenters]
    whole: defaultdict[int, float] = defaultdict(float)
    for shares in given:
        for boil, share in shares.items():
            whole[boil] += share
    found = []
    for place, (fermenter, shares) in enumerate(zip(fermenters, given, strict=True), 1):
        brought = {
            boil: share * share_of(recipe, boils[boil - 1]) for boil, share in shares.items()
        }
        total = sum(brought.values())
        for boil, share in shares.items():
            near = abs(whole[boil] - 1.0) < ROUNDING
            part = brought[boil] / total if total > 0.0 else 1.0 / len(shares)
            mark = fermenter.top_up_to
            found.append(
                Pour(
                    boil,
                    place,
                    share / whole[boil] if near else share,
                    None if mark is None else mark.value * part,
                    (number_or_none(fermenter, "frozen_top_up") or 0.0) * part,
                    part,
                )
            )
    return tuple(found)


def _shares_from(recipe: Recipe, fermenter: PlannedFermenter) -> dict[int, float]:
    """The shares of wort that a fermenter gets, by boil; boils that it gets nothing of are out."""
    if not fermenter.wort_from:
        count = len(fermenters_of(recipe))
        return {boil: 1.0 / count for boil in range(1, len(boils_of(recipe)) + 1)}
    shares: defaultdict[int, float] = defaultdict(float)
    for each in fermenter.wort_from:
        shares[each.boil] += number(each, "share")
    return {boil: share for boil, share in sorted(shares.items()) if share > 0.0}


def recipe_of_boil(recipe: Recipe, number_: int) -> Recipe:
    """Return the plain recipe of one boil: its pot, contents, water, time and losses.

    Its fermenter and what it is topped up to are still those of the recipe; see `recipe_of_pour`.
    """
    boil = boils_of(recipe)[number_ - 1]
    share = share_of(recipe, boil)
    changes: dict[str, Any] = {name: _contents(recipe, boil, name, share) for name in LINE_TYPES}
    return replace(
        as_written(recipe), pot=boil.pot, process=_process_of(recipe, boil, share), **changes
    )


def _contents(recipe: Recipe, boil: PlannedBoil, name: str, share: float) -> tuple[Any, ...]:
    own: tuple[Any, ...] | None = getattr(boil, name)
    if own is not None:
        return own
    return _lines_in_share(name, lines_of(recipe, name), share)


def _process_of(recipe: Recipe, boil: PlannedBoil, share: float) -> Process:
    process = recipe.process
    start = boil.start_water
    if start is None and process.start_water is not None and recipe.boils:
        start = typed(Kind.VOLUME, round(process.start_water.value * share, 3))
    measured_here = boil.pot.volume == recipe.pot.volume
    return replace(
        process,
        start_water=process.start_water if start is None else start,
        boil_time=boil.boil_time or process.boil_time,
        evaporation=boil.evaporation or process.evaporation,
        left_in_pot=boil.left_in_pot or process.left_in_pot,
        cooling_constant=process.cooling_constant if measured_here else None,
    )


def recipe_of_pour(recipe: Recipe, pour: Pour) -> Recipe:
    """Return the plain recipe of a boil as if all its wort went the way of one pour.

    What it says of volumes in the fermenter is larger than the truth by `pour.share`.
    """
    boiled = recipe_of_boil(recipe, pour.boil)
    planned = fermenters_of(recipe)[pour.fermenter - 1]
    mark, frozen, share = pour.mark_l, pour.frozen_kg, pour.share
    process = replace(
        boiled.process,
        top_up_to=None if mark is None else _typed(Kind.VOLUME, mark / share, planned.top_up_to),
        frozen_top_up=_typed(Kind.MASS, frozen / share, planned.frozen_top_up)
        if frozen > 0.0
        else None,
    )
    return replace(
        boiled,
        fermenter=planned.fermenter,
        yeast=yeast_of(recipe, planned),
        process=process,
    )


def recipe_at(recipe: Recipe, boil: int, fermenter: int) -> Recipe:
    """Return the plain recipe of a boil, into one fermenter that is filled to its own mark.

    Where several boils fill that fermenter, or the boil several, it is what is seen there, and no
    day of its own; see `recipe_of_pour`.
    """
    boiled, planned = recipe_of_boil(recipe, boil), fermenters_of(recipe)[fermenter - 1]
    process = replace(
        boiled.process, top_up_to=planned.top_up_to, frozen_top_up=planned.frozen_top_up
    )
    yeast = yeast_of(recipe, planned)
    return replace(boiled, fermenter=planned.fermenter, yeast=yeast, process=process)


def recipe_of_fermenter(recipe: Recipe, number_: int) -> Recipe:
    """Return the plain recipe of what comes into one fermenter, from however many boils.

    Its pot and process are those of the first boil poured into it; its lines are those of all.
    """
    own = [each for each in pours(recipe) if each.fermenter == number_]
    poured = [(recipe_of_boil(recipe, each.boil), each.share) for each in own]
    changes: dict[str, Any] = {
        name: tuple(
            _summed(
                [_lines_in_share(name, lines_of(boiled, name), part) for boiled, part in poured]
            )
        )
        for name in LINE_TYPES
    }
    return replace(recipe_at(recipe, own[0].boil, number_), **changes)


def _lines_in_share(name: str, lines: tuple[Any, ...], share: float) -> tuple[Any, ...]:
    return extras_in_share(lines, share) if name == "extras" else masses_in_share(lines, share)


def _typed(kind: Kind, value: float, as_typed: Quantity | None) -> Quantity:
    """Return a quantity with the text that was typed, where it is the same value."""
    if as_typed is not None and abs(as_typed.value - value) < 1e-9:
        return as_typed
    return typed(kind, value)


def whole_recipe(recipe: Recipe) -> Recipe:
    """Return all that the plan takes as one plain list: what is bought, weighed out and counted.

    The same line of several boils is one, with its sum. The yeast is that of the first fermenter,
    with as much as all take together where all pitch the same.
    """
    if not is_planned(recipe):
        return recipe
    changes: dict[str, Any] = {
        name: tuple(_summed([lines_of(each, name) for each in _boiled(recipe)]))
        for name in LINE_TYPES
    }
    return replace(as_written(recipe), yeast=_all_yeast(recipe), **changes)


def _boiled(recipe: Recipe) -> list[Recipe]:
    return [recipe_of_boil(recipe, place) for place, _ in enumerate(boils_of(recipe), 1)]


def _summed(lists: list[tuple[Any, ...]]) -> Iterator[Any]:
    """Yield each line once, with the sum of its amounts."""
    gathered: dict[Any, list[Any]] = {}
    for lines in lists:
        for line in lines:
            unit = line.amount.unit.removesuffix("s") if line.amount is not None else ""
            gathered.setdefault((replace(line, amount=None), unit), []).append(line)
    for same in gathered.values():
        amounts = [line.amount for line in same if line.amount is not None]
        if len(amounts) < 2:
            yield same[0]
            continue
        total, unit = round(sum(each.value for each in amounts), 6), amounts[0].unit
        yield replace(same[0], amount=counted(total, unit) if unit else typed(Kind.MASS, total))


def _all_yeast(recipe: Recipe) -> Yeast:
    yeasts = [yeast_of(recipe, each) for each in fermenters_of(recipe)]
    first = yeasts[0]
    amounts = [each.amount for each in yeasts]
    if first.amount is None or any(replace(each, amount=first.amount) != first for each in yeasts):
        return first
    if any(each is None or each.unit != first.amount.unit for each in amounts):
        return first
    total = sum(each.value for each in amounts if each is not None)
    if total == first.amount.value:
        return first
    return replace(first, amount=counted(total, first.amount.unit))


def as_recipe(recipe: Recipe) -> Recipe | None:
    """Return the recipe that is brewed, in place of the one that is written.

    None where it takes more than one boil or more than one fermenter.
    """
    if len(boils_of(recipe)) > 1 or len(fermenters_of(recipe)) > 1:
        return None
    (pour,) = pours(recipe)
    return recipe_of_pour(recipe, pour)


def at_once(boil: PlannedBoil) -> bool:
    """Whether a boil begins with the one before it."""
    return boil.turn == Turn.AT_ONCE


def plan_faults(recipe: Recipe) -> Iterator[Message]:
    """Yield what no plan can mean: wort of a boil that is not there, more wort than there is."""
    if not is_planned(recipe):
        return
    count = len(boils_of(recipe))
    given: defaultdict[int, float] = defaultdict(float)
    for place, fermenter in enumerate(fermenters_of(recipe), 1):
        yield from _fermenter_faults(place, fermenter, count)
        for boil, share in _shares_from(recipe, fermenter).items():
            given[boil] += share
    for boil in range(1, count + 1):
        if given[boil] <= 0.0:
            yield say(
                "boil-goes-nowhere",
                "fermenters: none takes wort of boil {boil}; let one take it, or leave the boil "
                "out",
                boil=boil,
            )
        elif given[boil] > 1.0 + ROUNDING:
            yield say(
                "too-much-shared",
                "fermenters: they take {0} of the wort of boil {boil}; there is no more than all: "
                "give some of them less",
                (Kind.FRACTION, given[boil]),
                boil=boil,
            )


def _fermenter_faults(place: int, fermenter: PlannedFermenter, boils: int) -> Iterator[Message]:
    for each in fermenter.wort_from:
        if each.boil > boils:
            yield say(
                "no-such-boil",
                "fermenters[{place}].from: there is no boil {boil}; there are {count}",
                place=place,
                boil=each.boil,
                count=boils,
            )
    if fermenter.wort_from and all(number(each, "share") <= 0.0 for each in fermenter.wort_from):
        yield say(
            "fermenter-gets-nothing",
            "fermenters[{place}].from: it gets no wort; give it a share of a boil",
            place=place,
        )


def left_of_boil(recipe: Recipe, number_: int) -> float:
    """Return the share of a boil's wort that goes into no fermenter."""
    taken = sum(each.share for each in pours(recipe) if each.boil == number_)
    return max(1.0 - taken, 0.0)


def wort_share(boil: int, share: float) -> WortShare:
    """Return what a fermenter gets of a boil, as it would be typed."""
    if abs(share - 1.0) < 1e-9:
        return WortShare(boil)
    return WortShare(boil, typed(Kind.FRACTION, round(share, 3)))
