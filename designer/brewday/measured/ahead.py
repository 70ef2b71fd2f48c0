"""The day that lies ahead after readings, run again and again with other steps of it.

What was read tells of what is done, so it is taken in once; a change of what is ahead only runs the
day anew.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.brewday.measured.advice_levers import Change
from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.known_plan import KnownPlan
from designer.brewday.measured.observed import Told
from designer.brewday.measured.other_boils import OtherBoil
from designer.brewday.measured.readings import Measured, Reading
from designer.brewday.outlook import look_ahead, values_alone
from designer.brewday.plan_days import planned_outlook
from designer.brewday.predictions import MAIN
from designer.brewday.results import Day, Outlook, Range
from designer.recipe.document import Recipe
from designer.recipe.plan import is_planned, pours

Forecasts = Mapping[str, Range]


KEYS = tuple(each.key for each in MAIN)
"""The forecasts that are brought back, in their order."""


def aims_of(outlook: Outlook) -> Forecasts:
    """Return what advice aims at: the main forecasts; of several fermenters those of each.

    Then their keys have the number of the fermenter behind them; see `key_of`.
    """
    if outlook.plan is None or len(outlook.plan.fermenters) < 2:
        return _main(outlook.forecasts)
    return {
        f"{key} {each.number}": each.forecasts[key]
        for each in outlook.plan.fermenters
        for key in KEYS
    }


def key_of(aim: str) -> str:
    """Return the key of the forecast that an aim is of."""
    return aim.split(" ", maxsplit=1)[0]


def _main(forecasts: Forecasts) -> Forecasts:
    return {key: forecasts[key] for key in KEYS}


@dataclass(frozen=True, slots=True)
class Ahead:
    """What a changed recipe comes to: what advice aims at, or all that is said of its day.

    Both take the changed recipe and its changes as plain values.
    """

    aims: Callable[[Recipe, Sequence[Change]], Forecasts]
    outlook: Callable[[Recipe, Sequence[Change]], Outlook]


def day_ahead(recipe: Recipe, readings: Sequence[Reading]) -> Ahead:
    """Return what lies ahead of a recipe after readings."""
    if is_planned(recipe):
        return _of_plan(recipe, readings)
    return _of_known(recipe, readings) if readings else _unread()


def _unread() -> Ahead:
    return Ahead(
        lambda changed, _: _main(values_alone(brew(changed))),
        lambda changed, _: look_ahead(changed, ranges=False),
    )


def _of_known(recipe: Recipe, readings: Sequence[Reading]) -> Ahead:
    known = KnownDay(recipe, [Told(each) for each in readings])

    def changed_day(changed: Recipe, changes: Sequence[Change]) -> KnownDay:
        return known.with_ahead(changed, readings_moved(readings, changes))

    def outlook(changed: Recipe, changes: Sequence[Change]) -> Outlook:
        after = changed_day(changed, changes)
        day = after.plain.day
        return Outlook(day, values_alone(day), findings(after.recipe, day), recipe=after.recipe)

    return Ahead(lambda *of: _main(values_alone(changed_day(*of).quick)), outlook)


def _of_plan(recipe: Recipe, readings: Sequence[Reading]) -> Ahead:
    """Each pour of a plan is a day of its own, with readings of its own."""
    plan = KnownPlan(recipe, readings)
    known: dict[tuple[Told | OtherBoil, ...], KnownDay] = {}

    def first(plain: Recipe, told: Sequence[Told | OtherBoil]) -> tuple[Day, dict[str, Range]]:
        known[tuple(told)] = found = KnownDay(plain, told)
        return found.plain.day, values_alone(found.plain.day)

    planned_outlook(recipe, first, told=plan, watching=False)
    was = {(each.boil, each.fermenter): plan.of(each) for each in pours(recipe)}

    def outlook(changed: Recipe, changes: Sequence[Change], *, watching: bool = True) -> Outlook:
        after = KnownPlan(changed, readings_moved(readings, changes))
        before = {after.of(each): was[each.boil, each.fermenter] for each in pours(changed)}

        def run(plain: Recipe, told: Sequence[Told | OtherBoil]) -> tuple[Day, dict[str, Range]]:
            of_the_day = [each.of_the_day for each in told if isinstance(each, Told)]
            day = known[before[tuple(told)]].with_ahead(plain, of_the_day).plain.day
            return day, values_alone(day)

        return planned_outlook(changed, run, told=after, watching=watching)

    return Ahead(lambda *of: aims_of(outlook(*of, watching=False)), outlook)


def readings_moved(readings: Sequence[Reading], changes: Sequence[Change]) -> tuple[Reading, ...]:
    """Return readings taken before some changes as they would be read after them.

    What was left of a boil is more by what that is longer. What was read of a topped up fermenter
    is more by the water that was poured in since, and as much stronger or thinner as it `raises`
    the gravity there.
    """
    return tuple(_moved(each, changes) for each in readings)


def _moved(reading: Reading, changes: Sequence[Change]) -> Reading:
    what, in_fermenter = reading.what, reading.fermenter
    if reading.left_min is not None:
        longer = sum(_number(e, "longer") for e in changes if (e.get("boil") or 1) == reading.boil)
        return replace(reading, left_min=reading.left_min + longer)
    if what is Measured.TOPPED_UP:
        more = sum(
            _number(e, "more_l") for e in changes if (e.get("fermenter") or 1) == in_fermenter
        )
        return replace(reading, value=reading.value + more)
    if what is Measured.ORIGINAL_GRAVITY:
        raised = sum(_number(e, "raises") for e in changes if e.get("of_fermenter") == in_fermenter)
        return replace(reading, value=reading.value + raised)
    return reading


def _number(change: Change, key: str) -> float:
    found = change.get(key)
    return float(found) if isinstance(found, int | float) else 0.0
