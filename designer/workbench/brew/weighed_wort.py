"""What a litre weighs where a volume is measured on a scale: as hot and as strong as it is there.

The weight is that of the wort alone: pot or bucket are taken off it. Gravity and temperature are
those of the day as it is known; 5 °C or 0.005 more or less make 0.4 % of the volume.
"""

from __future__ import annotations

from designer.brewday.measured.expecting import expected
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.results import Outlook
from designer.sheet.stove import Blank
from designer.wort.density import plato_from_gravity, wort_density

_COLD_C = 20.0
_IS_THERE: dict[Measured, tuple[Measured | None, Measured | None]] = {
    Measured.WATER_IN: (None, None),
    Measured.BOIL_START_VOLUME: (Measured.BOIL_START_GRAVITY, None),
    Measured.BOIL_VOLUME: (Measured.BOIL_GRAVITY, None),
    Measured.BOIL_END_VOLUME: (Measured.BOIL_END_GRAVITY, None),
    Measured.INTO_FERMENTER: (Measured.BOIL_END_GRAVITY, Measured.COOLED),
    Measured.TOPPED_UP: (Measured.ORIGINAL_GRAVITY, Measured.MIXED),
}
"""What tells the gravity and the temperature of what is weighed; it boils where none does."""


def kg_per_litre(outlook: Outlook, blank: Blank) -> float:
    """Return what a litre weighs of what a blank asks the volume of."""
    gravity, temperature = _IS_THERE[blank.what]
    if gravity is None:
        return float(wort_density(0.0, _COLD_C)) / 1000.0
    temp_c = float(outlook.day.pot.boiling_c)
    if temperature is not None:
        temp_c = _seen(outlook, blank, temperature)
    fraction = float(plato_from_gravity(_seen(outlook, blank, gravity))) / 100.0
    return float(wort_density(fraction, temp_c)) / 1000.0


def _seen(outlook: Outlook, blank: Blank, what: Measured) -> float:
    there = Reading(what, 0.0, By.SCALE, None, blank.boil, blank.fermenter, blank.left_min)
    return expected(outlook, there).value
