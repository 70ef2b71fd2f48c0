"""The helpers that take a float or an array alike."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.wort import numeric
from designer.wort.numeric import mean_over

SOME = [0.0, 0.25, 1.0, 3.5]


@pytest.mark.parametrize("name", ["exp", "expm1", "log", "log1p", "sqrt", "tanh"])
def test_an_array_gives_what_its_numbers_give(name):
    function = getattr(numeric, name)
    numbers = [number for number in SOME if name != "log" or number > 0]
    assert function(np.array(numbers)) == pytest.approx([function(one) for one in numbers])
    assert function(numbers[-1]) == pytest.approx(getattr(math, name)(numbers[-1]))
    assert isinstance(function(1.0), float)


@pytest.mark.parametrize(("name", "first"), [("largest", 1.0), ("smallest", 0.0)])
def test_the_larger_and_the_smaller_of_two(name, first):
    function = getattr(numeric, name)
    assert function(0.0, 1.0) == function(1.0, 0.0) == first
    assert function(np.array([0.0, 2.0]), 1.0) == pytest.approx(
        [function(0.0, 1.0), function(2.0, 1.0)]
    )
    assert function(1.0, np.array([0.0, 2.0])) == pytest.approx(
        [function(1.0, 0.0), function(1.0, 2.0)]
    )


def test_adding_nothing_leaves_what_there_is():
    some = np.array(SOME)
    assert numeric.plus(2.0, 0.0) == 2.0
    assert numeric.plus(2.0, 3.0) == 5.0
    assert numeric.plus(some, 0.0) is some
    assert numeric.plus(some, 1.0) == pytest.approx([each + 1.0 for each in SOME])
    assert numeric.plus(1.0, some) == pytest.approx([each + 1.0 for each in SOME])


def test_choosing_goes_element_by_element():
    assert numeric.choose(True, 1.0, 2.0) == 1.0
    assert numeric.choose(False, 1.0, 2.0) == 2.0
    assert numeric.choose(np.array([True, False]), 1.0, 2.0) == pytest.approx([1.0, 2.0])


@pytest.mark.parametrize("holds", [True, False])
def test_where_all_is_chosen_alike_the_shape_stays(holds):
    everywhere = np.array([holds, holds])
    assert numeric.choose(everywhere, 1.0, 2.0) == pytest.approx([2.0 - holds] * 2)
    numbers = np.array([3.0, 4.0])
    assert numeric.choose(everywhere, numbers, numbers + 2.0) == pytest.approx(
        numbers if holds else numbers + 2.0
    )


@pytest.mark.parametrize("coefficients", [(2.0, -3.0), (1.0, 0.5, -2.0, 4.0)])
def test_a_polynomial_of_an_array_is_that_of_its_numbers(coefficients):
    numbers = np.array(SOME)
    found = numeric.horner(coefficients, numbers)
    assert found == pytest.approx([numeric.horner(coefficients, one) for one in SOME], abs=1e-15)
    assert numbers == pytest.approx(SOME)


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_weighted_mean_of_arrays_is_that_of_their_numbers(count):
    points = ((0.1, 0.2), (0.5, 0.5), (0.8, 0.3))[:count]

    def of(x):
        return numeric.weighted_mean(
            lambda place: x * place + 1.0, lambda place: numeric.exp(-x * place), points, like=x
        )

    assert of(np.array(SOME)) == pytest.approx([of(one) for one in SOME])
    assert of(0.0) == pytest.approx(1.0)


def test_a_value_is_held_between_its_limits():
    assert numeric.clamp(np.array([-1.0, 0.5, 9.0]), 0.0, 1.0) == pytest.approx([0.0, 0.5, 1.0])


@given(st.lists(st.floats(-3, 3), min_size=1, max_size=6), st.floats(-3, 3))
def test_horner_is_the_sum_of_the_powers(coefficients, x):
    plain = sum(c * x**power for power, c in enumerate(coefficients))
    assert numeric.horner(coefficients, x) == pytest.approx(plain, abs=1e-9)


@given(st.floats(-5, 15))
def test_a_table_is_read_as_numpy_reads_it(x):
    places, values = (0.0, 1.0, 4.0, 10.0), (2.0, 5.0, -1.0, 0.5)
    expected = float(np.interp(x, places, values))
    assert numeric.interpolate(x, places, values) == pytest.approx(expected, abs=1e-12)
    assert numeric.interpolate(np.array([x]), places, values) == pytest.approx([expected])


def test_numbers_and_samples_one_below_the_other():
    some, more = np.array(SOME), np.array(SOME) + 1.0
    assert numeric.in_rows((some, some, some)) is some
    assert numeric.in_rows((2.0, 2.0)) == 2.0
    assert numeric.in_rows((2.0, 3.0)).tolist() == [[2.0], [3.0]]
    assert numeric.in_rows((some, more)).tolist() == [some.tolist(), more.tolist()]
    assert numeric.in_rows((some, 2.0)).tolist() == [some.tolist(), [2.0] * len(SOME)]
    assert [each.tolist() for each in numeric.each_row(np.array([some, more]), 2)] == [
        some.tolist(),
        more.tolist(),
    ]
    assert numeric.each_row(2.0, 3) == [2.0, 2.0, 2.0]
    for one in numeric.each_row(some, 3):
        assert one is some


def test_a_function_of_rows_is_that_of_each():
    some, more = np.array(SOME), np.array(SOME) + 1.0
    assert numeric.row_by_row(numeric.sqrt, (4.0, 9.0)) == [2.0, 3.0]
    for numbers in ((some, more), (some, 4.0), (some, some)):
        found = numeric.row_by_row(numeric.sqrt, numbers)
        assert len(found) == 2
        for one, root in zip(numbers, found, strict=True):
            assert root == pytest.approx(np.broadcast_to(numeric.sqrt(one), some.shape))


def test_whether_a_condition_holds_everywhere():
    assert numeric.everywhere(True)
    assert not numeric.everywhere(False)
    some = np.array(SOME)
    assert numeric.everywhere(some > -1.0)
    assert not numeric.everywhere(some > 0.0)
    assert not numeric.everywhere(some[0] > 0.0)
    assert numeric.everywhere(some[1] > 0.0)


def test_whether_anything_is_above_zero():
    assert numeric.any_positive(1.0)
    assert not numeric.any_positive(0.0)
    assert numeric.any_positive(np.array([0.0, 0.1]))
    assert not numeric.any_positive(np.zeros(3))


@pytest.mark.parametrize(("points", "power"), [(8, 15), (4, 7)])
def test_gauss_points_are_exact_up_to_their_power(points, power):
    """Gauss-Legendre of n points is exact up to the power 2 n - 1."""

    def polynomial(x):
        return x**power + x ** (power - 1) - 3.0 * x

    def integral(x):
        return x ** (power + 1) / (power + 1) + x**power / power - 1.5 * x * x

    for middle, half in ((0.2, 1.0), (-0.4, 0.7)):
        exact = (integral(middle + half) - integral(middle - half)) / (2 * half)
        assert mean_over(polynomial, middle, half, points) == pytest.approx(exact, abs=1e-13)
        several = mean_over(polynomial, np.array([[middle, 0.0]]), np.array([[half, 0.0]]), points)
        assert several == pytest.approx(np.array([[exact, 0.0]]), abs=1e-13)
    assert mean_over(math.exp, 0.0, 1.0) == pytest.approx(math.sinh(1.0), rel=1e-14)
