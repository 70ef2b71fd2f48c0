"""What a day says would be read, at any place of it, of things that are no forecast too.

The range is that of what is there to be read; the reading's own error comes on top of it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.known_plan import KnownPlan
from designer.brewday.measured.readings import By, Measured, Readable, Reading
from designer.brewday.measured.sampled_wort import SampledWort
from designer.brewday.results import Outlook, Range
from designer.recipe.plan import is_planned

_MOST_KEPT = 4
WATER = Reading(Measured.WATER_IN, 0.0, By.MARK)
"""What every day tells."""


class _Tells(NamedTuple):
    """What an outlook without readings is asked."""

    expected: Callable[[Readable], Range]
    wort_in: Callable[[int], SampledWort]


_kept: dict[int, tuple[Outlook, _Tells]] = {}


def expected(outlook: Outlook, readable: Readable) -> Range:
    """Return what is there to be read by an outlook: the value, and from what to what it may be.

    Of a fermenter that several boils fill, what comes into it is told of the boil that is named,
    and the mark to which it is topped up then of all that is in it.
    Raises KeyError for what no day tells: alpha acid and weights.
    """
    if outlook.expects is not None:
        return outlook.expects(readable)
    return _known(outlook).expected(readable)


def wort_in(outlook: Outlook, fermenter: int = 1) -> SampledWort:
    """Return the wort that an outlook says is in a fermenter, in each of its samples."""
    if outlook.wort_in is not None:
        found: SampledWort = outlook.wort_in(fermenter)
        return found
    return _known(outlook).wort_in(fermenter)


def get_ready(outlook: Outlook) -> None:
    """Run now what `expected` needs of an outlook, so that nobody who reads waits for it."""
    expected(outlook, WATER)


def _known(outlook: Outlook) -> _Tells:
    """Return what tells of an outlook, made once of each."""
    known = _kept.get(id(outlook))
    if known is None or known[0] is not outlook:
        assert outlook.recipe is not None, "an outlook of a recipe"
        recipe = outlook.recipe
        if is_planned(recipe):
            plan = KnownPlan(recipe)
            known = outlook, _Tells(plan.expected, plan.wort_in)
        else:
            day = KnownDay(recipe)
            known = outlook, _Tells(day.expects, day.wort_in)
        for oldest in list(_kept)[: 1 - _MOST_KEPT]:  # the last few stay
            _kept.pop(oldest, None)
        _kept[id(outlook)] = known
    return known[1]
