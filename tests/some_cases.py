"""Of large tables of cases a share is tried at each run, spread evenly; all where that is asked."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TypeVar

Case = TypeVar("Case")

EVERY_CASE = bool(os.environ.get("HOBWORT_EVERY_CASE"))
"""Whether all cases of all tables are wanted: `sh packaging/test.sh --all` does."""


def one_in(count: int, place: int) -> bool:
    """Whether a case is tried: one in so many by its place, the sum of those on all sides of its
    table, so that every row and every column keeps its share."""
    return EVERY_CASE or place % count == 0


def some_of(cases: Sequence[Case], count: int, begin: int = 0) -> list[Case]:
    """Return one case in so many, counted from the place `begin`."""
    return [each for place, each in enumerate(cases) if one_in(count, place + begin)]
