"""What a brewer has more of never makes the best way worse; the whole grid is a command."""

import pytest

from tests.fit_proof import grid
from tests.fit_proof.recipes import recipes
from tests.some_cases import some_of

POTS_L = (5.0, 7.0, 9.0, 12.0, 20.0)
NAMES = tuple(recipes())
TERMS = {name: grid.TERMS[place % len(grid.TERMS)] for place, name in enumerate(NAMES)}
CELLARS = {name: grid.CELLARS[place % len(grid.CELLARS)] for place, name in enumerate(NAMES, 1)}


@pytest.mark.parametrize("name", some_of(NAMES, 2))
def test_a_larger_pot_never_makes_the_best_way_worse(name):
    worse = grid.worse_with_a_larger_pot(name, CELLARS[name], TERMS[name], POTS_L)
    assert list(worse) == []


@pytest.mark.parametrize("name", some_of(NAMES, 2, 1))
def test_one_more_bucket_never_makes_the_best_way_worse(name):
    assert list(grid.worse_with_more_buckets(name, 9.0, TERMS[name])) == []


def test_whole_packs_are_no_further_off_in_a_larger_pot():
    """Their hops follow the volume: in a fuller pot they gave too much."""
    terms = {"may_buy": False, "whole_packs": True}
    for name, fermenters_l in (("Lighthouse Gold", (12.0,)), ("Harbour Lamp Porter", (8.0,))):
        worse = grid.worse_with_a_larger_pot(name, fermenters_l, terms, (6.0, 8.0, 9.0, 12.0, 20.0))
        assert list(worse) == []
    assert list(grid.worse_with_more_buckets("Lighthouse Gold", 7.0, terms)) == []


def test_a_kitchen_that_has_less_would_be_told(monkeypatch):
    """Read the other way round the same kitchens get worse."""
    monkeypatch.setattr(grid, "BUCKETS", tuple(reversed(grid.BUCKETS)))
    assert list(grid.worse_with_more_buckets("Quay Pale", 9.0, {"may_buy": False}))
    backwards = tuple(reversed(POTS_L))
    assert list(grid.worse_with_a_larger_pot("Quay Pale", (25.0,), {}, backwards))
