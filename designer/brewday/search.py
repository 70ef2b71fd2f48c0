"""Every search through the day: for a whole number of steps, for the least, for a root.

Amounts and volumes are whole steps of what a kitchen measures. Where what is sought rises steadily
with the number of steps, a bracket closes on the last step that passes: straight-line guesses close
it in a few tries, and every third try halves it, so that no curve can hold it up. Where it falls
and then rises, coarse steps find the valley and finer ones its bottom. What is not in steps is
sought by regula falsi with the Illinois step (Dowell and Jarratt, BIT 11, 1971).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

MOST_TRIES = 60
Measure = TypeVar("Measure", float, "tuple[float, float]")
"""What is the less the better: one figure, or two of which the second decides among equals."""


def last_that_passes(
    excess: Callable[[int], float], low: int, high: int, near: tuple[int, int] | None = None
) -> int | None:
    """Return the largest whole number from `low` to `high` with `excess` not above zero.

    `excess` must not fall as its argument rises. None where even `low` is too much. `near` is where
    the answer probably lies, which is looked at first.
    """
    if high < low:
        return None
    if near is not None:
        first, last = max(near[0], low), min(near[1], high)
        if low <= first < last <= high and (first, last) != (low, high):
            return _from_near(excess, (low, first, last, high))
    at_high = excess(high)
    if at_high <= 0.0:
        return high
    at_low = excess(low) if high > low else at_high
    if at_low > 0.0:
        return None
    return _closed(excess, low, high, at_low, at_high)


def first_that_passes(
    excess: Callable[[int], float], low: int, high: int, near: tuple[int, int] | None = None
) -> int | None:
    """Return the smallest whole number from `low` to `high` with `excess` not above zero.

    `excess` must not rise with its argument. None where even `high` is too much.
    """
    mirrored = near and (-near[1], -near[0])
    found = last_that_passes(lambda n: excess(-n), -high, -low, mirrored)
    return None if found is None else -found


def _from_near(excess: Callable[[int], float], ends: tuple[int, int, int, int]) -> int | None:
    low, first, last, high = ends
    at_last = excess(last)
    if at_last <= 0.0:
        return last if last == high else last_that_passes(excess, last, high)
    at_first = excess(first)
    if at_first > 0.0:
        return None if first == low else last_that_passes(excess, low, first - 1)
    return _closed(excess, first, last, at_first, at_last)


def _closed(
    excess: Callable[[int], float], low: int, high: int, at_low: float, at_high: float
) -> int:
    """Close a bracket: `low` passes and `high` does not."""
    tries = 0
    while high - low > 1:
        tries += 1
        share = 0.5 if tries % 3 == 0 else -at_low / (at_high - at_low)
        middle = min(max(low + int(share * (high - low)), low + 1), high - 1)
        found = excess(middle)
        if found <= 0.0:
            low, at_low = middle, found
        else:
            high, at_high = middle, found
    return low


def nearest(
    value: Callable[[int], float],
    wanted: float,
    low: int,
    high: int,
    near: tuple[int, int] | None = None,
) -> int:
    """Return the whole number at which a rising `value` is nearest to `wanted`."""
    known: dict[int, float] = {}

    def excess(n: int) -> float:
        if n not in known:
            known[n] = value(n) - wanted
        return known[n]

    last = last_that_passes(excess, low, high, near)
    if last is None:
        return low
    if last == high:
        return high
    return last if -excess(last) <= excess(last + 1) else last + 1


def least(value: Callable[[int], Measure], low: int, high: int, coarse: int) -> int:
    """Return the whole number from `low` to `high` with the least `value`, the highest of equals.

    It is looked for in `coarse` steps down from `high`, then in finer ones about the best. `value`
    is asked for more than once; `high` is the answer where there is none below it.
    """
    if high < low:
        return high
    step = max(coarse, 1)
    best = min(range(high, low - 1, -step), key=value)
    while step > 1:
        step = max(step // 3, 1)
        near = [best + n * step for n in (2, 1, 0, -1, -2)]
        best = min((each for each in near if low <= each <= high), key=value)
    return best


def root(
    value: Callable[[float], float],
    wanted: float,
    first: tuple[float, float],
    last: tuple[float, float],
    close: float,
) -> float:
    """Return where `value` comes as `close` to `wanted`, between two points that bracket it."""
    (a, fa), (b, fb) = (first[0], first[1] - wanted), (last[0], last[1] - wanted)
    if abs(fa) <= close:
        return a
    if abs(fb) <= close:
        return b
    middle = a
    for _ in range(MOST_TRIES):
        middle = b - fb * (b - a) / (fb - fa)
        found = value(middle) - wanted
        if abs(found) <= close:
            break
        if (found > 0.0) == (fb > 0.0):
            fa /= 2.0  # the Illinois step: the end that stays counts half
        else:
            a, fa = b, fb
        b, fb = middle, found
    return middle
