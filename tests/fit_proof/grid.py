"""Larger pots and more buckets: `python -m tests.fit_proof.grid` looks through all of them.

A larger pot, or one more bucket, never makes the best way worse: it may be used as before.

Worse is in want of a vessel where nothing was wanting, else further from the beer of the recipe,
else with more to do. What a brewer has can only help him; no source but logic.
"""

import sys
from collections.abc import Iterator
from itertools import pairwise, product

from designer.brewday.fit.ways import ways
from tests.fit_proof.kitchens import Home
from tests.fit_proof.recipes import recipes

POTS_L = (4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 15.0, 20.0, 30.0)
CELLARS = ((8.0,), (12.0,), (12.0, 12.0), (25.0,))
BUCKET_POTS_L = (5.0, 7.0, 9.0, 12.0, 20.0)
BUCKETS = ((6.0,), (6.0, 10.0), (6.0, 10.0, 12.0), (6.0, 10.0, 12.0, 30.0))
TERMS = ({}, {"may_buy": False}, {"whole_packs": True}, {"may_buy": False, "whole_packs": True})


def best(name, home):
    """Return what the ways are ordered by, of the best one; the worst there is for none."""
    recipe = recipes()[name]
    found = ways(recipe, home.wish(recipe)).ways
    if not found:
        return True, float("inf"), 0, "nothing"
    way = found[0]
    return not way.in_hand, way.closeness, way.effort, way.key


def worse_with_a_larger_pot(name, fermenters_l, terms, pots_l=POTS_L) -> Iterator[str]:
    """Yield each step to a larger pot that makes the best way worse."""
    homes = [Home(pot_l, fermenters_l, **terms) for pot_l in pots_l]
    yield from _worse(name, homes)


def worse_with_more_buckets(name, pot_l, terms) -> Iterator[str]:
    """Yield each step to one more bucket that makes the best way worse."""
    yield from _worse(name, [Home(pot_l, buckets, **terms) for buckets in BUCKETS])


def _worse(name, homes):
    for (home, before), (more, after) in pairwise([(home, best(name, home)) for home in homes]):
        if after[:3] > before[:3]:
            yield f"{name}: {home} {before}, but {more} {after}"


def main() -> int:
    """Print every step that makes the best way worse."""
    found = []
    for name, terms in product(recipes(), TERMS):
        for fermenters_l in CELLARS:
            found += worse_with_a_larger_pot(name, fermenters_l, terms)
        for pot_l in BUCKET_POTS_L:
            found += worse_with_more_buckets(name, pot_l, terms)
    sys.stdout.write("\n".join([*found, f"{len(found)} steps make the best way worse", ""]))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
