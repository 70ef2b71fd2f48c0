"""What of a brew day lies ahead and may still be changed: nothing that is done, nothing locked.

Water on top while the fermenter is not topped up; hops and extract that have not gone in; extract
of its own, in the boil or dissolved in boiled water until the yeast is in; the boil until the
burner is off. No vessel is filled above the room that is left for krausen. Of several boils only
the first that is not over is looked at: the others have their own time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import floor

from designer.brewday.measured.advice_levers import Lever, step_kg, step_l, stepped_l
from designer.brewday.measured.boil_lever import BoilTime
from designer.brewday.measured.line_levers import Added, Weighed
from designer.brewday.measured.standing import At, Standing
from designer.brewday.measured.water_levers import Ice, TopUp
from designer.brewday.plan_days import days_of
from designer.brewday.results import FermenterDay, Outlook
from designer.brewday.weighable import KG_PER_OZ
from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import all_lists
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.named import Line, is_locked, lines_of
from designer.recipe.plan import boils_of, fermenters_of, pours, recipe_of_boil
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.recipe.systems import is_in_us

LEAST_PART, MOST_PART = 0.3, 2.0
"""How far hops ahead may go, as a part of what they were, and extract at the most; further it is
another beer. Judged."""
LEAST_MARK, MOST_MARK = 0.75, 1.35
MOST_ADDED = 0.25
"""The most extract that is put in beside the recipe's, as a part of that; a judgement."""
MOST_LONGER_MIN, MOST_SHORTER_MIN = 30, 15
LATE_MIN = 10.0
"""So long before the end extract of its own goes into a boil; common practice, no source."""
FIRST_ADDED_ID = 1001
"""Lines that advice put in are numbered from here on, above all that recipes have."""
ADDED_NAME = say("advice-extract-name", "Light dry malt extract")


def levers_ahead(recipe: Recipe, outlook: Outlook, standing: Standing) -> tuple[Lever, ...]:
    """Return what may still be changed of a recipe as it is brewed, by its outlook now."""
    return tuple(_levers(recipe, outlook, standing))


def _levers(recipe: Recipe, outlook: Outlook, standing: Standing) -> Iterator[Lever]:
    yield from _top_ups(recipe, outlook, standing)
    boil = next(
        (
            number_
            for number_, _ in enumerate(boils_of(recipe), 1)
            if standing.of_boil(number_) < At.BOILED
        ),
        0,
    )
    for each, _ in enumerate(boils_of(recipe), 1):
        if each == boil or standing.of_boil(each) >= At.BOILED:
            yield from _weighed(recipe, each, standing)
    if boil:
        yield from _boil_time(recipe, boil, standing)
    for place, each in enumerate(_takes_extract(recipe, boil, standing)):
        added = _added(recipe, each, place, standing)
        if added is not None:
            yield added


def _top_ups(recipe: Recipe, outlook: Outlook, standing: Standing) -> Iterator[TopUp]:
    """Yield the marks; fermenters that are filled alike, from the same boils, are one."""
    fermenters, alike = fermenters_of(recipe), dict[object, list[int]]()
    for place, fermenter in enumerate(fermenters, 1):
        if (at := standing.of_fermenter(place)) < At.PITCHED:
            mark, is_after = fermenter.top_up_to, at >= At.TOPPED_UP
            key = (None if mark is None else mark.text, fermenter.wort_from, is_after)
            alike.setdefault(key, []).append(place)
    days = {each.number: each for each in days_of(recipe, outlook).fermenters}
    for places in alike.values():
        is_after = standing.of_fermenter(places[0]) >= At.TOPPED_UP
        lever = _top_up(recipe, places, [days[each] for each in places], is_after=is_after)
        if lever is not None and (lever.low or lever.high):
            yield lever


def _top_up(
    recipe: Recipe, places: list[int], days: list[FermenterDay], *, is_after: bool
) -> TopUp | None:
    mark = fermenters_of(recipe)[places[0] - 1].top_up_to
    before = mark or typed(Kind.VOLUME, round(days[0].total_l, 1), ".6g")
    if is_after:
        before = stepped_l(before, days[0].total_l, 0)
    if before.value <= 0.0:
        return None
    step = step_l(before)
    rooms = [room for each in days if (room := room_l(each)) is not None]
    most = min([MOST_MARK * before.value, *rooms])
    least = max(LEAST_MARK * before.value, *(each.from_pot_l for each in days))
    high = max(floor((most - before.value) / step + 1e-9), 0)
    low = 0 if mark is None or is_after else -max(floor((before.value - least) / step + 1e-9), 0)
    boil = next(each.boil for each in pours(recipe) if each.fermenter == places[0])
    return TopUp(
        tuple(places),
        boil,
        bool(recipe.fermenters),
        before,
        before.value,
        low,
        high,
        is_new=mark is None,
        is_after=is_after,
        of_many=len(places) == 1 and len(fermenters_of(recipe)) > 1,
    )


def room_l(day: FermenterDay) -> float | None:
    """Return what a fermenter holds below the room for krausen; None where nobody said."""
    brim = day.brim_l
    return None if brim is None else brim * (1.0 - number(day.vessel, "headspace"))


def _weighed(recipe: Recipe, boil: int, standing: Standing) -> Iterator[Weighed]:
    boiled = recipe_of_boil(recipe, boil)
    hops = [each for each in boiled.hops if _may_change("hops", each, boil, standing)]
    last = hops[-1].line_id if len(boiled.hops) > 1 and hops else None
    for hop in hops:
        yield _of_line("hops", hop, boil, recipe, is_last=hop.line_id == last)
    for line in boiled.fermentables:
        if not is_grain(line.kind) and _may_change("fermentables", line, boil, standing):
            yield _of_line("fermentables", line, boil, recipe)


CLOSED_AFTER = {
    Stage.STEEP: At.STEEPED,
    Stage.FIRST_WORT: At.BOILING,
    Stage.BOIL: At.BOILED,
    Stage.FLAME_OUT: At.COOLED,
    Stage.STAND: At.COOLED,
    Stage.FERMENTER: At.PITCHED,
}
"""When it is too late for what goes in at a stage; dry hops have days."""


def _may_change(lines: str, line: Line, boil: int, standing: Standing) -> bool:
    return (
        line.amount is not None
        and line.amount.value > 0.0
        and line.when.stage in CLOSED_AFTER
        and standing.of_boil(boil) < CLOSED_AFTER[line.when.stage]
        and not is_locked(line)
        and standing.is_ahead(lines, line.line_id, boil)
    )


def _of_line(
    lines: str, line: Line, boil: int, recipe: Recipe, *, is_last: bool = False
) -> Weighed:
    assert line.amount is not None
    kg, step = line.amount.value, step_kg(line.amount, lines)
    least = step if lines == "fermentables" else LEAST_PART * kg
    low = -max(floor((kg - least) / step + 1e-9), 0)
    high = floor((MOST_PART - 1.0) * kg / step + 1e-9)
    return Weighed(lines, line, boil, bool(recipe.boils), low, high, is_last)


def _boil_time(recipe: Recipe, boil: int, standing: Standing) -> Iterator[BoilTime]:
    """Yield the boil, no shorter than what still goes into it needs."""
    boiled = recipe_of_boil(recipe, boil)
    minutes = number(boiled.process, "boil_time")
    before = boiled.process.boil_time or typed(Kind.TIME, minutes)
    left = standing.left_min.get(boil, minutes)
    gone, needed = [], 0.0
    for lines in ("fermentables", "hops", "extras"):
        for line in lines_of(boiled, lines):
            if line.when.stage is not Stage.BOIL:
                continue
            if not standing.is_ahead(lines, line.line_id, boil):
                gone.append((lines, line))
            else:
                needed = max(needed, min(line.when.minutes, minutes))
    boiled_min = min((line.when.minutes for _, line in gone), default=minutes)
    spare = max(floor(min(left - needed, boiled_min) + 1e-9), 0)
    shorter = min(spare, MOST_SHORTER_MIN)
    yield BoilTime(boil, bool(recipe.boils), before, tuple(gone), -shorter, MOST_LONGER_MIN)


def _takes_extract(recipe: Recipe, boil: int, standing: Standing) -> list[int]:
    """Return the boil under way, and those that are over but fill a fermenter without yeast."""
    over = {
        each.boil
        for each in pours(recipe)
        if standing.of_fermenter(each.fermenter) < At.PITCHED
        and standing.of_boil(each.boil) >= At.BOILED
    }
    return sorted(over | ({boil} - {0}))


def _added(recipe: Recipe, boil: int, place: int, standing: Standing) -> Added | None:
    """Return extract beside the recipe's, where none of the kind is ahead."""
    is_over = standing.of_boil(boil) >= At.BOILED
    boiled = recipe_of_boil(recipe, boil)
    extracts = [each for each in boiled.fermentables if not is_grain(each.kind)]
    if any(_is_dry_ahead(each, boil, standing) for each in extracts):
        return None
    whole = sum(each.amount.value for each in extracts if each.amount is not None)
    like = first_amount(extracts)
    high = floor(MOST_ADDED * whole / step_kg(like, "fermentables"))
    when = When(Stage.FERMENTER, "fermenter") if is_over else _late(boiled, boil, standing)
    taken = [line.line_id for lines in all_lists(recipe) for line in lines]
    line_id = max([FIRST_ADDED_ID - 1, *taken]) + 1 + place
    line = replace(extract_to_add(extracts), when=when, line_id=line_id)
    of_many = len(recipe.boils) > 1
    return Added(line, boil, bool(recipe.boils), like, high, of_many) if high else None


def _is_dry_ahead(line: Fermentable, boil: int, standing: Standing) -> bool:
    is_dry = line.kind == FermentableKind.DRY_EXTRACT
    return is_dry and _may_change("fermentables", line, boil, standing)


def first_amount(lines: list[Fermentable]) -> Quantity | None:
    """Return the amount of the first line that has one, whose units others are weighed in."""
    return next((each.amount for each in lines if each.amount is not None), None)


def _late(boiled: Recipe, boil: int, standing: Standing) -> When:
    """Return when extract goes into a boil late, or off the boil where it is all but over."""
    left = standing.left_min.get(boil, number(boiled.process, "boil_time"))
    late = min(LATE_MIN, floor(left))
    if late < 1.0:
        return When(Stage.FLAME_OUT, "flame-out")
    return When(Stage.BOIL, f"boil {late:g} min", float(late))


def extract_to_add(extracts: list[Fermentable]) -> Fermentable:
    """Return what is put in: dry extract as the recipe has it, else a light one."""
    for known in extracts:
        if known.kind == FermentableKind.DRY_EXTRACT:
            return Fermentable(
                known.name,
                known.kind,
                colour=known.colour,
                extract=known.extract,
                fermentability=known.fermentability,
            )
    return Fermentable(ADDED_NAME.template, str(FermentableKind.DRY_EXTRACT))


def ice_ahead(recipe: Recipe, standing: Standing) -> Iterator[Ice]:
    """Yield the frozen water that has not gone in yet, once all wort for it is cooled."""
    for place, fermenter in enumerate(fermenters_of(recipe), 1):
        frozen = fermenter.frozen_top_up
        if frozen is None or frozen.value <= 0.0 or standing.of_fermenter(place) >= At.TOPPED_UP:
            continue
        boils = [each.boil for each in pours(recipe) if each.fermenter == place]
        if any(standing.of_boil(each) < At.COOLED for each in boils):
            continue
        boil = boils[0]
        unit = KG_PER_OZ if is_in_us(frozen.text) else 0.1
        low = -int(frozen.value / unit + 1e-9)
        yield Ice(place, boil, bool(recipe.fermenters), frozen, low)
