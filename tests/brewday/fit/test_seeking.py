"""The search on a grid, against trying every step."""

from hypothesis import given
from hypothesis import strategies as st

from designer.brewday.fit.grid_search import last_that_passes, nearest

RISING = st.lists(st.floats(-50, 50), min_size=1, max_size=60).map(sorted)


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
