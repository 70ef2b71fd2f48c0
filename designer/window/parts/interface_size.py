"""How large everything is drawn, beside the scale that the desktop asks for.

Qt takes a scale for a whole program once, as it starts; so another size is drawn from the next
start on, or when the window opens anew.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

from designer.preferences_file import preferences

SIZES = (75, 90, 100, 110, 125, 150, 175, 200)
"""In per cent."""
USUAL = 100
_VARIABLE = "QT_SCALE_FACTOR"
_drawn = USUAL


def size_of(word: str) -> int:
    """Return the size that a preference names; the usual one for any other word."""
    return int(word) if word in map(str, SIZES) else USUAL


def drawn_size() -> int:
    """Return the size in which this program is drawn, per cent."""
    return _drawn


@contextmanager
def drawn_as_wanted() -> Iterator[None]:
    """Let a Qt application that is made within have the size that was chosen.

    The variable that tells Qt stays as it was for programs that this one begins.
    """
    global _drawn
    _drawn = size_of(preferences().get("size", ""))
    given = os.environ.get(_VARIABLE)
    if _drawn == USUAL:
        yield
        return
    os.environ[_VARIABLE] = str(_factor(given) * _drawn / 100)
    try:
        yield
    finally:
        if given is None:
            del os.environ[_VARIABLE]
        else:
            os.environ[_VARIABLE] = given


def _factor(given: str | None) -> float:
    try:
        return float(given or 1.0)
    except ValueError:
        return 1.0


def largest_on(width: int, height: int, least: tuple[int, int]) -> int:
    """Return the largest size in which a window of the least size has room.

    `width` and `height` are what the screen has as it is drawn now.
    """
    room = min(width / least[0], height / least[1]) * _drawn
    return max((each for each in SIZES if each <= room), default=USUAL)


def next_size(now: int, step: int, largest: int) -> int:
    """Return the next larger size for a step of 1, the next smaller one for -1."""
    others = [each for each in SIZES if (each - now) * step > 0 and each <= max(largest, now)]
    return min(others, key=lambda each: abs(each - now), default=now)
