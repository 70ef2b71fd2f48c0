"""Yeast to pitch against worked values and makers' doses."""

import pytest

from designer.wort.pitching import (
    HIGH_PART,
    LOW_PART,
    cells_needed,
    dry_yeast_wanted_g,
    grams_from_cells,
    lateness,
    packets,
    packets_in,
)


@pytest.mark.parametrize(
    ("litres", "plato", "rate", "billions", "at_6", "at_10", "at_20"),
    # Computed; rates after Fix, as commonly cited.
    [
        (20, 12, 0.75e6, 180.0, 30.0, 18.0, 9.0),
        (20, 12, 1.5e6, 360.0, 60.0, 36.0, 18.0),
        (10, 15, 0.75e6, 112.5, 18.8, 11.2, 5.6),
        (15, 18, 1e6, 270.0, 45.0, 27.0, 13.5),
        (19, 10, 1.5e6, 285.0, 47.5, 28.5, 14.2),
    ],
)
def test_cells_and_grams(litres, plato, rate, billions, at_6, at_10, at_20):
    cells = cells_needed(litres, plato, rate)
    assert cells / 1e9 == pytest.approx(billions)
    assert grams_from_cells(cells, 6e9) == pytest.approx(at_6, abs=0.06)
    assert grams_from_cells(cells, 10e9) == pytest.approx(at_10, abs=0.06)
    assert grams_from_cells(cells, 20e9) == pytest.approx(at_20, abs=0.06)


def test_makers_doses_are_those_of_a_usual_wort():
    """Published data sheets (quoted): 0.5 to 0.8 g/L warm; double in the cold: judgement."""
    wanted = dry_yeast_wanted_g(20.0, 12.0)
    assert (LOW_PART * wanted, HIGH_PART * wanted) == pytest.approx((10.0, 16.0))
    assert dry_yeast_wanted_g(20.0, 12.0, cool=True) == pytest.approx(2.0 * wanted)
    assert dry_yeast_wanted_g(0.0, 12.0) == dry_yeast_wanted_g(20.0, 0.0) == 0.0


@pytest.mark.parametrize(("plato", "grams"), [(12, 0.67), (15, 0.83), (18, 1.4), (22, 2.4)])
def test_strong_wort_wants_more_for_each_degree(plato, grams):
    """The rule °P x r / 9, r from 0.5 at 15 to 1.0 at 22 °P (judgement; Suihko et al., J. Inst.
    Brew. 99 (1993) 341: faster up to a higher rate in strong wort).
    """
    assert dry_yeast_wanted_g(1.0, plato) == pytest.approx(grams, abs=0.05)


def test_dry_yeast_comes_in_packets():
    """11 to 11.5 g; common practice, no source."""
    assert [packets(grams) for grams in (0.0, 5.0, 11.0, 11.5, 12.0, 22.0, 23.0, 47.0)] == [
        1, 1, 1, 1, 2, 2, 2, 5,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("grams", "count"),
    [(0, 1), (5, 1), (7, 1), (10, 1), (11, 1), (11.5, 1), (22, 2), (23, 2), (33, 3), (34.5, 3),
     (14, 2), (21, 3), (28, 4), (15, 3), (20, 2), (30, 3), (12, 2), (16, 2), (24, 3)],
)  # fmt: skip
def test_a_weight_that_was_written_down_is_so_many_packets(grams, count):
    """Packets of 5, 7, 10, 11 and 11.5 g: common practice, no source. What no packets of one size
    make up is as many of the largest as it takes."""
    assert packets_in(grams) == count


@pytest.mark.parametrize(
    ("part", "late"), [(2.0, 0.0), (0.5, 0.0), (0.35, 1.0), (0.2, 2.0), (0.0, 2.0)]
)
def test_yeast_is_late_below_half_of_what_is_wanted(part, late):
    """None at half, about one under 0.4 and two of 11 g for 47 g; judgement."""
    assert lateness(part * 20.0, 20.0) == pytest.approx(late)
