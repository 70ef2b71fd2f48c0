"""What a log tells of the gravity of a wort: its samples, what tests showed, and which count.

The reading typed at the stove is the first sample, of which nobody has said yet how it was taken; a
sample that tells more `of` it stands in its place. A cure that changes the wort begins anew: what
was read before it says nothing of the wort after it. What the beer is then, the cure says itself.

A sample counts as the original gravity where its mixing is settled: it was lifted from the bottom
or poured across and is not too warm, or it lies where the day has it. While the newest does not,
what was read before it at the stove does not count either.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.instrument import gravity_at_20, reading_range
from designer.brewday.measured.expecting import expected
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.results import Outlook
from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.quantity import Kind, Quantity
from designer.units import read
from designer.workbench.brew.afterwards import Cured, KeptSample
from designer.workbench.brew.brewing import Brewing, KeptReading
from designer.workbench.typed_sample import sample_typed
from designer.wort.density import gravity_from_plato
from designer.wort.refractometer import WORT_CORRECTION, plato_from_brix

MIXED = (Stirred.HARD, Stirred.POURED)
ONLY_TOLD = ("leave", "type_hydrometer")
"""How the codes of cures begin that only say what is in the fermenter."""
WARMEST_C = 40.0
"""Above it a hydrometer's reading is worth less than its correction: the sample is cooled first."""
_AT = re.compile(r"\s+at\s+|\s*@\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Story:
    """The samples of a wort since it was last changed, the newest last, and what changed it."""

    samples: tuple[KeptSample, ...] = ()
    cured: Cured | None = None

    @property
    def newest(self) -> KeptSample | None:
        """The sample that is asked about."""
        return self.samples[-1] if self.samples else None


def story_of(brewing: Brewing) -> Story:
    """Return what a log tells of the wort of its newest sample."""
    known = _since(brewing)
    cures = brewing.after.cures
    cured = cures[-1] if cures else None
    if not known:
        return Story((), cured)
    own = _wort(known[-1].sample)
    return Story(tuple(each for each in known if _wort(each.sample) == own), cured)


def asked_of(brewing: Brewing, sample: GravitySample, instead_of: str = "") -> Asked:
    """Return what is asked with a sample, which may stand for one that is kept."""
    own, place = _wort(sample), _places(brewing)
    others = [
        each for each in _since(brewing) if _wort(each.sample) == own and each.entry != instead_of
    ]
    first = min((place.get(each.entry, 0) for each in others), default=place.get(instead_of, -1))
    answers, mark_l = [], None
    for each in brewing.after.answers:
        if place.get(each.entry, 0) < first or first < 0:
            continue
        if each.answer.test is TestCode.WEIGH and each.by_mark:
            mark_l = each.answer.value  # marks are off by more than scales
            answers.append(Answer(TestCode.WEIGH))
        else:
            answers.append(each.answer)
    samples = (*(each.sample for each in others), sample)
    return Asked(samples, mark_l=mark_l, answers=tuple(answers))


def _wort(sample: GravitySample) -> tuple[Taken, int]:
    """Return which wort a sample is of: that of the pot is another than the topped up one."""
    return sample.taken, sample.fermenter


def _places(brewing: Brewing) -> dict[str, int]:
    return {each.id: at for at, each in enumerate(brewing.live)}


def _since(brewing: Brewing) -> list[KeptSample]:
    """Return the samples since the wort was last changed."""
    place = _places(brewing)
    since = _changed_at(brewing, place)
    return [each for each in samples_of(brewing) if place.get(each.entry, 0) > since]


def _changed_at(brewing: Brewing, place: dict[str, int]) -> int:
    """Return where in the log the wort was last changed by a cure; -1 where it never was."""
    cures = [place.get(each.entry, -1) for each in brewing.after.cures if changes_wort(each)]
    return max(cures, default=-1)


def _told_at(brewing: Brewing, place: dict[str, int]) -> int:
    """Return where in the log a cure last said what the beer is; -1 where none did."""
    cures = [place.get(each.entry, -1) for each in brewing.after.cures if each.changes]
    return max(cures, default=-1)


def changes_wort(cured: Cured) -> bool:
    """Whether a cure made another wort of it: where it only says what is in it, none did."""
    changes = cured.changes if isinstance(cured.changes, list) else []
    return bool(changes) and not cured.cure.startswith(ONLY_TOLD)


def samples_of(brewing: Brewing) -> tuple[KeptSample, ...]:
    """Return all samples of a log in their order, readings typed at the stove among them."""
    own = brewing.after.samples
    retold = {each.of for each in own}
    at_stove = [
        as_sample(each, brewing.recipe)
        for each in brewing.readings
        if each.reading.what is Measured.ORIGINAL_GRAVITY and each.entry not in retold
    ]
    place = _places(brewing)
    return tuple(sorted((*own, *at_stove), key=lambda each: place.get(each.entry, 0)))


def typed_parts(typed: str) -> tuple[str, str]:
    """Return what was typed of a reading, and of the temperature behind it."""
    text, *at = _AT.split(typed, maxsplit=1)
    return text.strip(), at[0].strip() if at else ""


def as_sample(kept: KeptReading, recipe: Recipe) -> KeptSample:
    """Return a reading typed at the stove as a sample, with how it was taken left open."""
    reading, given = kept.reading, usual_sample(recipe)
    given = replace(given, fermenter=reading.fermenter)
    text, at = typed_parts(kept.typed)
    if reading.by is By.REFRACTOMETER:
        given = replace(given, scale=Scale.BRIX, by=By.REFRACTOMETER)
    try:
        sample = sample_typed(text, at, given, _read)
    except RefusedInputError:  # a slip that was set right: what counts is the corrected reading
        sample = replace(given, shown=reading.value, scale=Scale.SG, in_water=None)
    return KeptSample(kept.entry, sample, kept.typed, kept.at)


def _read(kind: Kind, text: str) -> Quantity:
    return read(kind, text)


def usual_sample(recipe: Recipe | None) -> GravitySample:
    """Return what is usual of a sample: by the hydrometer of the recipe, the rest not told."""
    if recipe is None:
        return GravitySample(0.0)
    typed = recipe.process.hydrometer_in_water
    return GravitySample(
        0.0,
        made_for_c=number(recipe.process, "hydrometer_made_for"),
        in_water=None if typed is None else typed.value,
    )


def gravity_of(sample: GravitySample) -> float:
    """Return the gravity at 20/20 °C that a sample shows, corrected by all that is told of it."""
    shown = sample.shown
    if sample.scale is Scale.BRIX:
        return float(
            gravity_from_plato(plato_from_brix(shown, sample.correction or WORT_CORRECTION))
        )
    in_sg = float(gravity_from_plato(shown)) if sample.scale is Scale.PLATO else shown
    if sample.in_water is not None:
        in_sg -= sample.in_water - 1.0
    sample_c = sample.made_for_c if sample.sample_c is None else sample.sample_c
    return gravity_at_20(in_sg, sample_c, sample.made_for_c)


def is_too_warm(sample: GravitySample) -> bool:
    """Whether a sample has to be cooled before its reading says anything."""
    floats = sample.scale is not Scale.BRIX
    return floats and sample.sample_c is not None and sample.sample_c > WARMEST_C


def is_settled(sample: GravitySample) -> bool:
    """Whether a sample is of wort that is mixed, and is cool enough."""
    known_warmth = sample.sample_c is not None or sample.scale is Scale.BRIX
    return sample.stirred in MIXED and known_warmth and not is_too_warm(sample)


def gravity_reading(sample: GravitySample, in_water: float | None = None) -> Reading:
    """Return a sample as a reading of the original gravity, with an error of its own kind.

    `in_water` is what the hydrometer was found to show in water since.
    """
    if sample.in_water is None and in_water is not None:
        sample = replace(sample, in_water=in_water)
    value, fermenter = gravity_of(sample), sample.fermenter
    return Reading(Measured.ORIGINAL_GRAVITY, value, sample.by, fermenter=fermenter)


def superseded(brewing: Brewing) -> frozenset[str]:
    """Return the entries of readings at the stove that a later sample, or a cure, stands for."""
    place = _places(brewing)
    since, last = _told_at(brewing, place), dict[int, int]()
    for each in brewing.after.samples:
        if each.sample.taken is Taken.TOPPED_UP:
            last[each.sample.fermenter] = place.get(each.entry, 0)
    return frozenset(
        each.entry
        for each in brewing.readings
        if each.reading.what is Measured.ORIGINAL_GRAVITY
        and place.get(each.entry, 0) < max(last.get(each.reading.fermenter, -1), since)
    )


def tried_in_water(brewing: Brewing) -> float | None:
    """Return what the hydrometer was found to show in water; None where nobody tried it."""
    found = [e.answer.value for e in brewing.after.answers if e.answer.test is TestCode.WATER_CHECK]
    return found[-1] if found else None


Fits = Callable[[GravitySample], bool]


def gravities_read(brewing: Brewing, fits: Fits = is_settled) -> tuple[tuple[str, Reading], ...]:
    """Return the newest sample of each fermenter that counts as its original gravity, by entries.

    A reading at the stove that is newer counts by itself and leaves no sample to count.
    """
    place = _places(brewing)
    since = _told_at(brewing, place)
    newest: dict[int, tuple[str, Reading] | None] = {}
    for each in samples_of(brewing):
        sample = each.sample
        if sample.taken is not Taken.TOPPED_UP or place.get(each.entry, 0) <= since:
            continue
        if each not in brewing.after.samples:
            newest[sample.fermenter] = None
        elif fits(sample):
            reading = gravity_reading(sample, tried_in_water(brewing))
            newest[sample.fermenter] = each.entry, reading
    return tuple(each for each in newest.values() if each is not None)


def has_unsettled(brewing: Brewing) -> bool:
    """Whether the day has to tell if a sample counts, for nobody has said that it is mixed."""
    samples = [each.sample for each in brewing.after.samples]
    return any(e.taken is Taken.TOPPED_UP and not is_settled(e) for e in samples)


def fits_day(outlook: Outlook, recipe: Recipe) -> Fits:
    """Return what tells whether a sample counts on a day: it is settled, or lies in its band."""

    def fits(sample: GravitySample) -> bool:
        if is_settled(sample):
            return True
        if sample.sample_c is None or is_too_warm(sample):
            return False
        return _lies_in(sample, outlook, recipe)

    return fits


def is_odd(brewing: Brewing, days: Iterable[Outlook]) -> bool:
    """Whether the newest gravity of the topped-up wort lies where none of these days has it."""
    newest = story_of(brewing).newest
    if newest is None or newest.sample.taken is not Taken.TOPPED_UP:
        return False
    return not any(_lies_in(newest.sample, each, brewing.recipe) for each in days)


def _lies_in(sample: GravitySample, outlook: Outlook, recipe: Recipe) -> bool:
    """Whether a sample shows what a hydrometer should on a day."""
    reading = gravity_reading(sample)
    low, high = reading_range(expected(outlook, reading), recipe.process)
    return low <= reading.value <= high
