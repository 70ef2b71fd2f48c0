"""What is counted of hidden ferments: bands that hold, beers called done too soon, stuck ones."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from designer.brewday.fermenting.course import Standing
from tests.beer_proof.hidden_ferments import Cellar

READ_AT = ((), (3,), (3, 6), (3, 6, 9), (4, 8, 11, 14))
AHEAD = (1.0, 3.0, 6.0)
TO_FALL_SG = 0.002


@dataclass(frozen=True)
class Held:
    """Of so many bands how many held what came."""

    held: int
    of: int
    width: float = 0.0

    @property
    def share(self) -> float:
        return self.held / max(self.of, 1)


def bands_that_hold(cellar: Cellar) -> dict[str, Held]:
    """Return by number of readings how often band and end hold the hidden beer."""
    found: dict[str, list[tuple[bool, float]]] = {}
    for at in range(cellar.count):
        for days in READ_AT:
            now = float(days[-1]) if days else 0.0
            told = cellar.told(at, [cellar.read(at, float(day)) for day in days], now)
            band = {each.day: each.gravity for each in told.course}
            for ahead in AHEAD:
                there = band[now + ahead]
                truth = cellar.gravity(at, now + ahead)
                key = f"{len(days)} readings, {ahead:.0f} days ahead"
                holds = there.low <= truth <= there.high
                found.setdefault(key, []).append((holds, there.high - there.low))
            end = told.ends_at
            holds = end.low <= cellar.end[at] <= end.high
            found.setdefault(f"{len(days)} readings, the end", []).append(
                (holds, end.high - end.low)
            )
    return {
        key: Held(sum(holds for holds, _ in all_), len(all_), sum(w for _, w in all_) / len(all_))
        for key, all_ in found.items()
    }


def called_done(cellar: Cellar) -> Counter[str]:
    """Return what is said to brewers who read every two or three days, and what was true.

    They begin on some day of the first two weeks and go on until the beer is called done.
    """
    found: Counter[str] = Counter()
    for at in range(cellar.count):
        day, readings = float(cellar.chance.integers(4, 14)), []
        apart = float(cellar.chance.integers(2, 4))
        while day < 45.0:
            readings.append(cellar.read(at, day))
            told = cellar.told(at, readings, day)
            left = cellar.gravity(at, day) - cellar.end[at]
            falls = left > TO_FALL_SG
            if len(readings) > 1:
                found["said while it falls" if falls else "said when over"] += 1
            if len(readings) == 2 and left < 0.0005:
                found["second reading, over"] += 1
                found["second reading, over, done"] += told.standing is Standing.DONE
                found["second reading, over, stuck"] += told.standing is Standing.STUCK
            if told.standing is Standing.DONE:
                found["done too soon" if falls else "done"] += 1
                most = told.may_fall[1]
                found["fell by more than may fall"] += int(left > most)
                found["fell by half a point more"] += int(left > most + 0.0005)
                break
            day += apart
        else:
            found["never done"] += 1
    return found


def told_stuck(cellar: Cellar) -> Held:
    """Return how often stuck beers are told by two readings three days apart."""
    told = 0
    for at in range(cellar.count):
        first = float(cellar.chance.integers(8, 14))
        while cellar.left[round(first / 0.02), at] > 0.02:
            first += 1.0
        readings = [cellar.read(at, first), cellar.read(at, first + 3.0)]
        told += cellar.told(at, readings, first + 3.0).standing is Standing.STUCK
    return Held(told, cellar.count)
