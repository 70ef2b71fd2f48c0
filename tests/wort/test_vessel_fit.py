"""Room for foam in the pot against worked values."""

import math

import pytest

from designer.wort.vessel_fit import foam_limit_l


def test_foam_gets_seven_centimetres_at_least():
    # Common practice: a fifth of the pot and at least 7 cm.
    wide = math.pi / 4 * 0.36**2 * 1000 * 0.07
    assert foam_limit_l(15.0, 0.20, 0.36) == pytest.approx(15.0 - wide)
    assert foam_limit_l(15.0, 0.20, 0.20) == pytest.approx(12.0)
    assert foam_limit_l(1.0, 0.20, 0.50) == 0.0
    assert foam_limit_l(0.0, 0.20) == 0.0
