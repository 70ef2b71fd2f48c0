"""Packs chosen by branch and bound, against trying every choice."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from designer.brewday.fit.pack_choice import (
    BALANCE_WEIGHT,
    Want,
    deviation,
    enough_packs,
    nearest_packs,
    shopping,
)
from designer.library.packs import packs

SIZES = st.lists(st.sampled_from([0.25, 0.5, 1.0, 1.5, 1.7, 3.0]), min_size=1, max_size=3)
KILOGRAMS = st.integers(0, 700).map(lambda n: n / 100)


def brute_enough(wanted, sizes):
    """Every choice of up to so many of each as alone would do."""
    sizes = sorted(set(sizes), reverse=True)
    found = []
    for counts in product(*(range(int(wanted / size) + 2) for size in sizes)):
        tenths = sum(round(10_000 * s) * n for s, n in zip(sizes, counts, strict=True))
        if tenths >= round(10_000 * wanted):
            found.append((tenths - round(10_000 * wanted), sum(counts)))
    return min(found)


@given(KILOGRAMS, SIZES)
@settings(max_examples=150, deadline=None)
def test_enough_packs_leave_the_least_and_are_the_fewest(wanted, sizes):
    chosen = enough_packs(wanted, sizes)
    least, fewest = brute_enough(wanted, sizes)
    assert round(10_000 * chosen.left_kg) == least
    assert sum(chosen.counts) == fewest


def brute_nearest(wants):
    """Every choice of up to eight packs of each size for every line."""
    options = []
    for want in wants:
        sizes = sorted(set(want.sizes_kg), reverse=True)
        most = [int(8.5 / size) + 1 for size in sizes]
        totals = {}
        for counts in product(*(range(n + 1) for n in most)):
            total = sum(s * n for s, n in zip(sizes, counts, strict=True))
            fewest = totals.get(round(total, 4))
            totals[round(total, 4)] = sum(counts) if fewest is None else min(fewest, sum(counts))
        options.append(sorted(totals.items()))
    return min(
        (round(deviation(wants, [total for total, _ in choice]), 9), sum(n for _, n in choice))
        for choice in product(*options)
    )


WANTS = st.lists(
    st.builds(
        Want,
        st.integers(0, 300).map(lambda n: n / 100),
        st.sampled_from([0.8, 0.95, 1.0]),
        st.lists(st.sampled_from([0.5, 1.0, 1.5, 3.0]), min_size=1, max_size=2).map(tuple),
    ),
    min_size=1,
    max_size=3,
)


@given(WANTS)
@settings(max_examples=60, deadline=None)
def test_whole_packs_for_a_bill_deviate_the_least_of_all_choices(wants):
    chosen = nearest_packs(wants)
    least, fewest = brute_nearest(wants)
    found = deviation(wants, [each.total_kg for each in chosen])
    assert found == pytest.approx(least, abs=1e-8)
    assert sum(sum(each.counts) for each in chosen) <= fewest


def test_the_deviation_counts_all_extract_in_full_and_each_line_by_half():
    wants = [Want(1.0, 0.8, (1.5,)), Want(0.5, 1.0, (0.5,))]
    off = 0.5 * 0.8
    assert deviation(wants, [1.5, 0.5]) == pytest.approx(off + BALANCE_WEIGHT * off)
    assert deviation(wants, [1.0, 0.5]) == 0.0


def test_a_line_that_is_not_sold_in_packs_gets_none():
    assert enough_packs(1.0, ()) is None
    [none, some] = nearest_packs([Want(1.0, 0.8, ()), Want(1.0, 0.9, (0.5,))])
    assert none.counts == ()
    assert some.total_kg >= 1.0


def test_shopping_counts_one_product_once_and_tells_what_is_left(slipway_bitter):
    found = {each.name: each for each in shopping(slipway_bitter, packs("metric"))}
    goldings = [hop for hop in slipway_bitter.hops if hop.name == "East Kent Golding"]
    assert len(goldings) == 2
    grams = sum(hop.amount.value for hop in goldings)
    bought = found["East Kent Golding"].packs
    assert bought.total_kg >= grams
    assert bought.left_kg == pytest.approx(bought.total_kg - grams)
