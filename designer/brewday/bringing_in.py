"""Bring it in: the few changes of amounts after which all forecasts lie where they are asked.

The levers are what a brewer would take: the extract, one grain, the hops, the water on top, and
where nothing else will do how long a hop is boiled, which goes together with its weight. How far
each moves each forecast is read off the day, run with a little more of it; the nearest point at
which all hold follows by projecting onto the ranges in turn (Kaczmarz's way, Bull. Acad. Pol. Sci.
35, 1937, for inequalities: Agmon, Can. J. Math. 6, 1954), and the day is run there again, till it
holds. Few levers come before many. What is found is rounded to what a kitchen weighs, and
looked at: a change that brings something grave to watch out for is none.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from designer.brewday.aiming import day_of
from designer.brewday.asked_ranges import Asked, Miss, misses
from designer.brewday.findings import findings
from designer.brewday.levers import Lever, change_of, levers_of
from designer.brewday.plan_days import day_alone, planned_outlook
from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Finding
from designer.brewday.weighable import FINE
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit
from designer.recipe.message import Message, in_a_row, say
from designer.recipe.plan import is_planned
from designer.recipe.severity import Severity

A_LITTLE = 0.03
PASSES = ((0.12, False), (0.02, False), (0.02, True))
"""How far inside the ranges is aimed at, as a part of their widths, that rounding does not lead out
again, and whether a time may be changed: times, and the very edge, where nothing else will do."""
TURNS, PROJECTIONS, AT_FIRST_SIGHT = 5, 60, 30
SETTLED = 0.002
MOST_LEVERS = 3
MOST_TRIED = 14

Values = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class BroughtIn:
    """What was found: the edits and in words what they change, or none and what still misses.

    `values` are the forecasts reached; without edits, those nearest to what is asked, which
    `missing` tells. Where that is nothing, amounts would get there, but with `graver` to watch out
    for.
    """

    edits: tuple[Edit, ...]
    changes: Message | None
    values: Values
    missing: tuple[Miss, ...] = ()
    graver: Finding | None = None

    @property
    def is_out_of_reach(self) -> bool:
        """Whether no change of amounts will do."""
        return bool(self.missing) or self.graver is not None


def bring_in(
    recipe: Recipe, asked: Asked, is_wanted: Callable[[], bool] = lambda: True
) -> BroughtIn:
    """Return the smallest change that brings the forecasts of a recipe into what is asked.

    The search ends early once it is not wanted any more.
    """
    search = _Search(recipe, asked)
    return search.found(is_wanted)


@dataclass(frozen=True, slots=True)
class _Point:
    """Where the search stands: how far levers are pulled, the forecasts there, and the slopes."""

    factors: Mapping[Lever, float]
    values: Values
    slopes: Mapping[Lever, Values]


def _towards(
    key: str, aim: tuple[float, float], point: _Point, factors: dict[Lever, float]
) -> bool:
    """Move the factors to the nearest at which one forecast is in its aim; False if it is."""
    along = {each: point.slopes[each][key] for each in factors}
    steep = sum(each * each for each in along.values())
    now = point.values[key] + sum(
        slope * (factors[each] - point.factors[each]) for each, slope in along.items()
    )
    off = min(max(now, aim[0]), aim[1]) - now
    if not off or not steep:
        return False
    for each, slope in along.items():
        factors[each] = min(max(factors[each] + off * slope / steep, each.low), each.high)
    return True


class _Search:
    """The search from one recipe for one set of ranges."""

    def __init__(self, recipe: Recipe, asked: Asked) -> None:
        self._recipe, self._asked = recipe, asked
        self._levers = levers_of(recipe)
        self._at_first = self._values(recipe)
        self._slopes = {lever: self._slope(lever) for lever in self._levers}
        self._grave = {each.code for each in _grave(recipe)}

    def found(self, is_wanted: Callable[[], bool]) -> BroughtIn:
        """Return what brings it in, by as few levers as can be; else the nearest."""
        missing = misses(self._at_first, self._asked)
        if not missing:
            return BroughtIn((), None, self._at_first)
        nearest = BroughtIn((), None, self._at_first, missing)
        for margin, with_times in PASSES:
            for chosen in self._in_order(margin, with_times=with_times)[:MOST_TRIED]:
                if not is_wanted():
                    return nearest
                factors = self._brought(chosen, margin)
                for fineness in (1.0, FINE):
                    reached = self._reached(chosen, factors, fineness)
                    if reached.edits:
                        return reached
                    nearest = min(nearest, reached, key=_missed)
        return nearest

    def _in_order(self, margin: float, *, with_times: bool) -> list[tuple[Lever, ...]]:
        """Return the sets of levers: those that by first sight get there, the gentlest first."""
        weighed = []
        for many in range(1, MOST_LEVERS + 1):
            for chosen in combinations(self._levers, many):
                times = sum(each.is_time for each in chosen)
                if times != with_times or any(a.overlaps(b) for a, b in combinations(chosen, 2)):
                    continue
                steps = self._projected(chosen, self._aims(margin), turns=AT_FIRST_SIGHT)
                left = self._left(chosen, steps)
                effort = sum(abs(each - 1.0) for each in steps.values())
                weighed.append(((round(left, 2), many, effort), chosen))
        return [chosen for _, chosen in sorted(weighed, key=lambda each: each[0])]

    def _left(self, chosen: Sequence[Lever], factors: Mapping[Lever, float]) -> float:
        """Return how far the ranges are missed after a step, by the slopes at the start."""
        values = {
            key: self._at_first[key]
            + sum(self._slopes[each][key] * (factors[each] - 1.0) for each in chosen)
            for key in self._asked
        }
        return sum(each.weight for each in misses(values, self._asked))

    def _brought(self, chosen: Sequence[Lever], margin: float) -> dict[Lever, float]:
        """Return by how much each lever is to be pulled: steps along slopes, till all hold."""
        aims = self._aims(margin)
        factors = self._projected(chosen, aims)
        for _ in range(TURNS):
            values = self._values(self._pulled(factors))
            if all(low <= values[key] <= high for key, (low, high) in aims.items()):
                break
            slopes = {each: self._slope(each, factors, values) for each in chosen}
            before, factors = (
                factors,
                self._projected(chosen, aims, _Point(factors, values, slopes)),
            )
            if all(abs(factors[each] - before[each]) < SETTLED for each in chosen):
                break
        return factors

    def _aims(self, margin: float) -> dict[str, tuple[float, float]]:
        return {
            key: (low + margin * (high - low), high - margin * (high - low))
            for key, (low, high) in self._asked.items()
        }

    def _projected(
        self,
        chosen: Sequence[Lever],
        aims: Asked,
        point: _Point | None = None,
        turns: int = PROJECTIONS,
    ) -> dict[Lever, float]:
        """Return the factors nearest to those of a point at which the aims hold, by its slopes."""
        if point is None:
            point = _Point(dict.fromkeys(chosen, 1.0), self._at_first, self._slopes)
        factors = {each: point.factors[each] for each in chosen}
        for _ in range(turns):
            moved = [_towards(key, aims[key], point, factors) for key in aims]
            if not any(moved):
                break
        return factors

    def _reached(
        self, chosen: Sequence[Lever], factors: Mapping[Lever, float], fineness: float
    ) -> BroughtIn:
        """Return what rounded amounts come to; edits only where all holds and nothing is grave."""
        changes = self._changes({each: factors[each] for each in chosen}, fineness)
        edits = tuple(edit for edit, _ in changes)
        after = _after(self._recipe, edits)
        values = self._values(after)
        missing = misses(values, self._asked)
        if missing or not edits:
            return BroughtIn((), None, values, missing)
        words = say("amounts-changed", "{changes}", changes=in_a_row([said for _, said in changes]))
        graver = self._graver(after)
        if graver is None:
            return BroughtIn(edits, words, values)
        return self._cured(graver, after, edits, words) or BroughtIn(
            (), None, values, graver=graver
        )

    def _graver(self, recipe: Recipe) -> Finding | None:
        """Return what is grave to watch out for and was not so before."""
        return next((each for each in _grave(recipe) if each.code not in self._grave), None)

    def _cured(
        self, graver: Finding, recipe: Recipe, edits: tuple[Edit, ...], changes: Message
    ) -> BroughtIn | None:
        """Return the same with the cure of what has become graver, if all holds then."""
        if graver.fix is None:
            return None
        after = graver.fix.apply(recipe)
        values = self._values(after)
        if misses(values, self._asked) or self._graver(after) is not None:
            return None
        both = say("amounts-and-cure", "{changes}. {cure}", changes=changes, cure=graver.fix.text)
        return BroughtIn((*edits, graver.fix), both, values)

    def _pulled(self, factors: Mapping[Lever, float]) -> Recipe:
        return _after(self._recipe, [edit for edit, _ in self._changes(factors, 0.0)])

    def _changes(
        self, factors: Mapping[Lever, float], fineness: float
    ) -> list[tuple[Edit, Message]]:
        """Return what pulled levers change, each with its words."""
        found = (
            change_of(self._recipe, lever, means, factor, fineness)
            for lever, factor in factors.items()
            for means in lever.means
        )
        return [each for each in found if each is not None]

    def _values(self, recipe: Recipe) -> dict[str, float]:
        day = day_of(recipe)
        return {key: float(BY_KEY[key].compute(day)) for key in self._asked}

    def _slope(
        self,
        lever: Lever,
        factors: Mapping[Lever, float] | None = None,
        values: Values | None = None,
    ) -> dict[str, float]:
        """Return how far each forecast goes for a lever pulled from nothing to all of it."""
        at = dict(factors) if factors is not None else {}
        now = at.get(lever, 1.0)
        at[lever] = now + A_LITTLE
        values, more = values or self._at_first, self._values(self._pulled(at))
        return {key: (more[key] - values[key]) / A_LITTLE for key in self._asked}


def _missed(found: BroughtIn) -> float:
    """How far it is off, to tell the nearest."""
    return sum(each.weight for each in found.missing)


def _after(recipe: Recipe, edits: Sequence[Edit]) -> Recipe:
    for edit in edits:
        recipe = edit.apply(recipe)
    return recipe


def _grave(recipe: Recipe) -> list[Finding]:
    """Return what is grave to watch out for."""
    return [each for each in _watched(recipe) if each.severity is not Severity.NOTE]


def _watched(recipe: Recipe) -> Sequence[Finding]:
    if is_planned(recipe):
        return planned_outlook(recipe, day_alone).findings
    return findings(recipe, day_of(recipe))
