"""The fewest whole steps of what is ahead after which forecasts lie nearest to those of the plan.

How far a step of each lever moves each forecast is read off the day, run with some steps of it. On
those slopes the best steps of one, two and three levers are found one after another; the day is run
there, and the steps are mended by what it really gave, till they stand. What is found is told by
the day alone.

A miss is weighed by the plan's own band: at its edge it counts 1, and more steeply beyond. What is
changed counts too: the more, the further it is from the recipe.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from designer.brewday.results import Range

Values = Mapping[str, float]
Steps = tuple[int, ...]
OUTSIDE = 8.0
"""How much more a miss counts beyond the edge of the band."""
LEFT = 0.3
"""How much it counts that the band is left at all."""
EDGE = 0.8
"""So near to the edge of the band a forecast is led away from it."""
MOST_LEVERS = 3
ANOTHER = 0.04
"""What one more thing to change has to gain: a fifth of the way from the middle to the edge."""
TURNS, PASSES, TRIED = 3, 8, 4


def off_by(value: float, own: Range, least: float) -> float:
    """Return how far a forecast lies from the plan's own, in half widths of the plan's band.

    No half is taken narrower than what nobody can tell, the `least`.
    """
    half = own.high - own.value if value > own.value else own.value - own.low
    return (value - own.value) / max(half, least)


@dataclass(frozen=True, slots=True)
class Found:
    """The steps of each lever, the forecasts that the day then gives, and what they cost."""

    steps: Steps
    values: Values
    cost: float


class Search:
    """Seeks through the day: `values_at` runs it with so many steps of each lever."""

    def __init__(
        self,
        values_at: Callable[[Steps], Values],
        ends: Sequence[tuple[int, int]],
        cost: Callable[[Values], float],
        effort: Callable[[int, int], float],
    ) -> None:
        self._run, self._ends, self._cost, self._effort_of = values_at, ends, cost, effort
        self._known: dict[Steps, Values] = {}
        self._none = (0,) * len(ends)
        self.at_first = self._values(self._none)
        self._slopes = [self._slope(place) for place in range(len(ends))]

    def _values(self, steps: Steps) -> Values:
        if steps not in self._known:
            self._known[steps] = self._run(steps)
        return self._known[steps]

    def _slope(self, place: int) -> Values:
        low, high = self._ends[place]
        far = max(high // 4, 1) if high else min(low // 4, -1)
        there = self._values((*self._none[:place], far, *self._none[place + 1 :]))
        return {key: (there[key] - value) / far for key, value in self.at_first.items()}

    def best(self) -> list[Found]:
        """Return what is worth trying, the best first; nothing at all is the last of them."""
        nothing = Found(self._none, self.at_first, self._cost(self.at_first))
        places = [place for place, (low, high) in enumerate(self._ends) if low or high]
        sets = [
            chosen for many in range(1, MOST_LEVERS + 1) for chosen in combinations(places, many)
        ]
        sighted = sorted(sets, key=lambda each: self._sighted(each)[0])[:TRIED]
        found = {each.steps: each for each in map(self._mended, sighted)}
        ranked = sorted(found.values(), key=self._whole)
        return [each for each in ranked if any(each.steps)] + [nothing]

    def _whole(self, found: Found) -> float:
        return found.cost + self._effort(found.steps)

    def _effort(self, steps: Steps) -> float:
        return sum(ANOTHER + self._effort_of(at, each) for at, each in enumerate(steps) if each)

    def _sighted(self, chosen: tuple[int, ...]) -> tuple[float, Steps]:
        steps = self._on_slopes(chosen, self._none, self.at_first)
        values = self._straight(steps, self._none, self.at_first)
        return self._cost(values) + self._effort(steps), steps

    def _straight(self, steps: Steps, from_: Steps, values: Values) -> Values:
        moved = dict(values)
        for place, (now, before) in enumerate(zip(steps, from_, strict=True)):
            if now != before:
                for key, slope in self._slopes[place].items():
                    moved[key] += (now - before) * slope
        return moved

    def _on_slopes(self, chosen: tuple[int, ...], from_: Steps, values: Values) -> Steps:
        """Return the best steps on straight lines through what the day gave at `from_`."""
        steps = list(from_)
        for _ in range(PASSES):
            before = tuple(steps)
            for place in chosen:

                def cost(n: int, place: int = place) -> float:
                    there = (*steps[:place], n, *steps[place + 1 :])
                    straight = self._cost(self._straight(there, from_, values))
                    return straight + self._effort(there)

                steps[place] = _lowest(cost, *self._ends[place])
            if tuple(steps) == before:
                break
        return tuple(steps)

    def _mended(self, chosen: tuple[int, ...]) -> Found:
        """Run the day at the best steps by sight, and mend them by what it gave."""
        best, at = None, self._sighted(chosen)[1]
        for _ in range(TURNS):
            values = self._values(at)
            found = Found(at, values, self._cost(values))
            if best is None or self._whole(found) < self._whole(best):
                best = found
            after = self._on_slopes(chosen, at, values)
            if after == at:
                break
            at = after
        assert best is not None
        return best


def _lowest(cost: Callable[[int], float], low: int, high: int) -> int:
    """Return where a cost that falls and then rises is lowest, but for a dip at nought."""
    nought = 0 if low <= 0 <= high else low
    while high - low > 2:
        third = (high - low) // 3
        left, right = low + third, high - third
        if cost(left) <= cost(right):
            high = right
        else:
            low = left
    steps: list[int] = [*range(low, high + 1), nought]
    return min(steps, key=cost)
