"""For packaging: the CO2 that is left, the sugar or the pressure to add, the pressure in a bottle.

"Volumes" are litres of CO2 at 0 °C and 1 atm for each litre of beer; one volume is 1.9635 g/L
(ideal gas). The residual is that of the highest temperature the beer reached at or after the end of
fermentation, not of the temperature now (common practice; follows from Henry's law).

What the day does not ask for yet, the gas that a pressure keeps, is here for kegs.

Measured range: residual 0 to 27 °C; keg pressure within 0.3 psi of the chart polynomial for 2 to 3
volumes at 0 to 10 °C, higher when warm, which errs to the safe side for bottles.

Sources: residual and dextrose per volume: Hall, Zymurgy, Summer 1995 (quoted); Henry form: deLange,
Homebrew Digest 5586 (2009), constants from memory, checked against the chart polynomial; sugars by
stoichiometry, malt extract by Balling; sugar in honey: USDA National Nutrient Database (SR).
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from designer.wort.numeric import Numeric, clamp, exp, largest

CO2_G_L_PER_VOLUME = 1.9635
BAR_PER_PSI = 0.0689476
ATMOSPHERE_PSI = 14.695

PRIMING_G_L_PER_VOLUME = {
    "table sugar": 3.82,
    "dextrose monohydrate": 4.42,
    "dextrose anhydrous": 4.02,
    "honey": 4.90,
}
"""Grams a litre for one volume, of sugars that ferment wholly; table sugar is sucrose.

Honey is 82 % sugars and 17 % water (USDA), nearly all fructose and glucose, which ferment as
dextrose does: 4.02 / 0.82. Kinds of honey differ by some 3 % (judgement).
"""
VOLUMES_PER_POINT = 0.5
"""Volumes that come of each 0.001 still to ferment in a closed vessel; computed by Balling."""
DRY_EXTRACT_SOLIDS = 0.965
EXTRACT_G_L_PER_VOLUME = 4.242
"""The same of extract that ferments: 2.0665 g of it give 0.9565 g of CO2 (Balling)."""
_BARELY_FERMENTS = 0.05

PRIMED_HALF_WIDTH = 0.3
"""Half width of the volumes in a primed batch; judgement.

What was left in it 0.12 (sources differ by 0.04 at 20 °C, 4 °C of doubt in the warmest temperature
are 0.10, computed), 3 % of the volume, 1 to 2 % of the sugar, 0.2 of uneven mixing.
"""
RESIDUAL_HALF_WIDTH = 0.12
BOTTLE_HALF_WIDTH = 0.25
"""Half widths of what was left in the beer, and of one bottle against its batch; judgement."""
WARMEST_STORE_C = 30.0
"""Bottles are judged as they stand in a warm room in summer."""


class BottleLimits(NamedTuple):
    """Gauge pressures, bar: up to which a kind of bottle is at ease, and which it never gets."""

    comfortable_bar: float
    never_bar: float


BOTTLE_LIMITS = {
    "one-way or unknown glass": BottleLimits(2.9, 3.7),
    "heavy refillable beer bottles": BottleLimits(3.7, 4.5),
    "soft-drink bottles of plastic": BottleLimits(5.3, 6.0),
    "sparkling-wine bottles": BottleLimits(6.0, 6.8),
    "still-wine bottles, jars, growlers": BottleLimits(0.0, 0.0),
}
"""Judgement, on the cautious side: new beer bottles are proof-tested at 10 to 18 bar for a minute
(a glass maker's page after ISO 7458 and ASTM C147); a long load about halves that, scuffing halves
it again (from memory). Unknown glass is taken for one-way, plastic for unscratched and with its own
cap, sparkling-wine bottles with their closure."""


def _fahrenheit(temp_c: Numeric) -> Numeric:
    return 1.8 * temp_c + 32.0


def residual_co2(temp_c: Numeric) -> Numeric:
    """Return the volumes left in beer that fermented at `temp_c`; held at its ends 0 to 32 °C."""
    f = _fahrenheit(clamp(temp_c, 0.0, 32.0))
    return 3.0378 - 0.050062 * f + 0.00026555 * f * f


def extract_g_l_per_volume(real_fermentability: Numeric) -> Numeric:
    """Return grams a litre of dry malt extract for one volume.

    How far its solids ferment differs between makers and yeasts: uncertain by 15 %.
    """
    ferments = DRY_EXTRACT_SOLIDS * largest(real_fermentability, _BARELY_FERMENTS)
    return EXTRACT_G_L_PER_VOLUME / ferments


def priming_sugar_g(
    volume_l: Numeric,
    target_volumes: Numeric,
    temp_c: Numeric,
    g_l_per_volume: Numeric = PRIMING_G_L_PER_VOLUME["table sugar"],
) -> Numeric:
    """Return grams of a sugar for the whole volume; 0 where the beer holds enough already."""
    missing = largest(target_volumes - residual_co2(temp_c), 0.0)
    return volume_l * missing * g_l_per_volume


def _solubility(temp_c: Numeric) -> Numeric:
    """Volumes for each psi of absolute pressure."""
    return 0.01821 + 0.090115 * exp(-(_fahrenheit(temp_c) - 32.0) / 43.11)


def volumes_at(pressure_bar: Numeric, temp_c: Numeric) -> Numeric:
    """Return the volumes that beer holds at a gauge pressure, bar."""
    psi = pressure_bar / BAR_PER_PSI
    return (psi + ATMOSPHERE_PSI) * _solubility(temp_c) - 0.003342


def keg_pressure_bar(volumes: Numeric, temp_c: Numeric) -> Numeric:
    """Return the gauge pressure in bar that holds `volumes` at `temp_c`; may be below 0.

    It is that in a keg, and in a bottle at rest, its headspace ignored.
    """
    psi = (volumes + 0.003342) / _solubility(temp_c) - ATMOSPHERE_PSI
    return BAR_PER_PSI * psi


_FULLEST_BOTTLE = sqrt(RESIDUAL_HALF_WIDTH**2 + PRIMED_HALF_WIDTH**2 + BOTTLE_HALF_WIDTH**2)


_MIDDLE_OF_IT, _HALF_OF_IT = 0.55, 0.5
"""Middle and half width of what lies evenly between 0 and 1/0.95, on the safe side."""


def most_volumes(aimed_at: Numeric, may_come: Numeric = 0.0) -> Numeric:
    """Return the volumes that one bottle in twenty may exceed where so many are aimed at.

    `may_come` is the most that comes on top of what the beer has still to ferment, on its 95 % end.
    It lies anywhere between nothing and that: its middle is counted in, the rest of it is one doubt
    more beside those of sugar and mixing.
    """
    doubt = _HALF_OF_IT * may_come
    return aimed_at + _MIDDLE_OF_IT * may_come + (_FULLEST_BOTTLE**2 + doubt * doubt) ** 0.5


def warm_bottle_bar(aimed_at: Numeric, may_come: Numeric = 0.0) -> Numeric:
    """Return the gauge pressure, bar, of such a bottle at the warmest it is stored."""
    return keg_pressure_bar(most_volumes(aimed_at, may_come), WARMEST_STORE_C)


def volumes_to_aim_at(most_bar: Numeric) -> Numeric:
    """Return the volumes to aim at so that such a bottle stays at a gauge pressure; or below 0."""
    return volumes_at(most_bar, WARMEST_STORE_C) - _FULLEST_BOTTLE
