"""Two readings of a pot give its evaporation and its cooling."""

import pytest

from designer.errors import RefusedInputError
from designer.workbench.vessel_calibration import cooling_text, evaporation_text


def test_water_gone_in_half_an_hour_is_counted_for_an_hour():
    assert evaporation_text(6.0, 5.4, 30.0) == "1.2 L/h ± 12 %"


def test_a_cooling_gives_newton_s_constant():
    # Newton: ln((100 - 12) / (40 - 12)) / 25 min
    assert cooling_text(100.0, 40.0, 12.0, 25.0) == "0.04581 /min"


@pytest.mark.parametrize(("after", "minutes"), [(6.0, 30.0), (7.0, 30.0), (5.4, 0.0)])
def test_nothing_boiled_away_is_no_reading(after, minutes):
    with pytest.raises(RefusedInputError, match="Less must be left"):
        evaporation_text(6.0, after, minutes)


@pytest.mark.parametrize(
    ("hot", "cool", "bath", "minutes"),
    [(100, 100, 12, 25), (100, 12, 12, 25), (100, 10, 12, 25), (100, 40, 12, 0)],
)
def test_what_did_not_cool_is_no_reading(hot, cool, bath, minutes):
    with pytest.raises(RefusedInputError, match="It must cool"):
        cooling_text(hot, cool, bath, minutes)
