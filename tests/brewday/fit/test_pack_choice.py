"""Packs chosen by branch and bound, against trying every choice."""

from dataclasses import dataclass
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from designer.brewday.fit.pack_choice import (
    BALANCE_WEIGHT,
    Packs,
    Want,
    enough_packs,
    nearest_packs,
    sizes_of,
)
from designer.recipe.quantity import Quantity

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


def deviation(wants, totals_kg):
    """Return how far totals are from what is wanted, in kilograms of extract, as is documented."""
    off = [
        (total - want.kg) * want.extract_fraction
        for want, total in zip(wants, totals_kg, strict=True)
    ]
    return abs(sum(off)) + BALANCE_WEIGHT * sum(abs(each) for each in off)


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


def test_a_line_that_is_not_sold_in_packs_gets_none():
    assert enough_packs(1.0, ()) is None
    [none, some] = nearest_packs([Want(1.0, 0.8, ()), Want(1.0, 0.9, (0.5,))])
    assert none.counts == ()
    assert some.total_kg >= 1.0


def q(kg):
    return Quantity(float(kg), f"{kg} kg")


@dataclass(frozen=True)
class Pack:
    kind: str
    mass_kg: float


def counts(packs):
    return dict(zip(packs.sizes_kg, packs.counts, strict=True))


def test_what_packs_hold_and_leave_is_counted_to_a_tenth_of_a_gram():
    packs = Packs((1.7, 0.1), (1, 2), 1.85)
    assert packs.total_kg == 1.9
    assert packs.left_kg == 0.05
    assert Packs((0.5,), (1,), 0.6).left_kg == -0.1


def test_for_nothing_no_pack_is_bought():
    assert enough_packs(0.0, [1.0, 0.5]).counts == (0, 0)
    assert enough_packs(-1.0, [1.0]).counts == (0,)


def test_without_a_size_there_is_no_choice_and_sizes_of_nothing_are_passed_over():
    assert enough_packs(1.0, [0.0]) is None
    assert enough_packs(1.0, [0.0, 0.5, 0.5]).sizes_kg == (0.5,)
    assert counts(enough_packs(1.0, [0.0, 0.5])) == {0.5: 2}


def test_a_pack_of_just_the_weight_is_enough():
    assert counts(enough_packs(0.5, [0.5])) == {0.5: 1}
    assert counts(enough_packs(0.5001, [0.5])) == {0.5: 2}
    assert counts(enough_packs(0.50004, [0.5])) == {0.5: 1}  # no scale shows it


def test_the_largest_pack_is_named_first():
    assert enough_packs(1.5, [0.5, 1.0, 0.25]).sizes_kg == (1.0, 0.5, 0.25)
    assert nearest_packs([Want(1.5, 1.0, (0.5, 1.0))])[0].counts == (1, 1)


def test_the_least_is_left_over_and_then_the_fewest_packs_are_taken():
    assert counts(enough_packs(1.5, [1.0, 0.5])) == {1.0: 1, 0.5: 1}
    assert counts(enough_packs(3.0, [1.5, 1.0])) == {1.5: 2, 1.0: 0}
    assert counts(enough_packs(0.9, [1.0, 0.3])) == {1.0: 0, 0.3: 3}
    assert counts(enough_packs(1.1, [1.0, 0.6])) == {1.0: 0, 0.6: 2}
    assert counts(enough_packs(2.0, [1.0, 0.7, 0.6])) == {1.0: 2, 0.7: 0, 0.6: 0}
    assert counts(enough_packs(2.1, [1.5, 0.7, 0.6])) == {1.5: 1, 0.7: 0, 0.6: 1}


def test_a_whole_sack_is_opened_by_the_smallest_packs_where_that_leaves_nothing():
    assert counts(enough_packs(0.2, [0.5, 0.4, 0.1])) == {0.5: 0, 0.4: 0, 0.1: 2}
    found = enough_packs(0.123, [0.05, 0.01, 0.001])
    assert found.left_kg == 0.0
    assert counts(found) == {0.05: 2, 0.01: 2, 0.001: 3}


def test_the_nearest_may_be_more_or_less_than_is_wanted():
    [less] = nearest_packs([Want(1.1, 1.0, (1.0,))])
    [more] = nearest_packs([Want(1.6, 1.0, (1.0,))])
    assert (less.total_kg, more.total_kg) == (1.0, 2.0)
    [none] = nearest_packs([Want(0.4, 1.0, (1.0,))])
    assert none.counts == (0,)


def test_one_line_may_make_up_for_what_another_lacks():
    """Together 2 kg of extract are wanted: a kilogram and a half with half a kilogram."""
    big, small = nearest_packs([Want(1.3, 1.0, (1.5,)), Want(0.7, 1.0, (0.5,))])
    assert (big.total_kg, small.total_kg) == (1.5, 0.5)
    syrup, dry = nearest_packs([Want(1.0, 0.5, (0.6,)), Want(1.0, 1.0, (0.9, 0.5))])
    assert (syrup.total_kg, dry.total_kg) == (1.2, 0.9)  # 0.1 kg of extract more and 0.1 kg less
    wants = [Want(1.0, 0.5, ()), Want(1.0, 1.0, ())]
    assert deviation(wants, [1.2, 0.9]) == pytest.approx(0.1)


def test_of_choices_as_near_the_one_of_fewest_packs_is_taken():
    [found] = nearest_packs([Want(2.0, 1.0, (1.0, 0.5, 2.0))])
    assert counts(found) == {2.0: 1, 1.0: 0, 0.5: 0}
    [tie] = nearest_packs([Want(1.5, 1.0, (1.0,))])
    assert tie.counts == (1,)


def test_a_line_without_sizes_is_as_it_is_wanted():
    one, two = nearest_packs([Want(1.0, 0.8, ()), Want(0.9, 1.0, (0.0, 1.0))])
    assert (one.sizes_kg, one.counts, one.left_kg) == ((), (), -1.0)
    assert two.sizes_kg == (1.0,)
    assert nearest_packs([]) == ()


def test_a_want_of_hardly_any_extract_is_still_found():
    [found] = nearest_packs([Want(0.5, 0.0, (0.5,))])
    assert found.total_kg in (0.0, 0.5)


def test_sizes_are_those_of_the_kind():
    shop = [Pack("sugar", 1.0), Pack("hops", 0.1), Pack("sugar", 0.5)]
    assert sizes_of("sugar", shop) == (1.0, 0.5)
    assert sizes_of("yeast", shop) == ()


def test_tons_are_counted_in_the_largest_packs_and_what_is_over_as_closely_as_ever():
    """A recipe may hold ten tons of a line; trying all packs for it would fill any memory."""
    found = enough_packs(10_000.0303, (1.4969, 0.5, 0.025))
    assert found.total_kg >= 10_000.0303
    assert found.left_kg < 0.025
    assert found.counts[0] > 6_600
