"""Bitterness by Rager and by Garetz against what was printed of them."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.wort.bitterness import tinseth_ibu, tinseth_utilisation
from designer.wort.bitterness_methods import (
    BITTERNESS_METHODS,
    garetz_altitude_factor,
    garetz_ibu,
    garetz_utilisation,
    rager_ibu,
    rager_utilisation,
)

OUNCE_KG = 0.02835
FEET_5000_M = 1524.0


@pytest.mark.parametrize(
    ("time_min", "percent"), [(5, 5.72), (15, 8.23), (30, 17.11), (45, 26.90), (60, 30.82)]
)
def test_ragers_curve(time_min, percent):
    # Computed from the tanh form of a 1995 hops FAQ (second-hand).
    assert 100 * rager_utilisation(time_min) == pytest.approx(percent, abs=0.006)


@pytest.mark.parametrize(
    ("time_min", "percent"),
    # Rager, Zymurgy special issue 1990: his table (from memory), middle of each class.
    [(8, 6.0), (13, 8.0), (18, 10.1), (23, 12.1), (28, 15.3), (33, 18.8), (38, 22.8), (55, 30.0)],
)
def test_the_curve_keeps_near_ragers_table(time_min, percent):
    assert 100 * rager_utilisation(time_min) == pytest.approx(percent, abs=1.1)


def test_hops_that_are_not_boiled_give_nothing():
    assert rager_utilisation(0) == 0
    assert rager_utilisation(-3) == 0
    assert garetz_utilisation(0) == 0
    assert rager_ibu(0.03, 0.06, 0, 1.05, 20) == 0
    assert garetz_ibu(0.03, 0.06, 0, 1.05, 20, 20) == 0


def test_ragers_correction_for_strong_wort():
    # A digest of 1992, quoting the article: 46 IBU uncorrected are 38 at 1.090.
    plain = rager_ibu(0.03, 0.06, 60, 1.050, 20)
    assert 46 * rager_ibu(0.03, 0.06, 60, 1.090, 20) / plain == pytest.approx(38, abs=0.5)
    assert rager_ibu(0.03, 0.06, 60, 1.030, 20) == plain


@pytest.mark.parametrize(
    ("boil_sg", "rager", "tinseth"), [(1.050, 29.43, 22.03), (1.090, 24.53, 15.38)]
)
def test_rager_reads_higher_than_tinseth(boil_sg, rager, tinseth):
    # 28.35 g of 6.4 %, 60 minutes, 19 L; computed from the published equations.
    assert rager_ibu(OUNCE_KG, 0.064, 60, boil_sg, 19) == pytest.approx(rager, abs=0.006)
    assert tinseth_ibu(OUNCE_KG, 0.064, 60, boil_sg, 19) == pytest.approx(tinseth, abs=0.006)


# Garetz, Using Hops, 1994 (from memory): the end of each class of minutes, and its per cent.
GARETZ = [
    *[(10, 0), (15, 2), (20, 5), (25, 8), (30, 11), (35, 14), (40, 16)],
    *[(45, 18), (50, 19), (60, 20), (70, 21), (80, 22), (90, 23)],
]


@pytest.mark.parametrize(("row", "time_min"), list(enumerate(m for m, _ in GARETZ)))
def test_garetz_classes_begin_just_past_the_end_of_the_one_before(row, time_min):
    longer = min(row + 1, len(GARETZ) - 1)
    assert garetz_utilisation(time_min) == pytest.approx(GARETZ[row][1] / 100)
    assert garetz_utilisation(time_min + 0.01) == pytest.approx(GARETZ[longer][1] / 100)


@pytest.mark.parametrize(
    ("boil_l", "altitude_m", "ibu"), [(19, 0, 17.87), (10, 0, 14.13), (19, FEET_5000_M, 15.26)]
)
def test_garetz_reads_low_most_of_all_in_a_small_pot_or_up_a_hill(boil_l, altitude_m, ibu):
    # 28.35 g of 6.4 %, 60 minutes, 19 L of 1.050; computed from the formulas (table from memory).
    found = garetz_ibu(OUNCE_KG, 0.064, 60, 1.050, 19, boil_l, altitude_m)
    assert found == pytest.approx(ibu, abs=0.006)


def test_the_hopping_factor_printed_for_garetz():
    # A digest of 1995: at 35.3 IBU in a full boil the hopping factor takes 13.6 %.
    without = 35.3 * 1.136
    hop_kg = without * 19 / (1e6 * garetz_utilisation(60) * 0.064)
    assert garetz_ibu(hop_kg, 0.064, 60, 1.050, 19, 19) == pytest.approx(35.3, abs=0.02)


@given(
    hop_kg=st.floats(0, 0.2),
    boil_share=st.floats(0.3, 1),
    time_min=st.floats(0, 120),
    original=st.floats(1.02, 1.12),
)
def test_the_closed_form_is_where_garetz_iteration_comes_to_rest(
    hop_kg, boil_share, time_min, original
):
    closed = garetz_ibu(hop_kg, 0.07, time_min, original, 20, 20 * boil_share)
    concentration = 1 / boil_share
    gravity_factor = (concentration * (original - 1) + 1 - 1.050) / 0.2 + 1
    hopping_factor = concentration * closed / 260 + 1
    added = 1e6 * hop_kg * 0.07 / 20
    once_more = garetz_utilisation(time_min) * added / (gravity_factor * hopping_factor)
    assert once_more == pytest.approx(closed, rel=1e-9)


@pytest.mark.parametrize(
    ("altitude_m", "utilisation"),
    # Tinseth's 60 minutes at 1.050 with Garetz' factor for altitude; computed.
    [
        (0, 0.2307),
        (500, 0.2177),
        (1000, 0.2061),
        (1500, 0.1957),
        (2000, 0.1862),
        (3000, 0.1699),
    ],
)
def test_garetz_allowance_for_altitude(altitude_m, utilisation):
    found = tinseth_utilisation(1.050, 60) / garetz_altitude_factor(altitude_m)
    assert found == pytest.approx(utilisation, abs=1.1e-4)


def test_no_pot_and_no_beer_have_no_bitterness():
    assert garetz_ibu(0.03, 0.06, 60, 1.05, 0, 20) == 0
    assert garetz_ibu(0.03, 0.06, 60, 1.05, 20, 0) == pytest.approx(0, abs=1e-3)
    assert rager_ibu(0.03, 0.06, 60, 1.05, 0) == 0


def test_arrays_give_the_same_bitterness_as_single_numbers():
    minutes = np.array([0.0, 12.0, 60.0, 95.0])
    for function in (rager_utilisation, garetz_utilisation):
        assert function(minutes) == pytest.approx([function(float(one)) for one in minutes])


def test_each_method_says_what_it_is_and_where_it_is_from():
    assert next(iter(BITTERNESS_METHODS)) == "Tinseth"
    for method in BITTERNESS_METHODS.values():
        assert callable(method.function)
        assert method.sentence.endswith(".")
        assert method.source


def test_hops_boiled_for_half_a_minute_count_by_rager():
    by_the_curve = (18.11 + 13.86 * math.tanh((0.5 - 31.32) / 18.27)) / 100
    assert rager_utilisation(0.5) == pytest.approx(by_the_curve)
