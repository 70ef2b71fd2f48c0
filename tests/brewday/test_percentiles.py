"""Percentiles steadied by what is known exactly, against distributions that are known."""

import math
from statistics import NormalDist

import numpy as np
import pytest

from designer.brewday.percentiles import (
    _exact_ends,
    _ratio,
    low_and_high,
    middle_half,
    weights,
)
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS, standard_normal_column
from designer.brewday.tolerances import (
    LatinHypercube,
    Tolerance,
    absolute_deviations,
)


def test_the_weights_share_out_one_sample_around_its_place():
    """Source: binomial distribution; mean place 0.05 and 0.95 of the last index."""
    shares = weights(200)
    assert shares.shape == (200, 2)
    assert shares.sum(axis=0) == pytest.approx([1.0, 1.0])
    assert (np.arange(200) @ shares) == pytest.approx([0.05 * 199, 0.95 * 199])
    exact = [math.comb(9, i) * 0.05**i * 0.95 ** (9 - i) for i in range(10)]
    assert weights(10)[:, 0] == pytest.approx(exact)
    assert weights(10)[:, 1] == pytest.approx(exact[::-1])


def linear_mix(samples):
    columns = np.array([standard_normal_column(key, samples) for key in ("a", "b", "c")])
    return np.array([3.0, -2.0, 0.5]) @ columns, 9.0 + 4.0 + 0.25


@pytest.mark.parametrize("samples", [32, 64, 256])
def test_a_forecast_linear_in_its_inputs_is_exact_with_any_number_of_samples(samples):
    """Source: 1.6449 standard deviations either side of the mean of a normal."""
    line, variance = linear_mix(samples)
    found = low_and_high((50.0 + line)[np.newaxis], line[np.newaxis], np.array([variance]))
    half = 1.6448536 * math.sqrt(variance)
    assert found[0] == pytest.approx([50.0 - half, 50.0 + half], abs=1e-6)


def test_a_bent_forecast_is_near_its_true_percentiles():
    """Source: percentiles of a log-normal, exp(-1.6449 s) and exp(1.6449 s)."""
    column = standard_normal_column("a", 256)
    sigma = 0.15
    output, line = np.exp(sigma * column), sigma * column
    found = low_and_high(output[np.newaxis], line[np.newaxis], np.array([sigma**2]))
    exact = [math.exp(-1.6448536 * sigma), math.exp(1.6448536 * sigma)]
    assert found[0] == pytest.approx(exact, abs=0.003)


def test_a_parabola_is_nearly_exact_with_few_samples():
    """Source: percentiles of z + 0.2 (z² - 1), which rises with z where nine draws of ten lie; its
    cumulants 1 + 2 q², 6 q + 8 q³ and 48 q² (1 + q²).
    """
    column, bend = standard_normal_column("a", 64), 0.2
    curve = (column + bend * (column**2 - 1.0))[np.newaxis]
    cumulants = (1 + 2 * bend**2, 6 * bend + 8 * bend**3, 48 * bend**2 * (1 + bend**2))
    found = low_and_high(curve, curve, *(np.array([each]) for each in cumulants))
    exact = [z + bend * (z * z - 1.0) for z in (-1.6448536, 1.6448536)]
    assert found[0] == pytest.approx(exact, abs=0.03)


def test_rows_do_not_mix():
    line, variance = linear_mix(64)
    outputs = np.array([line, 10.0 + 2.0 * line, np.zeros(64)])
    lines = np.array([line, 2.0 * line, np.zeros(64)])
    found = low_and_high(outputs, lines, variance * np.array([1.0, 4.0, 0.0]))
    assert found[1] == pytest.approx(10.0 + 2.0 * found[0])
    assert found[2] == pytest.approx([0.0, 0.0], abs=1e-12)


def test_no_percentile_leaves_the_samples():
    """A forecast that cannot fall below nothing has no range below nothing."""
    line, variance = linear_mix(64)
    held = np.maximum(line, 0.0)
    found = low_and_high(
        np.array([held, -held]), np.array([line, -line]), np.array([variance, variance])
    )
    assert found[0][0] == 0.0
    assert found[1][1] == 0.0
    wide = low_and_high(line[np.newaxis], line[np.newaxis], np.array([1e6]))[0]
    assert list(wide) == [line.min(), line.max()]


@pytest.mark.parametrize("narrow", [0.1, 0.01, 0.001])
@pytest.mark.parametrize("share", [0.02, 0.04, 0.06, 0.1, 0.3, 0.5, 0.7, 0.94])
def test_a_forecast_in_two_heaps_holds_nine_days_of_ten(share, narrow):
    """A stove reaches the boil or does not: few days lie between. Source: the same sum, drawn anew.

    An edge that falls into a heap puts whole tenths of the days on one side of it: as a step of the
    straight line took it, some of these bands held no day at all.
    """
    cut = NormalDist().inv_cdf(share)

    def forecast(scores):
        return np.where(scores[0] > cut, 1.0, 0.0) + narrow * scores[1:4].sum(axis=0)

    fresh = forecast(np.random.default_rng(3).standard_normal((4, 20_000)))
    for design in range(12):
        keys = [f"{design} {name}" for name in "abcdefgh"]
        columns = np.array([standard_normal_column(key, 256) for key in keys])
        output = forecast(columns)[np.newaxis]
        slopes = (output - output.mean()) @ columns.T @ np.linalg.inv(columns @ columns.T)
        low, high = low_and_high(output, slopes @ columns, (slopes**2).sum(axis=1))[0]
        assert 0.83 < ((low <= fresh) & (fresh <= high)).mean() < 0.97


def test_a_variance_below_nothing_by_rounding_counts_as_none():
    found = low_and_high(np.ones((1, 16)), np.zeros((1, 16)), np.array([-1e-20]))
    assert found[0] == pytest.approx([1.0, 1.0])


def test_half_widths_are_those_of_a_five_to_ninety_five_per_cent_range():
    sampler = LatinHypercube(4000)
    absolute = sampler.absolute("mark", 10.0, 0.3)
    assert np.percentile(absolute, (5, 95)) == pytest.approx([9.7, 10.3], abs=2e-3)
    assert absolute == pytest.approx(10.0 + absolute_deviations("mark", 0.3, 4000))
    relative = sampler.relative("scale", 10.0, 0.2)
    assert relative == pytest.approx(10.0 * np.exp(absolute_deviations("scale", 0.2, 4000)))
    ends = [10 * math.exp(-0.2), 10 * math.exp(0.2)]
    assert np.percentile(relative, (5, 95)) == pytest.approx(ends, abs=0.01)
    assert np.log(relative / 10.0).std() == pytest.approx(0.2 / HALF_WIDTH_SIGMAS, rel=1e-2)
    assert sampler.tolerances == {
        "mark": Tolerance(10.0, 0.3, relative=False),
        "scale": Tolerance(10.0, 0.2, relative=True),
    }


@pytest.mark.parametrize("half_width", [0.5, 1.0, 3.0])
def test_no_amount_is_drawn_below_nothing_but_a_frost_may_be(half_width):
    sampler = LatinHypercube(512)
    assert sampler.absolute("litres", 0.4, half_width).min() == 0.0
    assert sampler.absolute("litres", 0.0, half_width).min() == 0.0
    assert sampler.absolute("litres", 5.0, 3.0).min() == 0.0
    assert sampler.absolute("degrees", -0.4, half_width).min() < -half_width


def test_what_is_certain_stays_a_number():
    sampler = LatinHypercube(16)
    assert sampler.absolute("a", 3.0, 0.0) == 3.0
    assert sampler.relative("b", 3.0, 0.0) == 3.0
    assert sampler.relative("c", 0.0, 0.5) == 0.0
    assert sampler.tolerances == {}
    assert sampler.absolute("d", 3.0, 1.0).shape == (16,)


def test_half_of_the_samples_lie_in_the_middle_half():
    """Source: quartiles of a normal, 0.6745 standard deviations either side of the mean."""
    found = middle_half(7.0 + 2.0 * standard_normal_column("a", 256)[np.newaxis])
    assert found[0] == pytest.approx([7.0 - 1.3490, 7.0, 7.0 + 1.3490], abs=0.01)


@pytest.mark.parametrize(("degrees", "low", "high"), [(30, 18.493, 43.773), (60, 43.188, 79.082)])
def test_the_ends_of_a_sum_of_squares_are_those_of_the_published_table(degrees, low, high):
    """Chi-square, 5 and 95 %: Abramowitz and Stegun, Handbook of Mathematical Functions, tab. 26.8.
    The cumulants of a square are 1, 2, 8 and 48."""
    variance, third, fourth = (np.array([each * degrees]) for each in (2.0, 8.0, 48.0))
    ends = _exact_ends(variance, third, fourth)
    assert ends[0] + degrees == pytest.approx([low, high], abs=0.02)
    mirrored = _exact_ends(variance, -third, fourth)
    assert degrees - mirrored[0][::-1] == pytest.approx([low, high], abs=0.02)


def test_the_ends_of_what_is_normal_and_of_what_is_sharp():
    ends = _exact_ends(np.array([4.0, 0.0, 1e-130]), 0.0, 0.0)
    assert ends[0] == pytest.approx([-2.0 * 1.6449, 2.0 * 1.6449], abs=1e-4)
    assert ends[1:] == pytest.approx(np.zeros((2, 2)), abs=1e-60)


def test_a_part_is_so_much_of_the_whole_and_never_more():
    part, whole = np.array([1.0, 3.0, 0.0, 1.0]), np.array([2.0, 2.0, 0.0, 0.0])
    assert _ratio(part, whole) == pytest.approx([0.5, 1.0, 0.0, 0.0])
