"""How hot wort may be where it meets glass, hands and air.

30 °C into glass, 40 °C to pour, 30 °C to stir hard or splash: common practice, no source; half a
degree is no difference.
"""

import pytest

from designer.brewday.hot_wort import (
    cracks_glass,
    hottest_to_pour_c,
    takes_hot_water,
    too_hot_to_splash,
)


@pytest.mark.parametrize(
    ("kind", "hottest", "hot_water"),
    [("glass carboy", 30.0, False), ("plastic bucket", 40.0, True), ("steel", 40.0, True)],
)
def test_glass_is_kept_from_what_cracks_it(kind, hottest, hot_water):
    assert hottest_to_pour_c(kind) == hottest
    assert takes_hot_water(kind) is hot_water


@pytest.mark.parametrize(
    ("kind", "temp_c", "cracks"),
    [
        ("glass carboy", 30.5, False),
        ("glass carboy", 30.6, True),
        ("glass carboy", 90.0, True),
        ("plastic bucket", 90.0, False),
    ],
)
def test_only_glass_cracks_and_only_of_hot_wort(kind, temp_c, cracks):
    assert cracks_glass(kind, temp_c) is cracks


@pytest.mark.parametrize(("temp_c", "too_hot"), [(20.0, False), (30.5, False), (30.6, True)])
def test_warm_wort_is_not_splashed(temp_c, too_hot):
    assert too_hot_to_splash(temp_c) is too_hot
