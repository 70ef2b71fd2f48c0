"""Advice on a brew day: the smallest change of what is ahead that brings the beer back to the plan.

The aim are the plan's own five forecasts, of the recipe as it is written. Advice is given only
where one of them has left what nobody can tell by more than a small part of its own band, and
where the change brings the beer clearly nearer. It changes nothing that is done, fills no vessel
above its room, and makes nothing grave to watch out for.

Beside it stands the ice: where the mix would land too cold for the yeast, less of it goes in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from designer.brewday.measured.advice_ahead import ice_ahead, levers_ahead
from designer.brewday.measured.advice_checks import is_worse
from designer.brewday.measured.advice_levers import Change, Lever
from designer.brewday.measured.advice_search import (
    EDGE,
    LEFT,
    OUTSIDE,
    Found,
    Search,
    Steps,
    Values,
    off_by,
)
from designer.brewday.measured.advice_words import button, reason_of, title_of
from designer.brewday.measured.ahead import KEYS, Ahead, Forecasts, aims_of, day_ahead, key_of
from designer.brewday.measured.readings import Reading
from designer.brewday.measured.standing import At, Standing
from designer.brewday.measured.water_levers import Ice
from designer.brewday.plan_days import days_of
from designer.brewday.predictions import MAIN
from designer.brewday.results import FermenterDay, Outlook, Range
from designer.brewday.search import nearest
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit, Together
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.wort.density import plato_from_gravity, wort_density

LEAST_HALF = {each.key: each.deadband or 0.1 for each in MAIN}
"""Half widths below which no band is taken: what nobody can tell, and of alcohol a tenth."""
WORTH_TELLING = 0.25
"""Part of half the plan's band that a forecast has to be off to be told; a judgement."""
WORTH_DOING = 0.6
"""A change that leaves more of what the misses cost is not worth a hand, unless it brings a
forecast back into its band; a judgement."""
TOO_COLD_K = 2.0
"""So far below pitching temperature less ice is advised; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """One change that is offered: what to do, why, and the forecasts before and after it.

    `code` is its lasting name, of the levers that it pulls. `changes` are the plain values that the
    entry of a log holds which accepts or leaves it; `steps` tells how far each lever goes.
    """

    code: str
    title: Message
    reason: Message
    use: Message
    keep: Message
    changes: tuple[Change, ...]
    edit: Edit
    before: Mapping[str, Range]
    after: Mapping[str, Range]
    steps: Mapping[str, int]

    @property
    def values(self) -> dict[str, Any]:
        """What an entry of the log holds that accepts it or leaves it as it is."""
        return {
            "proposal": self.code,
            "changes": [dict(each) for each in self.changes],
            "steps": dict(self.steps),
            "said": self.title.text,
        }


def proposals(
    as_brewed: Recipe,
    readings: Sequence[Reading],
    before: Outlook,
    now: Outlook,
    standing: Standing,
    *,
    left: Sequence[Mapping[str, Any]] = (),
    ahead: Ahead | None = None,
) -> tuple[Proposal, ...]:
    """Return what is advised, most important first; nothing where the beer is as planned.

    `before` is the outlook of the recipe as it was planned, with its ranges, `now` that of the
    recipe `as_brewed` after the readings. `left` are the values of proposals that were left.
    `ahead` runs the day; left out, it is the day after the readings.
    """
    run = ahead or day_ahead(as_brewed, readings)
    day = _BrewDay(as_brewed, before, now, standing, _Left(left), run)
    return (*_of_the_beer(day), *_of_the_ice(day))


@dataclass(frozen=True, slots=True)
class _BrewDay:
    """What advice is asked of."""

    recipe: Recipe
    before: Outlook
    now: Outlook
    standing: Standing
    left: _Left
    ahead: Ahead


class _Left:
    """Proposals that were left as they are: not offered again unless by more than a step."""

    def __init__(self, values: Sequence[Mapping[str, Any]]) -> None:
        self._steps: dict[str, int] = {}
        for each in values:
            steps = each.get("steps")
            if isinstance(steps, Mapping):
                self._steps.update(
                    {str(code): int(n) for code, n in steps.items() if isinstance(n, int)}
                )

    def has(self, steps: Mapping[str, int]) -> bool:
        """Whether all of it was left before, or differs by no more than a step."""
        return bool(steps) and all(
            code in self._steps and abs(n - self._steps[code]) <= 1 for code, n in steps.items()
        )


def is_off(aim: str, value: float, plan: Forecasts) -> bool:
    """Whether a forecast differs from the plan's by what is worth telling."""
    least = LEAST_HALF[key_of(aim)]
    differs = abs(value - plan[aim].value) > least
    return differs and abs(off_by(value, plan[aim], least)) > WORTH_TELLING


def _cost(plan: Forecasts, values: Values) -> float:
    total = 0.0
    for aim, own in plan.items():
        off = abs(off_by(values[aim], own, LEAST_HALF[key_of(aim)]))
        total += off * off + OUTSIDE * max(off - EDGE, 0.0) ** 2 + (LEFT if off > 1.0 else 0.0)
    return total * len(KEYS) / len(plan)


def _values(forecasts: Forecasts) -> dict[str, float]:
    return {aim: found.value for aim, found in forecasts.items()}


def _of_the_beer(day: _BrewDay) -> Iterator[Proposal]:
    plan = aims_of(day.before)
    if not any(is_off(aim, value, plan) for aim, value in _values(aims_of(day.now)).items()):
        return
    levers = levers_ahead(day.recipe, day.now, day.standing)
    if not levers:
        return

    def values_at(steps: Steps) -> Values:
        return _values(day.ahead.aims(*_pulled(day.recipe, levers, steps)))

    search = Search(
        values_at,
        [(each.low, each.high) for each in levers],
        partial(_cost, plan),
        lambda at, n: levers[at].effort(n),
    )
    *candidates, nothing = search.best()
    as_it_is = day.ahead.outlook(day.recipe, ())
    for found in candidates:
        if not _is_worth_doing(found, nothing, plan):
            continue
        after = day.ahead.outlook(*_pulled(day.recipe, levers, found.steps))
        if is_worse(as_it_is, after):
            continue
        if not day.left.has(_by_code(levers, found.steps)):
            yield _proposal(levers, found, day, after)
        return


def _is_worth_doing(found: Found, nothing: Found, plan: Forecasts) -> bool:
    """Whether it mends much of what is amiss, or brings back what has left the plan's own band."""
    if found.cost <= WORTH_DOING * nothing.cost:
        return True
    return found.cost < nothing.cost and _outside(found.values, plan) < _outside(
        nothing.values, plan
    )


def _outside(values: Values, plan: Forecasts) -> int:
    return sum(not own.low <= values[aim] <= own.high for aim, own in plan.items())


def _by_code(levers: Sequence[Lever], steps: Steps) -> dict[str, int]:
    return {each.code: n for each, n in zip(levers, steps, strict=True) if n}


def _pulled(
    recipe: Recipe, levers: Sequence[Lever], steps: Steps
) -> tuple[Recipe, tuple[Change, ...]]:
    """Return the recipe with steps taken, and these as plain values."""
    changes: tuple[Change, ...] = ()
    for each, n in zip(levers, steps, strict=True):
        if n:
            recipe, changes = each.edit(n).apply(recipe), (*changes, *each.changes(n))
    return recipe, changes


def _proposal(levers: Sequence[Lever], found: Found, day: _BrewDay, after: Outlook) -> Proposal:
    pulled = [(each, n) for each, n in zip(levers, found.steps, strict=True) if n]
    title = title_of([each.said(n) for each, n in pulled])
    use, keep = button(pulled)
    planned, now = day.before.forecasts, day.now.forecasts
    made = {key: after.forecasts[key].value for key in KEYS}
    more_kg = _extract_kg(day.now) - _extract_kg(day.before)
    return Proposal(
        code="+".join(each.code for each, _ in pulled),
        title=title,
        reason=reason_of(planned, now, made, KEYS, is_off, more_kg),
        use=use,
        keep=keep,
        changes=(
            *(change for each, n in pulled for change in each.changes(n)),
            *_raised(day, after),
        ),
        edit=Together(tuple(each.edit(n) for each, n in pulled), title),
        before={key: now[key] for key in KEYS},
        after={key: now[key].moved_to(made[key]) for key in KEYS},
        steps=_by_code(levers, found.steps),
    )


def _raised(day: _BrewDay, after: Outlook) -> Iterator[Change]:
    """Yield by how much a topped up fermenter gets stronger: its gravity may have been read."""
    was, now = (days_of(day.recipe, each).fermenters for each in (day.now, after))
    for before, made in zip(was, now, strict=True):
        if day.standing.of_fermenter(before.number) >= At.TOPPED_UP:
            raises = _gravity(made) - _gravity(before)
            yield {"of_fermenter": before.number, "raises": round(raises, 6)}


def _gravity(fermenter: FermenterDay) -> float:
    return float(fermenter.day.beer.original_gravity)


def _extract_kg(outlook: Outlook) -> float:
    """Return what the pots hold of extract as the boil ends."""
    days = [outlook.day] if outlook.plan is None else [each.day for each in outlook.plan.boils]
    return sum(_in_pot_kg(float(e.pot.boil_end_l), float(e.pot.boil_gravity_end)) for e in days)


def _in_pot_kg(litres: float, gravity_sg: float) -> float:
    fraction = float(plato_from_gravity(gravity_sg)) / 100.0
    return litres * float(wort_density(fraction, 20.0)) / 1000.0 * fraction


def _of_the_ice(day: _BrewDay) -> Iterator[Proposal]:
    pitch_c = number(day.recipe.process, "pitch_temperature")
    for ice in ice_ahead(day.recipe, day.standing):
        mixed_c = _mixed_c(day.recipe, day.now, ice)
        if mixed_c >= pitch_c - TOO_COLD_K:
            continue

        def lands(less: int, ice: Ice = ice) -> float:
            changed = ice.edit(-less).apply(day.recipe) if less else day.recipe
            return _mixed_c(changed, day.ahead.outlook(changed, ice.changes(-less)), ice)

        less = nearest(lands, pitch_c, 0, -ice.low)
        if less and not day.left.has({ice.code: -less}):
            yield _ice_proposal(ice, -less, mixed_c, lands(less), day.now)


def _mixed_c(recipe: Recipe, outlook: Outlook, ice: Ice) -> float:
    day = days_of(recipe, outlook).fermenters[ice.fermenter - 1].day
    return float(day.fermenter.mixed_c)


def _ice_proposal(ice: Ice, steps: int, mixed_c: float, lands_c: float, now: Outlook) -> Proposal:
    figures = (Kind.TEMPERATURE, mixed_c), (Kind.TEMPERATURE, lands_c)
    same = {key: now.forecasts[key] for key in KEYS}
    return Proposal(
        code=ice.code,
        title=ice.said(steps),
        reason=say(
            "advice-too-cold",
            "With all the ice it comes to {0}, too cold for the yeast; with less, to {1}.",
            *figures,
        ),
        use=ice.use(steps),
        keep=ice.keep(steps),
        changes=ice.changes(steps),
        edit=ice.edit(steps),
        before=same,
        after=same,
        steps={ice.code: steps},
    )
