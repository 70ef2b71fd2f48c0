"""Seeking on a grid: amounts and volumes are whole steps of what a kitchen measures.

What is sought rises steadily with the number of steps, so a bracket closes on the last step that
passes. Straight-line guesses close it in a few tries; every third try halves it, so that no curve
can hold it up.
"""

from __future__ import annotations

from collections.abc import Callable


def last_that_passes(excess: Callable[[int], float], low: int, high: int) -> int | None:
    """Return the largest whole number from `low` to `high` with `excess` not above zero.

    `excess` must not fall as its argument rises. None where even `low` is too much.
    """
    if high < low:
        return None
    at_high = excess(high)
    if at_high <= 0.0:
        return high
    at_low = excess(low) if high > low else at_high
    if at_low > 0.0:
        return None
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


def nearest(value: Callable[[int], float], wanted: float, low: int, high: int) -> int:
    """Return the whole number at which a rising `value` is nearest to `wanted`."""
    last = last_that_passes(lambda n: value(n) - wanted, low, high)
    if last is None:
        return low
    if last == high:
        return high
    below, above = wanted - value(last), value(last + 1) - wanted
    return last if below <= above else last + 1
