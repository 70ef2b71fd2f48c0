"""Searches: as good as trying every step, in few looks, right wherever one looks first."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.brewday.search import first_that_passes, last_that_passes, least, nearest, root

RISING = st.lists(st.floats(-50, 50), min_size=1, max_size=60).map(sorted)


class Counted:
    """A rising function of whole numbers that remembers where it was looked at."""

    def __init__(self, excess):
        self.excess, self.looked = excess, []

    def __call__(self, n):
        self.looked.append(n)
        return self.excess(n)


def all_searches(high):
    """Every range up to `high`, every step the answer may lie at, everywhere one may look first."""
    for low, edge in product(range(high + 1), range(-1, high + 2)):
        for near in product(range(-1, high + 2), repeat=2):
            yield low, edge, near


def test_wherever_one_looks_first_the_answer_is_the_same():
    """`near` may be wrong, empty, or beyond the range: it only saves looks."""
    for high in range(6):
        for low, edge, near in all_searches(high):
            asked = Counted(lambda n, edge=edge: n - edge + 0.25 if n > edge else n - edge - 0.25)
            found = last_that_passes(asked, low, high, near)
            assert found == (min(edge, high) if edge >= low else None), (low, high, edge, near)
            assert all(low <= n <= high for n in asked.looked)


def test_the_first_that_passes_is_found_wherever_one_looks_first():
    for high in range(6):
        for low, edge, near in all_searches(high):
            falling = Counted(lambda n, edge=edge: float(edge - n) if n < edge else edge - n - 0.25)
            found = first_that_passes(falling, low, high, near)
            assert found == (max(edge, low) if edge <= high >= low else None), (low, high, edge)
            assert all(low <= n <= high for n in falling.looked)


def test_the_nearest_is_as_near_as_any_wherever_one_looks_first():
    for high in range(6):
        for low, edge, near in all_searches(high):
            for wanted in (10.0 * edge + 4.0, 10.0 * edge + 6.0):
                found = nearest(lambda n: 10.0 * n, wanted, low, high, near)
                best = min(range(low, high + 1), key=lambda n: abs(10.0 * n - wanted))
                assert found == best, (low, high, wanted, near)


def test_looking_first_where_the_answer_lies_saves_looks_to_the_nearest_too():
    curve, guessed = (Counted(lambda n: float(n**3)) for _ in range(2))
    assert nearest(curve, 500.2**3, 0, 1000) == 500
    assert nearest(guessed, 500.2**3, 0, 1000, (495, 505)) == 500
    assert len(guessed.looked) < len(curve.looked)


def test_the_nearest_is_sought_from_the_low_end_on():
    assert nearest(lambda n: 10.0 * n, 0.0, 3, 9) == 3
    assert nearest(lambda n: 10.0 * n, 47.0, 3, 9) == 5
    assert nearest(lambda n: 10.0 * n, 999.0, 3, 9) == 9
    assert nearest(lambda n: 10.0 * n, 30.0, 3, 9) == 3


def test_of_two_as_near_the_lesser_amount_is_taken():
    assert nearest(lambda n: float(n), 4.5, 0, 9) == 4


def test_nothing_is_looked_at_twice():
    """Each look brews a day."""
    for wanted in (0.0, 17.0, 49.7, 99.0, 200.0):
        asked = Counted(lambda n: 1.5 * n)
        nearest(asked, wanted, 0, 100, (30, 40))
        assert len(asked.looked) == len(set(asked.looked))


def test_what_fits_whole_is_looked_at_once():
    asked = Counted(lambda n: -1.0)
    assert last_that_passes(asked, 0, 1000) == 1000
    assert asked.looked == [1000]


def test_where_even_the_least_is_too_much_two_looks_tell():
    asked = Counted(lambda n: 1.0)
    assert last_that_passes(asked, 0, 1000) is None
    assert len(asked.looked) == 2
    single = Counted(lambda n: 1.0)
    assert last_that_passes(single, 7, 7) is None
    assert single.looked == [7]


def test_a_straight_line_is_closed_in_a_few_looks():
    """The first guess is exact but for the step, the next but one closes the bracket."""
    asked = Counted(lambda n: n - 700.5)
    assert last_that_passes(asked, 0, 1000) == 700
    assert len(asked.looked) <= 6


def test_a_good_guess_saves_looks():
    curve = Counted(lambda n: n**3 - 500.5**3)
    assert last_that_passes(curve, 0, 1000) == 500
    guessed = Counted(lambda n: n**3 - 500.5**3)
    assert last_that_passes(guessed, 0, 1000, (495, 505)) == 500
    assert len(guessed.looked) < len(curve.looked)
    assert all(495 <= n <= 505 for n in guessed.looked)


@pytest.mark.parametrize("bend", [1.0005, 1.01, 1.1])
def test_no_curve_needs_many_times_the_looks_of_halving(bend):
    """Every third look halves, so that ten halvings of a thousand take thirty and some."""
    asked = Counted(lambda n: bend ** (n - 700) - 1.0)
    assert last_that_passes(asked, 0, 1000) == 700
    assert len(asked.looked) <= 34


def test_a_step_is_found_however_the_curve_jumps():
    for edge in (1, 2, 499, 998, 999):
        asked = Counted(lambda n, edge=edge: -1e-9 if n < edge else 1e9)
        assert last_that_passes(asked, 0, 1000) == edge - 1
        assert len(asked.looked) <= 34


@given(RISING)
def test_the_last_step_that_passes_is_the_one_found_by_trying_all(values):
    passing = [n for n, value in enumerate(values) if value <= 0.0]
    found = last_that_passes(lambda n: values[n], 0, len(values) - 1)
    assert found == (passing[-1] if passing else None)


@given(RISING, st.floats(-60, 60))
def test_the_nearest_step_is_as_near_as_any(values, wanted):
    found = nearest(lambda n: values[n], wanted, 0, len(values) - 1)
    assert abs(values[found] - wanted) == min(abs(value - wanted) for value in values)


def test_a_curve_cannot_hold_the_search_up():
    tried = []

    def excess(n):
        tried.append(n)
        return 1.0001 ** (n - 70_000) - 1.0

    assert last_that_passes(excess, 0, 100_000) == 70_000
    assert len(tried) < 60


def test_nothing_passes_in_an_empty_range():
    assert last_that_passes(lambda n: -1.0, 5, 4) is None


@pytest.mark.parametrize("bottom", [0, 1, 7, 20, 33, 40])
def test_the_bottom_of_a_valley_is_found_in_fewer_looks_than_steps(bottom):
    asked = Counted(lambda n: abs(n - bottom))
    assert least(asked, 0, 40, 20) == bottom
    assert len(set(asked.looked)) < 30


def test_of_a_plain_the_highest_step_is_taken_and_of_an_empty_range_its_end():
    assert least(lambda n: 1.0, 3, 40, 20) == 40
    assert least(lambda n: 1.0, 9, 8, 20) == 8


@given(st.floats(0.1, 9.9))
def test_a_root_is_found_as_closely_as_asked_on_a_bent_curve(wanted):
    curve = Counted(lambda x: x**3 / 100.0)
    found = root(curve, wanted, (0.0, 0.0), (10.0, 10.0), 1e-6)
    assert abs(found**3 / 100.0 - wanted) <= 1e-6
    assert len(curve.looked) < 30


def test_a_root_at_an_end_is_told_without_a_look():
    curve = Counted(lambda x: x)
    assert root(curve, 0.0, (0.0, 0.0), (10.0, 10.0), 1e-9) == 0.0
    assert root(curve, 10.0, (0.0, 0.0), (10.0, 10.0), 1e-9) == 10.0
    assert curve.looked == []
