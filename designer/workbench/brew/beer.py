"""The beer of a brew in the fermenter, folded from its log: what was read, where it stands, dates.

Nothing of it is kept. Samples are corrected here, as often as they are asked for. What a brewer
chose for packaging is not in `packing`, which is what follows of the beer alone.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime

from designer.brewday.beer import warmest_after_c
from designer.brewday.explaining.asked import GravitySample, Taken
from designer.brewday.fermenting.beer_readings import (
    ByRefractometer,
    hydrometer_gravity,
    is_refractometer,
    refractometer_gravity,
    wort_by_refractometer,
)
from designer.brewday.fermenting.course import BeerReading, Fermenting, Standing, Warmth
from designer.brewday.fermenting.fermenting import fermenting
from designer.brewday.measured.readings import Measured
from designer.brewday.packaging.filling import filled_by
from designer.brewday.packaging.packaged import Packing
from designer.brewday.packaging.sugars import extract_ferments
from designer.brewday.results import Outlook, Range
from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.plan import recipe_of_fermenter
from designer.recipe.quantity import Kind
from designer.workbench.brew.afterwards import KeptSample
from designer.workbench.brew.brewing import Brewing, Status
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_story import (
    fits_day,
    gravities_read,
    has_unsettled,
    superseded,
)
from designer.workbench.brew.reckoning import Reckoned

DAY_S = 86_400.0
SAMPLE_L = 0.1
"""What a hydrometer's jar takes out of the fermenter; common practice, no source."""
BOTTLE_L = 0.5
"""The size that is counted out first; common practice, no source."""


@dataclass(frozen=True, slots=True)
class BeerSample:
    """A sample of the beer as it was typed: how many days after pitching, and what it says.

    `reading` is None where it says nothing, as a refractometer does too early; `by_refractometer`
    is what that makes of it.
    """

    entry: str
    typed: str
    at: Instant
    day: float
    reading: BeerReading | None
    by_refractometer: ByRefractometer | None = None


READS_AGAIN = ("beer-read-again", "beer-read-first", "beer-read-with-hydrometer")
"""What is to be done with a beer that is a reading of it."""


@dataclass(frozen=True, slots=True)
class BeerNow:
    """The beer of one fermenter, or of the only one.

    `pitched` is when its yeast went in, seconds since 1970, and `now_day` the days since then.
    `original` is its original gravity as far as that is known, `original_words` how it is known.
    `packing` is what follows for packaging, as nobody chose it yet.
    """

    fermenter: int
    pitched: float
    now_day: float
    original: float
    original_words: Message
    samples: tuple[BeerSample, ...]
    warmths: tuple[Warmth, ...]
    fermenting: Fermenting
    packing: Packing

    @property
    def readings(self) -> tuple[BeerReading, ...]:
        """The samples that say something, corrected, in order of their days."""
        found = (each.reading for each in self.samples if each.reading is not None)
        return tuple(sorted(found, key=lambda each: each.day))

    def when(self, day: float) -> datetime | None:
        """Return a day after pitching by the clock of the place; None for one of no calendar."""
        try:
            return datetime.fromtimestamp(self.pitched + day * DAY_S, UTC).astimezone()
        except (ValueError, OverflowError, OSError):
            return None

    @property
    def dates(self) -> tuple[tuple[datetime, Message], ...]:
        """What to do and when."""
        told = ((self.when(day), what) for day, what in self.fermenting.steps)
        return tuple((when, what) for when, what in told if when is not None)

    @property
    def read_again(self) -> datetime | None:
        """When it is to be read next; None where nothing is to be read."""
        return next((when for when, what in self.dates if what.id in READS_AGAIN), None)


def beer_of(
    brewing: Brewing, reckoned: Reckoned, now: Instant, fermenter: int = 1
) -> BeerNow | None:
    """Return the beer of a fermenter; None before its yeast is in.

    Of a recipe that is brewed by a plan each fermenter has its own wort, yeast and samples; what
    was noted of warmth counts for all.
    """
    pitched = pitched_at(brewing, fermenter)
    if pitched is None:
        return None
    recipe, outlook = _of_fermenter(reckoned, fermenter)
    now_day = max((now.wall - pitched) / DAY_S, 0.0)
    kept = tuple(e for e in brewing.after.samples if e.sample.fermenter == fermenter)
    original, half_width, words = _original(brewing, outlook, fermenter)
    wort = wort_by_refractometer([each.sample for each in kept])
    samples = tuple(
        _sample(each, recipe, pitched, original, wort)
        for each in kept
        if each.sample.taken is Taken.FERMENTING
    )
    warmths = tuple(
        Warmth((each.wall - pitched) / DAY_S, each.temp_c) for each in brewing.after.temperatures
    )
    readings = [each.reading for each in samples if each.reading is not None]
    found = fermenting(recipe, outlook, readings, warmths, now_day, original, half_width)
    packing = replace(_packing(recipe, outlook, found, samples), fermenter=fermenter)
    return BeerNow(fermenter, pitched, now_day, original, words, samples, warmths, found, packing)


def beers_of(brewing: Brewing, reckoned: Reckoned, now: Instant) -> tuple[BeerNow, ...]:
    """Return the beers of all fermenters whose yeast is in."""
    plan = reckoned.outlook.plan
    numbers = [1] if plan is None else [each.number for each in plan.fermenters]
    found = (beer_of(brewing, reckoned, now, each) for each in numbers)
    return tuple(each for each in found if each is not None)


def is_pitched(brewing: Brewing) -> bool:
    """Whether the yeast is in, in any of the fermenters."""
    pitched = (each for each in brewing.states if each.step.kind == "pitch" and each.entry)
    return brewing.finished is not None or next(pitched, None) is not None


def pitched_at(brewing: Brewing, fermenter: int = 1) -> float | None:
    """Return when the yeast went into a fermenter, seconds since 1970; None while it has not.

    It is when that step was done, as it may have been set right; else when the day was over.
    """
    for state in brewing.states:
        step = state.step
        if step.kind == "pitch" and max(step.fermenter, 1) == fermenter and state.at is not None:
            return None if state.status is Status.LEFT_OUT else state.at.wall
    return None if brewing.finished is None else brewing.finished.wall


def _of_fermenter(reckoned: Reckoned, fermenter: int) -> tuple[Recipe, Outlook]:
    outlook = reckoned.outlook
    if outlook.plan is None:
        return reckoned.recipe, outlook
    own = next((e for e in outlook.plan.fermenters if e.number == fermenter), None)
    if own is None:
        return reckoned.recipe, outlook
    told = replace(outlook, day=own.day, forecasts=own.forecasts)
    return recipe_of_fermenter(reckoned.recipe, fermenter), told


def _original(brewing: Brewing, outlook: Outlook, fermenter: int) -> tuple[float, float, Message]:
    """Return the original gravity as it is known, its half width, and how that is known.

    The day rests on what was read of it already: on a sample that was mixed, or lies where the day
    has it.
    """
    forecast = outlook.forecasts["original_gravity"]
    stood_for = superseded(brewing)
    was_read = any(
        each.reading.what is Measured.ORIGINAL_GRAVITY
        and each.reading.fermenter == fermenter
        and each.entry not in stood_for
        for each in brewing.readings
    )
    is_mixed = any(each.fermenter == fermenter for _, each in gravities_read(brewing))
    if not is_mixed and not was_read and has_unsettled(brewing):
        as_expected = gravities_read(brewing, fits_day(outlook, brewing.recipe))
        was_read = any(each.fermenter == fermenter for _, each in as_expected)
    said = "stirred" if is_mixed else "read" if was_read else ""
    return forecast.value, _half(forecast), _original_words(forecast.value, said)


def _half(found: Range) -> float:
    return (found.high - found.low) / 2.0


def _original_words(value: float, said: str) -> Message:
    figure = (Kind.GRAVITY, value)
    if said == "stirred":
        return say("beer-og-stirred", "OG {0}, read after stirring", figure)
    if said == "read":
        return say("beer-og-read", "OG {0}, as read", figure)
    return say("beer-og-reckoned", "OG {0}, reckoned, not read", figure)


def _sample(
    kept: KeptSample,
    recipe: Recipe,
    pitched: float,
    original: float,
    wort: GravitySample | None,
) -> BeerSample:
    sample, day = kept.sample, (kept.at.wall - pitched) / DAY_S
    if sample.hours is not None:
        day = sample.hours / 24.0
    day = max(day, 0.0)
    if not is_refractometer(sample):
        gravity, half_width = hydrometer_gravity(sample, recipe.process)
        reading = BeerReading(day, gravity, half_width)
        return BeerSample(kept.entry, kept.typed, kept.at, day, reading)
    light = refractometer_gravity(sample, original, wort)
    told = BeerReading(day, light.linear, light.half_width, by_refractometer=True)
    return BeerSample(kept.entry, kept.typed, kept.at, day, told if light.holds else None, light)


def _packing(
    recipe: Recipe, outlook: Outlook, found: Fermenting, samples: tuple[BeerSample, ...]
) -> Packing:
    """Return what follows for packaging of the beer that is really there."""
    process = recipe.process
    drawn_l = SAMPLE_L * sum(1 for each in samples if each.by_refractometer is None)
    beer_l = max(float(outlook.day.beer.packaged_l) - drawn_l, 0.0)
    warmest_c = found.warmest_since_done_c
    kind = Bottle(process.bottle)
    sizes = (filled_by(BOTTLE_L, kind, beer_l),) if process.package == Package.BOTTLES else ()
    return Packing(
        beer_l,
        number(process, "carbonation"),
        warmest_after_c(process) if warmest_c is None else warmest_c,
        None if found.standing is Standing.NOT_READ else found.may_fall[1],
        Package(process.package),
        PrimingSugar(process.priming_sugar),
        sizes,
        number(process, "serving_temperature"),
        float(extract_ferments(number(recipe.yeast, "attenuation"))),
        done=found.standing is Standing.DONE,
    )
