"""Quantities as a test types them, and a recipe that much is worked out for by hand."""

from dataclasses import replace
from pathlib import Path

import pytest

from designer.brewday.day import brew
from designer.recipe.quantity import Quantity

ONE_GRAIN_PORTER = Path(__file__).parent / "one_grain_porter.hobwort"
"""A small porter of two extracts and one grain, which fills its pot and its freezer."""


def q(value, unit=""):
    """Return a value in its base unit with the text that was typed: `q(6.5, "L")`."""
    return Quantity(float(value), f"{value:g} {unit}".strip())


def assert_no_half_gram_comes_nearer(recipe, wanted_ibu, number=0):
    """Of all amounts weighed to half a gram, that of this hop comes nearest to a bitterness."""
    hop = recipe.hops[number]

    def off(more_kg):
        other = replace(hop, amount=replace(hop.amount, value=hop.amount.value + more_kg))
        hops = (*recipe.hops[:number], other, *recipe.hops[number + 1 :])
        return abs(float(brew(replace(recipe, hops=hops)).beer.bitterness_ibu) - wanted_ibu)

    half_grams = 2000.0 * hop.amount.value
    assert half_grams == pytest.approx(round(half_grams), abs=1e-6)
    assert off(0.0) <= min(off(-0.0005), off(0.0005))
