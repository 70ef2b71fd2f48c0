"""Samples and causes against sums that can be done by hand."""

import math

import numpy as np
import pytest

from designer.brewday.sample_columns import standard_normal_column
from designer.brewday.sensitivity import (
    LEAST_SHARE,
    MOST_CAUSES,
    _bends,
    _cumulants,
    _Effect,
    ranges_and_causes,
)
from designer.brewday.tolerances import (
    LatinHypercube,
    Nominal,
    Tolerance,
    absolute_deviations,
    relative_deviations,
    sampled_field,
)
from designer.recipe.document import Pot, Process

SAMPLES = 256
MASK = 2**64 - 1


def splitmix64(seed, count):
    """Steele, Lea and Flood, OOPSLA 2014, in whole numbers."""
    for _ in range(count):
        seed = (seed + 0x9E3779B97F4A7C15) & MASK
        z = (seed ^ seed >> 30) * 0xBF58476D1CE4E5B9 & MASK
        z = (z ^ z >> 27) * 0x94D049BB133111EB & MASK
        yield z ^ z >> 31


def test_the_order_of_a_sample_is_that_of_the_published_mix():
    """The first numbers from the seed 1234567 are well known (from memory)."""
    assert list(splitmix64(1234567, 3)) == [
        6457827717110365317,
        3203168211198807973,
        9817491932198370423,
    ]
    # CRC-32 of "123456789" is the check value of every description of it: 0xCBF43926
    mixed = list(splitmix64(0xCBF43926 * 0x9E3779B97F4A7C15 & MASK, 64))
    drawn_first = sorted(range(64), key=mixed.__getitem__)
    column = standard_normal_column("123456789", 64)
    assert np.argsort(np.argsort(column)).tolist() == drawn_first


def test_a_column_is_shared_and_so_cannot_be_written_to():
    column = standard_normal_column("a key", 16)
    assert column is standard_normal_column("a key", 16)
    with pytest.raises(ValueError, match="read-only"):
        column[0] = 0.0


def test_numbers_that_run_over_warn_nobody():
    """64-bit sums are meant to run over."""
    with np.errstate(all="raise"):
        assert standard_normal_column("a key never asked before", 8).shape == (8,)


def test_what_is_neither_typed_nor_usual_counts_as_nothing():
    assert sampled_field(Nominal(), "rim", Pot(), "volume") == 0.0
    sampler = LatinHypercube(8)
    assert sampled_field(sampler, "rim", Pot(), "volume") == 0.0
    assert sampler.tolerances == {}
    assert sampled_field(Nominal(), "boil", Process(), "boil_time") == 60.0


def test_absolute_and_relative_deviations_are_each_other_s_logarithm():
    added, times = absolute_deviations("k", 0.3, 64), relative_deviations("k", 0.3, 64)
    assert np.log(times) == pytest.approx(added)


def column(key):
    return standard_normal_column(key, SAMPLES)


def ranges_of(values, sampled, keys, tolerance=None):
    tolerance = tolerance or Tolerance(10.0, 0.5, relative=False)
    return ranges_and_causes(values, sampled, dict.fromkeys(keys, tolerance), SAMPLES)


def test_shares_go_with_the_square_of_what_each_input_does():
    """Source: variance of a sum of independent inputs; 3 and 4 make 9/25 and 16/25."""
    sampled = {"x": 7.0 + 3.0 * column("a") - 4.0 * column("b")}
    found = ranges_of({"x": 7.0}, sampled, ("a", "b", "c"))["x"]
    assert [each.key for each in found.causes] == ["b", "a"]
    assert [each.share for each in found.causes] == pytest.approx([0.64, 0.36], abs=0.01)
    assert (found.low, found.high) == pytest.approx((7 - 5 * 1.6449, 7 + 5 * 1.6449), abs=0.01)


def test_what_is_not_a_straight_line_belongs_to_no_input():
    """Source: of z + z² the variance is 1 + 2, and the straight part causes a third."""
    bent = column("a") + column("a") ** 2
    found = ranges_of({"x": 0.0}, {"x": bent}, ("a", "b"))["x"]
    assert found.causes[0].key == "a"
    assert found.causes[0].share == pytest.approx(1 / 3, abs=0.02)


def test_a_curve_steadies_the_ends_of_its_range():
    """Source: the same sum of a parabola and a line, drawn a million times."""
    forecast = column("a") + 0.3 * column("a") ** 2 + 2.0 * column("b")
    found = ranges_of({"x": 0.0}, {"x": forecast}, ("a", "b", "c"))["x"]
    many = np.random.default_rng(5).standard_normal((2, 1_000_000))
    exact = np.percentile(many[0] + 0.3 * many[0] ** 2 + 2.0 * many[1], (5, 95))
    assert (found.low, found.high) == pytest.approx(tuple(exact), abs=0.04)


def test_each_forecast_has_its_own_causes():
    sampled = {"x": 1.0 + column("a"), "y": 5.0 + column("b"), "z": np.full(SAMPLES, 3.0)}
    found = ranges_of({"x": 1.0, "y": 5.0, "z": 3.0}, sampled, ("a", "b"))
    assert [[each.key for each in found[key].causes] for key in "xyz"] == [["a"], ["b"], []]
    assert (found["z"].low, found["z"].high) == (3.0, 3.0)


def test_inputs_of_less_than_a_hundredth_are_not_listed():
    """Nor more than six: nobody measures a seventh thing better."""
    keys = tuple("abcdefgh")
    assert (LEAST_SHARE, MOST_CAUSES) == (0.01, 6)
    small = {"x": column("a") + math.sqrt(0.008) * column("b") + math.sqrt(0.02) * column("c")}
    assert [each.key for each in ranges_of({"x": 0.0}, small, keys)["x"].causes] == ["a", "c"]
    alike = {"x": sum((18 - place) * column(key) for place, key in enumerate(keys))}
    listed = [each.key for each in ranges_of({"x": 0.0}, alike, keys)["x"].causes]
    assert listed == list("abcdef")


@pytest.mark.parametrize("value", [1.0, 1e6])
def test_the_last_digits_of_a_number_are_no_doubt(value):
    """Rounding leaves some 1e-16 of a number; what a brewer doubts is far more."""
    rounding, doubt = 1e-13 * value * column("a"), 1e-6 * value * column("a")
    assert ranges_of({"x": value}, {"x": value + rounding}, ("a",))["x"].causes == ()
    assert len(ranges_of({"x": value}, {"x": value + doubt}, ("a",))["x"].causes) == 1


@pytest.mark.parametrize("bend", [0.0, 0.05])
def test_a_better_measurement_leaves_its_part_of_the_range(bend):
    """Half a litre at the mark becomes 0.2 L: two fifths of the range are left."""
    z = column("fermenter mark")
    forecast = 20.0 + z + bend * z * z
    found = ranges_of({"x": 20.0}, {"x": forecast}, ("fermenter mark", "b"))["x"]
    (cause,) = found.causes
    assert cause.advice == "weigh the full fermenter instead of reading its mark"
    left = (cause.high - cause.low) / (found.high - found.low)
    assert left == pytest.approx(0.4, abs=0.06 if bend else 0.001)
    assert found.low < cause.low < 20.0 < cause.high < found.high


def test_the_range_holds_the_forecast_itself():
    """The day as typed may lie outside what the samples hold."""
    for value in (-40.0, 40.0):
        found = ranges_of({"x": value}, {"x": column("a")}, ("a",))["x"]
        assert found.low <= found.value == value <= found.high


def test_without_doubts_a_forecast_is_one_number():
    found = ranges_and_causes({"x": 2.0}, {"x": 2.0}, {}, SAMPLES)["x"]
    assert (found.low, found.value, found.high, found.causes) == (2.0, 2.0, 2.0, ())


def test_a_line_and_a_parabola_have_the_cumulants_of_theirs():
    """Of b (z² - 1) they are 2 b², 8 b³ and 48 b⁴ (chi-square of one degree); a line beside it adds
    a² to the variance, and what goes along with the bend to the others."""
    found = _cumulants(np.array([0.0, 3.0, 0.5]), np.array([0.5, 0.0, 0.2]))
    assert found[:, 0] == pytest.approx([0.5, 1.0, 3.0])
    assert found[:, 1] == pytest.approx([9.0, 0.0, 0.0])
    z = np.random.default_rng(3).standard_normal(1_000_000)
    x = 0.5 * z + 0.2 * (z * z - 1.0)
    square = x * x
    variance = square.mean()
    moments = [variance, (square * x).mean(), (square * square).mean() - 3.0 * variance**2]
    assert found[:, 2] == pytest.approx(moments, rel=0.04)


@pytest.mark.parametrize(("share", "left", "narrows"), [(0.1, 0.0, True), (0.07, 0.0, False),
    (0.1, 0.4, True), (0.1, 0.5, False), (0.2, 0.7, True), (0.2, 0.8, False)])  # fmt: skip
def test_a_range_is_worked_out_anew_where_a_twelfth_of_its_variance_may_go(share, left, narrows):
    """A measurement that leaves half of a doubt leaves a quarter of its variance."""
    assert _Effect(0, 0, share, "", left).may_narrow is narrows


def test_a_bend_that_chance_would_make_is_none():
    bent = (column("a") ** 2 - 1.0)[np.newaxis]
    assert _bends(0.7 * bent, bent) == pytest.approx(np.array([[0.7]]))
    noise = (column("b") * column("c"))[np.newaxis]
    assert _bends(noise, bent) == pytest.approx(np.array([[0.0]]))
    assert _bends(noise + 0.1 * bent, bent) == pytest.approx(np.array([[0.0]]))
    assert _bends(noise + 0.3 * bent, bent)[0, 0] == pytest.approx(0.3, abs=0.15)
