"""The search on a grid, counted: few looks, and right wherever one looks first."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.brewday.fit.seeking import last_that_passes, nearest

RISING = st.lists(st.integers(-50, 50), min_size=1, max_size=40).map(sorted)


class Counted:
    """A rising function of whole numbers that remembers where it was looked at."""

    def __init__(self, excess):
        self.excess, self.looked = excess, []

    def __call__(self, n):
        self.looked.append(n)
        return self.excess(n)


@given(RISING, st.integers(-5, 45), st.integers(-5, 45), st.integers(0, 5))
def test_wherever_one_looks_first_the_answer_is_the_same(values, first, last, low):
    """`near` may be wrong, empty, or beyond the range: it only saves looks."""
    high = len(values) - 1
    passing = [n for n, value in enumerate(values) if value <= 0 and low <= n]
    expected = passing[-1] if passing and low <= high else None
    asked = Counted(lambda n: float(values[n]))
    assert last_that_passes(asked, low, high, (first, last)) == expected
    assert all(low <= n <= high for n in asked.looked)


@given(RISING, st.integers(-60, 60), st.integers(-5, 45), st.integers(0, 12))
def test_the_nearest_is_as_near_as_any_wherever_one_looks_first(values, wanted, first, width):
    near = (first, first + width)
    found = nearest(lambda n: float(values[n]), wanted, 0, len(values) - 1, near)
    assert abs(values[found] - wanted) == min(abs(value - wanted) for value in values)


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
