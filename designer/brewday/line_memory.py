"""What the pot gets of a line is worked out once for as long as the line stays as it is.

A key changes one line of a recipe, and every run of the day asks for all of them: the plain one,
that of the samples, and those of cures. What a line gives depends on the line and a few words about
the day, so it is kept with the line itself, and with the tolerances that were noted on the way.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

from designer.brewday.tolerances import LatinHypercube, Nominal, Sampler, Tolerance

MOST_KEPT = 400
"""Lines of a long recipe, plain and as samples, and those of the last keys."""

Made = TypeVar("Made")


class _Kept(NamedTuple):
    """A line, for as long as which its id is its own, what was made of it, and its tolerances."""

    line: object
    about: tuple[object, ...]
    made: Any
    tolerances: dict[str, Tolerance]


_kept: dict[tuple[int, int], _Kept] = {}


def made_once(
    line: object, about: tuple[object, ...], sampler: Sampler, make: Callable[[Sampler], Made]
) -> Made:
    """Return what `make` makes of an unchanged line; `about` is all else that it looks at.

    What is returned is shared: it is not to be changed.
    """
    if type(sampler) is LatinHypercube:  # one that draws otherwise makes its own
        samples, tolerances = sampler.samples, sampler.tolerances
    elif type(sampler) is Nominal:
        samples, tolerances = 0, {}
    else:
        return make(sampler)
    key = (id(line), samples)
    found = _kept.get(key)
    if found is None or found.line is not line or found.about != about:
        noted = LatinHypercube(samples) if samples else Nominal()
        made = make(noted)
        found = _Kept(
            line, about, made, noted.tolerances if isinstance(noted, LatinHypercube) else {}
        )
        _keep(key, found)
    tolerances.update(found.tolerances)
    made_before: Made = found.made
    return made_before


def _keep(key: tuple[int, int], found: _Kept) -> None:
    """Keep it; the oldest go, and are worked out again if they are still asked for."""
    while len(_kept) >= MOST_KEPT and key not in _kept:
        _kept.pop(next(iter(_kept)), None)
    _kept[key] = found
