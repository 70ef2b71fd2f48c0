"""Mathematics that takes a float or a numpy array alike.

The brew day is run once with plain floats for the value, and once with arrays of samples for the
range. Plain floats must not cost the import of numpy: the first window is painted without it.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numeric: TypeAlias = float | NDArray[np.float64]
else:
    Numeric = float

    class _Numpy:
        """numpy, loaded when first used; from then on each function is at hand without a search.

        An import statement in each function would do too, but with Qt in memory every one of them
        costs a look at the calling module, some hundreds of times at each key.
        """

        def __getattr__(self, name: str) -> object:
            import numpy

            found = getattr(numpy, name)
            setattr(self, name, found)
            return found

    np = _Numpy()


_PLAIN = (float, int)
"""Made once: these are asked for some thousands of times at each key."""
_FALSE, _TRUE = 0, 1
"""What numpy keeps of a condition: to look for one of them is quicker than to count them."""


def exp(x: Numeric) -> Numeric:
    """Return e to the power x."""
    if isinstance(x, _PLAIN):
        return math.exp(x)
    return np.exp(x)


def expm1(x: Numeric) -> Numeric:
    """Return e to the power x, less one, without loss for small x."""
    if isinstance(x, _PLAIN):
        return math.expm1(x)
    return np.expm1(x)


def log(x: Numeric) -> Numeric:
    """Return the natural logarithm of x."""
    if isinstance(x, _PLAIN):
        return math.log(x)
    return np.log(x)


def log1p(x: Numeric) -> Numeric:
    """Return the natural logarithm of one more than x, without loss for small x."""
    if isinstance(x, _PLAIN):
        return math.log1p(x)
    return np.log1p(x)


def sqrt(x: Numeric) -> Numeric:
    """Return the square root of x."""
    if isinstance(x, _PLAIN):
        return math.sqrt(x)
    return np.sqrt(x)


def tanh(x: Numeric) -> Numeric:
    """Return the hyperbolic tangent of x."""
    if isinstance(x, _PLAIN):
        return math.tanh(x)
    return np.tanh(x)


def plus(a: Numeric, b: Numeric) -> Numeric:
    """Return a + b; a itself where b is nothing, for that is quicker than to add it to samples."""
    return a if isinstance(b, _PLAIN) and b == 0.0 else a + b


def largest(a: Numeric, b: Numeric) -> Numeric:
    """Return the larger of a and b, element by element."""
    if isinstance(b, _PLAIN):
        if isinstance(a, _PLAIN):
            return a if a > b else b
        return np.maximum(a, _as_array(b))
    return np.maximum(a, b)


def smallest(a: Numeric, b: Numeric) -> Numeric:
    """Return the smaller of a and b, element by element."""
    if isinstance(b, _PLAIN):
        if isinstance(a, _PLAIN):
            return a if a < b else b
        return np.minimum(a, _as_array(b))
    return np.minimum(a, b)


def clamp(x: Numeric, low: Numeric, high: Numeric) -> Numeric:
    """Return x held between `low` and `high`."""
    return smallest(largest(x, low), high)


def choose(condition: object, if_true: Numeric, if_false: Numeric) -> Numeric:
    """Return `if_true` where `condition` holds and `if_false` elsewhere, element by element."""
    if isinstance(condition, bool):
        return if_true if condition else if_false
    if isinstance(condition, np.ndarray) and condition.shape:
        seen = condition.tobytes()  # mostly it is the same everywhere
        if _FALSE not in seen and _has_shape(if_true, condition):
            return if_true
        if _TRUE not in seen and _has_shape(if_false, condition):
            return if_false
    # The empty index makes a number again of what was asked with one number out of an array.
    return np.where(condition, if_true, if_false)[()]  # type: ignore[call-overload, no-any-return]


def everywhere(condition: object) -> bool:
    """Return whether a condition holds for every element: then nobody need ask what else is."""
    if isinstance(condition, bool):
        return condition
    return _FALSE not in np.asarray(condition).tobytes()


def _has_shape(x: Numeric, of: NDArray[np.bool_]) -> bool:
    return isinstance(x, np.ndarray) and x.shape == of.shape


def in_rows(numbers: Sequence[Numeric]) -> Numeric:
    """Return numbers or samples one below the other; what is the same in all, as it is."""
    first, plain = numbers[0], [isinstance(each, _PLAIN) for each in numbers]
    if all(each is first for each in numbers) or (all(plain) and len(set(numbers)) == 1):
        return first
    if all(plain):
        return np.array(numbers)[:, np.newaxis]
    return np.array(np.broadcast_arrays(*numbers) if any(plain) else numbers)


def each_row(rows: Numeric, count: int) -> Sequence[Numeric]:
    """Return so many rows of what was worked out of numbers `in_rows`; it may be one for all."""
    if isinstance(rows, _PLAIN) or rows.ndim == 1:
        return [rows] * count
    return list(rows)


def row_by_row(
    function: Callable[[Numeric], Numeric], numbers: Sequence[Numeric]
) -> Sequence[Numeric]:
    """Return what a function of numbers makes of each of them; of samples it is called once."""
    if all(isinstance(each, _PLAIN) for each in numbers):
        return [function(each) for each in numbers]
    return each_row(function(in_rows(numbers)), len(numbers))


def horner(coefficients: Sequence[Numeric], x: Numeric) -> Numeric:
    """Return the polynomial with `coefficients`, lowest power first, at x."""
    total: Numeric = coefficients[-1]
    are_floats = isinstance(coefficients[0], float) and len(coefficients) > 1
    if are_floats and not isinstance(x, _PLAIN):
        return _horner_of_array(_as_arrays(tuple(coefficients)), x)
    for coefficient in coefficients[-2::-1]:
        total = total * x + coefficient
    return total


@lru_cache(maxsize=64)
def _as_arrays(numbers: tuple[Numeric, ...]) -> tuple[NDArray[np.float64], ...]:
    """Return numbers as numpy takes them: it turns a float into one anew at each operation."""
    return tuple(np.array(number) for number in numbers)


@lru_cache(maxsize=256)
def _as_array(number: float) -> NDArray[np.float64]:
    return np.array(float(number))


def _horner_of_array(coefficients: tuple[NDArray[np.float64], ...], x: Numeric) -> Numeric:
    """Return a polynomial of two coefficients at least, written into one array all the way."""
    total: NDArray[np.float64] = np.multiply(coefficients[-1], x)
    np.add(total, coefficients[-2], total)
    for coefficient in coefficients[-3::-1]:
        np.multiply(total, x, total)
        np.add(total, coefficient, total)
    return total


def interpolate(x: Numeric, places: Sequence[float], values: Sequence[float]) -> Numeric:
    """Return the table `values` at x, on a straight line between rising `places`, flat outside."""
    if not isinstance(x, _PLAIN):
        found: Numeric = np.full_like(x, values[0])
        for row in range(1, len(places)):
            passed = (x - places[row - 1]) / (places[row] - places[row - 1])
            found = found + (values[row] - values[row - 1]) * clamp(passed, 0.0, 1.0)
        return found
    if x <= places[0]:
        return values[0]
    if x >= places[-1]:
        return values[-1]
    row = bisect_right(places, x)
    share = (x - places[row - 1]) / (places[row] - places[row - 1])
    return values[row - 1] + share * (values[row] - values[row - 1])


_GAUSS = {
    4: ((0.3399810435848563, 0.3260725774312731), (0.8611363115940526, 0.1739274225687269)),
    8: (
        (0.1834346424956498, 0.1813418916891810),
        (0.5255324099163290, 0.1568533229389437),
        (0.7966664774136267, 0.1111905172266872),
        (0.9602898564975363, 0.0506142681451881),
    ),
}
"""Gauss-Legendre: by the number of points each node on one side of the middle and its weight."""


def mean_over(
    function: Callable[[Numeric], Numeric], middle: Numeric, half: Numeric, points: int = 8
) -> Numeric:
    """Return the mean of a smooth function from `middle` - `half` to `middle` + `half`.

    With 8 Gauss points exact for powers up to 15, with 4 up to 7. For an array `middle` the
    function is called once, with all points along a new first axis.
    """
    if isinstance(middle, _PLAIN):
        total: Numeric = 0.0
        for node, weight in _GAUSS[points]:
            pair = function(middle - half * node) + function(middle + half * node)
            total = total + weight * pair
        return total
    nodes, weights = zip(*_GAUSS[points], strict=True)
    both_sides = np.array((*nodes, *(-node for node in nodes))).reshape(-1, *(1,) * middle.ndim)
    values = np.asarray(function(middle + half * both_sides))
    mean: Numeric = np.dot(values.reshape(points, -1).T, weights * 2).reshape(middle.shape)
    return mean


Points = tuple[tuple[float, float], ...]
"""Places from 0 to 1, each with its weight."""


def weighted_mean(
    function: Callable[[Numeric], Numeric],
    counts: Callable[[Numeric], Numeric],
    points: Points,
    like: Numeric,
) -> Numeric:
    """Return the mean of a function at `points`, each of which counts so many times its weight.

    Where what it returns is an array `like` this one, both are called once, with all points along a
    new first axis.
    """
    if len(points) == 1:
        return function(points[0][0])
    if not isinstance(like, _PLAIN):
        places, weights = _columns_of(points, np.ndim(like))
        counted = weights * counts(places)
        summed: Numeric = (counted * function(places)).sum(axis=0) / counted.sum(axis=0)
        return summed
    total: Numeric = 0.0
    whole: Numeric = 0.0
    for place, weight in points:
        counts_for = weight * counts(place)
        total = total + counts_for * function(place)
        whole = whole + counts_for
    return total / whole


@lru_cache(maxsize=8)
def _columns_of(points: Points, axes: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the places and the weights, each along a first axis before so many others."""
    places, weights = np.array(points).T.reshape(2, -1, *(1,) * axes)
    return places, weights


def any_positive(x: Numeric) -> bool:
    """Return whether x, or any element of it, is above 0."""
    return x > 0.0 if isinstance(x, _PLAIN) else _TRUE in (x > _as_array(0.0)).tobytes()
