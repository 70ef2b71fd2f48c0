"""What a sample of fermenting beer says of its gravity, by hydrometer or refractometer.

A refractometer needs what it showed before the yeast went in too: of a sample of its own, else as
the original gravity makes it. Three published fits then tell the gravity; they differ, and that is
a part of the error, which is 0.002 at best. Below 61 % apparent attenuation none of them holds.

Source of fits, error and limit: see `designer.wort.refractometer`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from designer.brewday.explaining.asked import GravitySample, Scale, Taken
from designer.brewday.instrument import CHECKED_WITHIN_SG, reads_high_by, trusted_within
from designer.brewday.measured.readings import By
from designer.recipe.document import Process
from designer.recipe.message import Message, Number, say
from designer.recipe.quantity import Kind
from designer.wort.density import gravity_from_plato, plato_from_gravity, wort_density
from designer.wort.hydrometer import extract_from_reading
from designer.wort.refractometer import REFRACTOMETER_METHODS, WORT_CORRECTION
from designer.wort.water import water_density

BEST_SG = 0.002
"""A refractometer's gravity of beer is good to that at best."""
LEAST_ATTENUATION = 0.61
NO_WARMTH_SG = 0.001
"""Half width that is added where nobody noted the sample's temperature: ± 5 °C (judgement)."""


@dataclass(frozen=True, slots=True)
class ByRefractometer:
    """What a refractometer says of beer: by each fit, and the half width of its error.

    `holds` tells that the fits may be used.
    """

    linear: float
    cubic: float
    older: float
    half_width: float
    holds: bool

    @property
    def words(self) -> Message:
        """What of it is to be told."""
        if not self.holds:
            return say(
                "refractometer-too-early",
                "Too early for a refractometer: until about {share} % of the extract is eaten no "
                "formula for it holds. Read with a hydrometer.",
                share=f"{100 * LEAST_ATTENUATION:.0f}",
            )
        return say(
            "refractometer-in-beer",
            "{0} by refractometer, {error} either way at best. Other formulas make {1} and {2} of "
            "it. It never tells whether beer is safe to bottle.",
            (Kind.GRAVITY, self.linear),
            (Kind.GRAVITY, self.cubic),
            (Kind.GRAVITY, self.older),
            error=Number(f"{self.half_width:.3f}"),
        )


def is_refractometer(sample: GravitySample) -> bool:
    """Whether a sample was read by the light that it bends."""
    return sample.by is By.REFRACTOMETER or sample.scale is Scale.BRIX


def hydrometer_gravity(sample: GravitySample, process: Process) -> tuple[float, float]:
    """Return the gravity at 20/20 °C of a hydrometer's sample, and its error's half width."""
    shown = sample.shown
    if sample.scale is not Scale.SG:
        shown = float(gravity_from_plato(shown))
    checked = sample.in_water is not None
    off = reads_high_by(process) if sample.in_water is None else sample.in_water - 1.0
    sample_c = sample.made_for_c if sample.sample_c is None else sample.sample_c
    extract = extract_from_reading(shown - off, sample_c, sample.made_for_c)
    gravity = float(wort_density(extract / 100.0, 20.0) / water_density(20.0))
    trusted = min(trusted_within(process), CHECKED_WITHIN_SG if checked else 1.0)
    return gravity, hypot(trusted, NO_WARMTH_SG if sample.sample_c is None else 0.0)


def refractometer_gravity(
    sample: GravitySample, original: float, wort: GravitySample | None = None
) -> ByRefractometer:
    """Return what a refractometer says of beer whose wort had this gravity.

    `wort` is the sample that it showed before the yeast went in.
    """
    by_wort = sample.correction or WORT_CORRECTION
    first = by_wort * float(plato_from_gravity(original))
    if wort is not None:
        first = _brix(wort) * by_wort / (wort.correction or by_wort)
    found = {
        name: float(each.function(first, _brix(sample), by_wort))
        for name, each in REFRACTOMETER_METHODS.items()
    }
    linear, cubic, older = found["linear"], found["cubic"], found["older"]
    extract = float(plato_from_gravity(original))
    attenuation = 1.0 - float(plato_from_gravity(linear)) / extract if extract > 0.0 else 0.0
    return ByRefractometer(
        linear,
        cubic,
        older,
        max(BEST_SG, abs(cubic - linear)),
        attenuation >= LEAST_ATTENUATION,
    )


def _brix(sample: GravitySample) -> float:
    return float(plato_from_gravity(sample.shown)) if sample.scale is Scale.SG else sample.shown


def wort_by_refractometer(samples: Sequence[GravitySample]) -> GravitySample | None:
    """Return the last sample of the wort that a refractometer has read; None for none."""
    found = [e for e in samples if e.taken is Taken.TOPPED_UP and is_refractometer(e)]
    return found[-1] if found else None
