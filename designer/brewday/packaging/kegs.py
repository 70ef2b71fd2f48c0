"""What a regulator is set to for beer in a keg, and how long that takes.

Pressure by temperature: `designer.wort.carbonation` (Henry form). Seven to ten days at rest, twenty
minutes shaken, flat beer of those times taking none: common practice, no source.
"""

from __future__ import annotations

from designer.brewday.packaging.packaged import KegSetting
from designer.wort.carbonation import keg_pressure_bar

CHART_C = (2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 18.0)
MOST_SETTING_BAR = 3.5
"""Above it no keg is charged at home: regulators for beer end at about 4 bar, relief valves of kegs
open above that; judgement, on the cautious side. What is stamped on the keg goes before it."""
FEWEST_DAYS, MOST_DAYS = 7.0, 10.0
SHAKEN_MIN = 20.0


def keg_setting(volumes: float, temp_c: float) -> KegSetting:
    """Return what holds so many volumes at a temperature; it may be more than a keg may get."""
    bar = max(float(keg_pressure_bar(volumes, temp_c)), 0.0)
    return KegSetting(temp_c, bar, MOST_DAYS, SHAKEN_MIN, FEWEST_DAYS)


def keg_settings(volumes: float, keg_c: float) -> tuple[KegSetting, ...]:
    """Return the setting at the keg's temperature, then those of the chart, the cold first.

    What is more than a keg may get is left out.
    """
    others = (each for each in CHART_C if each != keg_c)
    settings = (keg_setting(volumes, each) for each in (keg_c, *others))
    return tuple(each for each in settings if each.bar <= MOST_SETTING_BAR)
