"""What a sample says of the gravity at 20 °C, and how far off that may be with nothing wrong."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, GravitySample, Scale, Taken
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.instrument import CHECKED_WITHIN_SG
from designer.brewday.measured.reading_errors import (
    EYE_SG,
    MIXED_SG,
    REFRACTOMETER_EYE_SG,
)
from designer.brewday.measured.readings import By
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.wort.density import gravity_from_plato, plato_from_gravity, wort_density
from designer.wort.hydrometer import extract_from_reading
from designer.wort.refractometer import (
    REFRACTOMETER_METHODS,
    final_gravity_linear,
    plato_from_brix,
)
from designer.wort.water import water_density

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

POINTS = 1000.0
FINAL_BY_BRIX_SG = 0.002
"""A gravity of beer by refractometer is good to that at best (Terrill 2011, as quoted)."""
_WARMTHS = 15
"""Places at which the gravity by warmth is worked out; it is read between them."""


@dataclass(frozen=True, slots=True, eq=False)
class Corrected:
    """A sample as corrected, in points above water at 20 °C.

    `by_warmth` is what the correction for its temperature added. `own` is the standard deviation of
    what is another in each sample, `shared` of what all readings of the instrument have in common;
    `checked` tells whether that was tried in water.
    """

    sample: GravitySample
    points: float
    by_warmth: float
    own: float
    shared: float
    checked: bool

    @property
    def by_refractometer(self) -> bool:
        """Whether light was bent and nothing floated."""
        return is_refractometer(self.sample)

    @property
    def is_hot(self) -> bool:
        """Whether the sample is to be cooled before it says anything."""
        return (self.sample.sample_c or 0.0) > priors.HOT_C

    def too_low_if_warmer(self, by_c: Array) -> Array:
        """Return how many points too low it was corrected, if it was warmer by so many °C."""
        import numpy as np

        if self.by_refractometer:
            return np.zeros_like(by_c)
        at = _warmth_c(self.sample)
        coldest, hottest = min(2.0, at), max(priors.HOTTEST_C, at)
        places = np.linspace(coldest, hottest, _WARMTHS)
        found = _gravity_by_density(_in_sample(self.sample), places, self.sample.made_for_c)
        there = POINTS * (np.asarray(found) - 1.0)
        asked = np.clip(at + by_c, coldest, hottest)
        short: Array = np.interp(asked, places, there) - np.interp(at, places, there)
        return short


def is_refractometer(sample: GravitySample) -> bool:
    """Whether a sample was read by the light that it bends."""
    return sample.by is By.REFRACTOMETER or sample.scale is Scale.BRIX


def corrected_samples(asked: Asked, beliefs: Beliefs) -> tuple[Corrected, ...]:
    """Return the samples as corrected, the newest last.

    What a hydrometer was found to show in water, in any of them or for the brew, counts for all.
    """
    found = [each.in_water for each in asked.samples if each.in_water is not None]
    in_water = found[-1] if found else beliefs.in_water
    return tuple(_corrected(each, in_water, beliefs) for each in asked.samples)


def _corrected(sample: GravitySample, in_water: float | None, beliefs: Beliefs) -> Corrected:
    if is_refractometer(sample):
        return _by_refractometer(sample, beliefs)
    off = (in_water or 1.0) - 1.0
    shown = _in_sample(sample) - off
    made_for_c = sample.made_for_c
    gravity = float(_gravity_by_density(shown, _warmth_c(sample), made_for_c))
    as_if = float(_gravity_by_density(shown, made_for_c, made_for_c))
    by_warmth = POINTS * (gravity - as_if)
    checked = in_water is not None
    trusted = min(beliefs.trusted_sg, CHECKED_WITHIN_SG) if checked else beliefs.trusted_sg
    eye = min(EYE_SG, trusted / sqrt(2.0))
    hot = (sample.sample_c or 0.0) > priors.HOT_C
    return Corrected(
        sample,
        POINTS * (gravity - 1.0),
        by_warmth,
        hypot(_deviation(hypot(eye, MIXED_SG)), priors.HOT_ERROR * by_warmth if hot else 0.0),
        _deviation(sqrt(max(trusted**2 - eye**2, 0.0))),
        checked,
    )


def _by_refractometer(sample: GravitySample, beliefs: Beliefs) -> Corrected:
    """Return what the light says, before fermentation or in it."""
    by_wort = sample.correction or beliefs.wort_correction
    brix = sample.shown
    if sample.scale is Scale.SG:
        brix = float(plato_from_gravity(sample.shown))
    if sample.taken is Taken.FERMENTING:
        first = by_wort * float(plato_from_gravity(beliefs.expected.value))
        gravity = float(final_gravity_linear(first, brix, by_wort))
        others = [
            float(each.function(first, brix, by_wort)) for each in REFRACTOMETER_METHODS.values()
        ]
        spread = (max(others) - min(others)) / 2.0
        own = _deviation(hypot(FINAL_BY_BRIX_SG, spread))
        return Corrected(sample, POINTS * (gravity - 1.0), 0.0, own, 0.0, False)
    gravity = float(gravity_from_plato(plato_from_brix(brix, by_wort)))
    points = POINTS * (gravity - 1.0)
    own = _deviation(hypot(REFRACTOMETER_EYE_SG, MIXED_SG))
    shared = abs(points) * beliefs.correction_share / HALF_WIDTH_SIGMAS
    return Corrected(sample, points, 0.0, own, shared, False)


def _in_sample(sample: GravitySample) -> float:
    """Return what the hydrometer shows, as a gravity."""
    if sample.scale is Scale.PLATO:
        return float(gravity_from_plato(sample.shown))
    return sample.shown


def _warmth_c(sample: GravitySample) -> float:
    return sample.made_for_c if sample.sample_c is None else sample.sample_c


def _gravity_by_density(shown_sg: float, sample_c: float | Array, made_for_c: float) -> Array:
    """Return the gravity at 20/20 °C of what shows a gravity in samples so warm."""
    import numpy as np

    fraction = extract_from_reading(shown_sg, sample_c, made_for_c) / 100.0
    return np.asarray(wort_density(fraction, 20.0) / water_density(20.0))


def _deviation(half_width_sg: float) -> float:
    return POINTS * half_width_sg / HALF_WIDTH_SIGMAS
