"""Colour of beer and malt against the printed equations and a brewery's worked example."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.wort.colour import (
    COLOUR_METHODS,
    EBC_PER_SRM,
    colour_units_for,
    daniels,
    ebc_from_lovibond,
    ebc_from_srm,
    lovibond_from_ebc,
    lovibond_from_srm,
    malt_colour_units,
    morey,
    mosher,
    srm_from_ebc,
    srm_from_lovibond,
)


@pytest.mark.parametrize(
    ("units", "by_morey", "by_mosher", "by_daniels"),
    # Computed from the equations (Morey, BrewingTechniques; Mosher and Daniels from memory).
    [
        (2, 2.40, 5.30, 8.80),
        (5, 4.50, 6.20, 9.40),
        (10, 7.24, 7.70, 10.40),
        (15, 9.56, 9.20, 11.40),
        (20, 11.65, 10.70, 12.40),
        (30, 15.38, 13.70, 14.40),
        (40, 18.74, 16.70, 16.40),
        (50, 21.83, 19.70, 18.40),
        (80, 30.14, 28.70, 24.40),
    ],
)
def test_colour_by_each_of_the_three_curves(units, by_morey, by_mosher, by_daniels):
    assert morey(units) == pytest.approx(by_morey, abs=0.006)
    assert mosher(units) == pytest.approx(by_mosher)
    assert daniels(units) == pytest.approx(by_daniels)


@pytest.mark.parametrize(("litres", "units", "srm"), [(19, 17.79, 10.75), (11, 30.73, 15.64)])
def test_less_beer_is_darker(litres, units, srm):
    # 2.7 kg of 5 °L and 0.45 kg of 60 °L; computed from Morey's equation.
    found = malt_colour_units(2.7 * 5 + 0.45 * 60, litres)
    assert found == pytest.approx(units, abs=0.01)
    assert morey(found) == pytest.approx(srm, abs=0.006)


@pytest.mark.parametrize(
    ("lovibond", "malt_srm", "malt_ebc"),
    # 3.98 for 3.5 °L was printed (Morey, BrewingTechniques); the rest is computed.
    [
        (2, 1.95, 4.1),
        (3.5, 3.98, 8.1),
        (10, 12.79, 25.3),
        (40, 53.42, 104.8),
        (60, 80.52, 157.8),
        (120, 161.79, 316.8),
        (350, 473.35, 926.3),
        (500, 676.54, 1323.8),
    ],
)
def test_malt_colour_in_three_units(lovibond, malt_srm, malt_ebc):
    assert srm_from_lovibond(lovibond) == pytest.approx(malt_srm, abs=0.006)
    assert ebc_from_lovibond(lovibond) == pytest.approx(malt_ebc, abs=0.06)
    assert lovibond_from_srm(srm_from_lovibond(lovibond)) == pytest.approx(lovibond)
    assert lovibond_from_ebc(ebc_from_lovibond(lovibond)) == pytest.approx(lovibond)


@pytest.mark.parametrize("lovibond", [12.0, 40.0, 300.0])
def test_both_ways_from_lovibond_to_ebc_agree_to_a_hundredth(lovibond):
    # EBC straight from °L, or by way of SRM; both after Morey.
    assert ebc_from_srm(srm_from_lovibond(lovibond)) == pytest.approx(
        ebc_from_lovibond(lovibond), rel=0.01
    )


def test_beer_units_follow_from_their_definitions():
    # SRM is 12.7 and EBC 25 times the absorbance of 1 cm at 430 nm; the ratio is rounded to 1.97.
    assert pytest.approx(25 / 12.7, abs=0.002) == EBC_PER_SRM
    assert srm_from_ebc(ebc_from_srm(13.0)) == pytest.approx(13.0)
    assert ebc_from_srm(10.0) == pytest.approx(19.7)


def test_water_and_no_beer_have_no_colour():
    assert malt_colour_units(0.0, 20.0) == 0
    assert malt_colour_units(30.0, 0.0) == 0
    assert morey(0.0) == 0
    assert morey(-1.0) == 0
    assert srm_from_lovibond(0.0) == 0
    assert ebc_from_lovibond(0.0) == 0


@given(units=st.floats(0, 300), more=st.floats(0, 100))
def test_more_malt_is_never_paler(units, more):
    for method in COLOUR_METHODS.values():
        assert method.function(units + more) >= method.function(units)


def test_each_method_says_what_it_is_and_where_it_is_from():
    assert next(iter(COLOUR_METHODS)) == "Morey"
    for method in COLOUR_METHODS.values():
        assert method.sentence.endswith(".")
        assert method.source


@pytest.mark.parametrize("units", [0.0, 0.5, 10.0, 80.0])
def test_the_malt_that_a_colour_takes_is_that_which_makes_it(units):
    assert colour_units_for(morey(units)) == pytest.approx(units, rel=1e-9, abs=1e-12)
