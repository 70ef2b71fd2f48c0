"""Yeast to pitch against worked values and makers' doses."""

import pytest

from designer.wort.pitching import cells_needed, dry_yeast_dose_g, grams_from_cells


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
    assert grams_from_cells(cells) == pytest.approx(at_10, abs=0.06)
    assert grams_from_cells(cells, 20e9) == pytest.approx(at_20, abs=0.06)


def test_makers_doses():
    # Published data sheets (quoted): 0.5 to 0.8 g/L warm, 0.8 to 1.2 g/L cool.
    assert dry_yeast_dose_g(20.0) == pytest.approx((10.0, 16.0))
    assert dry_yeast_dose_g(20.0, cool=True) == pytest.approx((16.0, 24.0))
    assert dry_yeast_dose_g(0.0) == (0.0, 0.0)
