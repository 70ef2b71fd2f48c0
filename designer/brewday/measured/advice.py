"""Advice on a brew day: the smallest change of what is ahead that brings the beer back to the plan.

The aim are the plan's own five forecasts, of the recipe as it is written. Advice is given only
where one of them has left what nobody can tell by more than a small part of its own band, and
where the change brings the beer clearly nearer. It changes nothing that is done, fills no vessel
above its room, and makes nothing grave to watch out for.

Beside it stands the ice: where the mix would land too cold for the yeast, less of it goes in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from designer.brewday.measured.advice_ahead import ice_ahead, levers_ahead
from designer.brewday.measured.advice_levers import Change, Ice, Lever
from designer.brewday.measured.advice_search import (
    EDGE,
    OUTSIDE,
    Found,
    Search,
    Steps,
    Values,
    off_by,
)
from designer.brewday.measured.advice_words import button, reason_of, title_of
from designer.brewday.measured.readings import Reading
from designer.brewday.measured.standing import Standing
from designer.brewday.outlook import look_ahead
from designer.brewday.plan_days import days_of
from designer.brewday.predictions import BY_KEY, MAIN
from designer.brewday.results import Finding, Outlook, Range
from designer.brewday.search import nearest
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit, Together
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.wort.density import plato_from_gravity, wort_density

KEYS = tuple(each.key for each in MAIN)
LEAST_HALF = {"abv_percent": 0.1, "final_gravity": 0.001, "original_gravity": 0.001,
              "bitterness_ibu": 1.0, "colour_srm": 0.5}  # fmt: skip
"""Half widths below which no band is taken; what no kitchen can tell, as `predictions` has it."""
WORTH_TELLING = 0.25
"""Part of half the plan's band that a forecast has to be off to be told; a judgement."""
WORTH_DOING = 0.6
"""A change that leaves more of what the misses cost is not worth a hand; a judgement."""
TOO_COLD_K, LANDS_WITHIN_K = 2.0, 1.0
"""So far below pitching temperature less ice is advised; common practice, no source."""

Reckon = Callable[[Recipe, Sequence[Reading]], Outlook]
"""Runs the day of a recipe as readings have it, without ranges."""


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


def _measured_day(recipe: Recipe, readings: Sequence[Reading]) -> Outlook:
    return look_ahead(recipe, ranges=False)


def proposals(
    as_brewed: Recipe,
    readings: Sequence[Reading],
    before: Outlook,
    now: Outlook,
    standing: Standing,
    *,
    left: Sequence[Mapping[str, Any]] = (),
    reckon: Reckon = _measured_day,
) -> tuple[Proposal, ...]:
    """Return what is advised, most important first; nothing where the beer is as planned.

    `before` is the outlook of the recipe as it was planned, with its ranges, `now` that of the
    recipe `as_brewed` after the readings. `left` are the values of proposals that were left.
    """
    known = _Left(left)
    found = [*_of_the_beer(as_brewed, readings, before, now, standing, known, reckon)]
    found += _of_the_ice(as_brewed, readings, now, standing, known, reckon)
    return tuple(found)


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


def is_off(key: str, value: float, plan: Mapping[str, Range]) -> bool:
    """Whether a forecast differs from the plan's by what is worth telling."""
    return (
        abs(value - plan[key].value) > LEAST_HALF[key]
        and abs(off_by(key, value, plan, LEAST_HALF)) > WORTH_TELLING
    )


def _cost(plan: Mapping[str, Range], values: Values) -> float:
    total = 0.0
    for key in KEYS:
        off = abs(off_by(key, values[key], plan, LEAST_HALF))
        total += off * off + OUTSIDE * max(off - EDGE, 0.0) ** 2
    return total


def _values(outlook: Outlook) -> dict[str, float]:
    return {key: outlook.forecasts[key].value for key in KEYS}


def _of_the_beer(
    recipe: Recipe,
    readings: Sequence[Reading],
    before: Outlook,
    now: Outlook,
    standing: Standing,
    known: _Left,
    reckon: Reckon,
) -> Iterator[Proposal]:
    plan = before.forecasts
    if not any(is_off(key, value, plan) for key, value in _values(now).items()):
        return
    levers = levers_ahead(recipe, now, standing)
    if not levers:
        return
    days: dict[Steps, Outlook] = {}

    def values_at(steps: Steps) -> Values:
        days[steps] = reckon(_pulled(recipe, levers, steps), _moved(readings, levers, steps))
        return _values(days[steps])

    search = Search(
        values_at,
        [(each.low, each.high) for each in levers],
        partial(_cost, plan),
        lambda at, n: levers[at].effort(n),
    )
    *candidates, nothing = search.best()
    as_it_is = days[nothing.steps]
    for found in candidates:
        if found.cost > WORTH_DOING * nothing.cost:
            continue
        if _is_worse(as_it_is, days[found.steps]):
            continue
        taken = {each.code: n for each, n in zip(levers, found.steps, strict=True) if n}
        if not known.has(taken):
            yield _proposal(levers, found, before, now)
        return


def _pulled(recipe: Recipe, levers: Sequence[Lever], steps: Steps) -> Recipe:
    for each, n in zip(levers, steps, strict=True):
        if n:
            recipe = each.edit(n).apply(recipe)
    return recipe


def _moved(
    readings: Sequence[Reading], levers: Sequence[Lever], steps: Steps
) -> tuple[Reading, ...]:
    """Return the readings by what is then left of each boil."""
    changes = [
        change for each, n in zip(levers, steps, strict=True) if n for change in each.changes(n)
    ]
    return readings_moved(readings, changes)


def readings_moved(readings: Sequence[Reading], changes: Sequence[Change]) -> tuple[Reading, ...]:
    """Return readings taken before some changes, with what was then left of a longer boil."""
    longer: dict[int, float] = {}
    for each in changes:
        by = each.get("longer")
        if isinstance(by, int | float):
            boil = int(each.get("boil") or 1)
            longer[boil] = longer.get(boil, 0.0) + by
    return tuple(
        each
        if each.left_min is None or each.boil not in longer
        else replace(each, left_min=each.left_min + longer[each.boil])
        for each in readings
    )


def _is_worse(before: Outlook, after: Outlook) -> bool:
    """Whether something grave comes, or a vessel that is too full already is filled further."""
    graves = {_place(each) for each in before.findings if each.severity is not Severity.NOTE}
    worst = {_place(each): each.severity.rank for each in before.findings}
    for each in after.findings:
        if each.severity is Severity.NOTE:
            continue
        place = _place(each)
        if place not in graves or each.severity.rank < worst[place]:
            return True
    return _is_fuller(before, after, {code for code, _ in graves})


def _place(finding: Finding) -> tuple[str, object]:
    return finding.code, finding.about


_FULL_POT = frozenset({"pot-overflows", "foam-room"})
_FULL_FERMENTER = frozenset({"fermenter-overflows", "krausen-room"})


def _is_fuller(before: Outlook, after: Outlook, codes: set[str]) -> bool:
    was, is_ = days_of_vessels(before), days_of_vessels(after)
    pot = codes & _FULL_POT and is_[0] > was[0] + 1e-6
    return bool(pot or (codes & _FULL_FERMENTER and is_[1] > was[1] + 1e-6))


def days_of_vessels(outlook: Outlook) -> tuple[float, float]:
    """Return the most that a boiling pot holds and that a fermenter is filled with, litres."""
    if outlook.plan is None:
        day = outlook.day
        return float(day.pot.fullest_boiling_l), float(day.fermenter.batch_l)
    return (
        max(float(each.day.pot.fullest_boiling_l) for each in outlook.plan.boils),
        max(each.total_l for each in outlook.plan.fermenters),
    )


def _proposal(levers: Sequence[Lever], found: Found, before: Outlook, now: Outlook) -> Proposal:
    pulled = [(each, n) for each, n in zip(levers, found.steps, strict=True) if n]
    title = title_of([each.said(n) for each, n in pulled])
    edit = Together(tuple(each.edit(n) for each, n in pulled), title)
    use, keep = button(pulled)
    return Proposal(
        code="+".join(each.code for each, _ in pulled),
        title=title,
        reason=reason_of(
            before.forecasts,
            now.forecasts,
            found.values,
            KEYS,
            is_off,
            _extract_kg(now) - _extract_kg(before),
        ),
        use=use,
        keep=keep,
        changes=tuple(change for each, n in pulled for change in each.changes(n)),
        edit=edit,
        before={key: now.forecasts[key] for key in KEYS},
        after={key: now.forecasts[key].moved_to(found.values[key]) for key in KEYS},
        steps={each.code: n for each, n in pulled},
    )


def _extract_kg(outlook: Outlook) -> float:
    """Return what the pots hold of extract as the boil ends."""
    days = [outlook.day] if outlook.plan is None else [each.day for each in outlook.plan.boils]
    return sum(_in_pot_kg(float(e.pot.boil_end_l), float(e.pot.boil_gravity_end)) for e in days)


def _in_pot_kg(litres: float, gravity_sg: float) -> float:
    fraction = float(plato_from_gravity(gravity_sg)) / 100.0
    return litres * float(wort_density(fraction, 20.0)) / 1000.0 * fraction


def _of_the_ice(
    recipe: Recipe,
    readings: Sequence[Reading],
    now: Outlook,
    standing: Standing,
    known: _Left,
    reckon: Reckon,
) -> Iterator[Proposal]:
    pitch_c = number(recipe.process, "pitch_temperature")
    for ice in ice_ahead(recipe, standing):
        mixed_c = _mixed_c(recipe, now, ice)
        if mixed_c >= pitch_c - TOO_COLD_K:
            continue

        def lands(n: int, ice: Ice = ice) -> float:
            less = ice.edit(-n).apply(recipe) if n else recipe
            return _mixed_c(less, reckon(less, readings), ice)

        n = nearest(lands, pitch_c, 0, -ice.low)
        if n and not known.has({ice.code: -n}):
            yield _ice_proposal(ice, -n, mixed_c, lands(n), now)


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
            "With all the ice it lands at {0}, too cold for the yeast; so it lands at {1}.",
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


assert set(LEAST_HALF) == set(BY_KEY) & set(KEYS)
