"""What a day says would be read, at any place of it, of things that are no forecast too.

The range is that of what is there to be read; the reading's own error comes on top of it.
"""

from __future__ import annotations

from typing import Protocol

from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.readings import Measured
from designer.brewday.results import Outlook, Range


class Readable(Protocol):
    """What is to be read and where: a blank, or a reading."""

    @property
    def what(self) -> Measured:
        """What is read."""

    @property
    def boil(self) -> int:
        """Of which boil, counted from 1."""

    @property
    def fermenter(self) -> int:
        """Of which fermenter, counted from 1."""

    @property
    def left_min(self) -> float | None:
        """Minutes left of the boil."""


_MOST_KEPT = 4
_kept: dict[int, tuple[Outlook, KnownDay]] = {}


def expected(outlook: Outlook, readable: Readable) -> Range:
    """Return what is there to be read by an outlook: the value, and from what to what it may be.

    Raises KeyError for what no day tells: alpha acid and weights.
    """
    if outlook.expects is not None:
        return outlook.expects(readable)
    known = _kept.get(id(outlook))
    if known is None or known[0] is not outlook:
        assert outlook.recipe is not None, "an outlook of a recipe"
        known = outlook, KnownDay(outlook.recipe)
        while len(_kept) >= _MOST_KEPT:
            _kept.pop(next(iter(_kept)), None)
        _kept[id(outlook)] = known
    return known[1].expected(readable.what, readable.left_min)
