"""Wort of several boils in one fermenter: litres add up, points by their litres (mass balance)."""

import numpy as np
import pytest

from designer.brewday.measured.sampled_wort import SampledWort, mixed_worts


def wort(points, batch_l, pot_points, pot_l, top_up_l):
    figures = (points, batch_l, pot_points, pot_l, top_up_l)
    return SampledWort(*(np.atleast_1d(np.array(each, dtype=float)) for each in figures))


THIN = wort([40.0, 44.0], [10.0, 10.0], [70.0, 74.0], [5.0, 6.0], [5.0, 4.0])
STRONG = wort(60.0, 8.0, 110.0, 4.0, 4.0)


def test_shares_of_worts_are_mixed_by_their_litres():
    found = mixed_worts((THIN, STRONG), (0.5, 1.0))
    assert found.batch_l == pytest.approx([13.0, 13.0])
    assert found.points == pytest.approx([(5 * 40 + 8 * 60) / 13, (5 * 44 + 8 * 60) / 13])
    assert found.pot_l == pytest.approx([6.5, 7.0])
    assert found.top_up_l == pytest.approx([6.5, 6.0])


def test_at_the_bottom_lies_the_strongest():
    assert mixed_worts((THIN, STRONG), (0.5, 1.0)).pot_points == pytest.approx([110.0, 110.0])
    weak = wort(30.0, 8.0, 50.0, 4.0, 4.0)
    assert mixed_worts((weak, THIN), (1.0, 1.0)).pot_points == pytest.approx([70.0, 74.0])


def test_one_wort_is_itself():
    found = mixed_worts((THIN,), (1.0,))
    assert found.points == pytest.approx(THIN.points)
    assert found.batch_l == pytest.approx(THIN.batch_l)
