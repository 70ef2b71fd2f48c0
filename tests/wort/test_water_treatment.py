"""Chlorine removal against stoichiometry and a handbook's rule."""

import pytest

from designer.wort.water_treatment import (
    chlorine_from_chloramine,
    metabisulfite_mg,
)


@pytest.mark.parametrize(
    ("chlorine", "litres", "potassium", "sodium", "with_excess"),
    # Computed from the reaction (deLange, quoted in Homebrew Digest 5793).
    [
        (3, 75.7, 356.0, 304.4, 534.0),
        (2, 20, 62.7, 53.6, 94.1),
        (1, 30, 47.0, 40.2, 70.5),
        (4, 25, 156.8, 134.1, 235.2),
        (0.5, 20, 15.7, 13.4, 23.5),
    ],
)
def test_metabisulfite_by_the_reaction(chlorine, litres, potassium, sodium, with_excess):
    exact = {"excess": 1.0}
    assert metabisulfite_mg(litres, chlorine, **exact) == pytest.approx(potassium, abs=0.06)
    assert metabisulfite_mg(litres, chlorine, "sodium metabisulfite", **exact) == pytest.approx(
        sodium, abs=0.06
    )
    assert metabisulfite_mg(litres, chlorine) == pytest.approx(with_excess, abs=0.06)


def test_the_handbook_advises_about_twice_the_reaction():
    # Published: 9 mg/L for 3 mg/L, Palmer & Kaminski, Water (2013), quoted.
    assert metabisulfite_mg(1.0, 3.0, excess=2.0) == pytest.approx(9.0, abs=0.5)


def test_chloramine_itself_takes_more_a_milligram():
    # Stoichiometry: 2.159 mg of the potassium salt, 1.847 of the sodium salt a mg of NH2Cl.
    as_chlorine = chlorine_from_chloramine(1.0)
    assert metabisulfite_mg(1.0, as_chlorine, excess=1.0) == pytest.approx(2.159, abs=0.001)
    sodium = metabisulfite_mg(1.0, as_chlorine, "sodium metabisulfite", 1.0)
    assert sodium == pytest.approx(1.847, abs=0.001)


def test_the_dose_of_a_tablet_treats_twenty_gallons_of_ordinary_tap_water():
    # Common rule: one tablet of 0.44 g for 76 L; with the usual excess up to 2.5 mg/L.
    assert metabisulfite_mg(76.0, 2.46) == pytest.approx(440.0, rel=0.01)


def test_clean_water_needs_nothing():
    assert metabisulfite_mg(20.0, 0.0) == 0.0
    assert metabisulfite_mg(0.0, 3.0) == 0.0
    with pytest.raises(KeyError):
        metabisulfite_mg(20.0, 1.0, "table")
