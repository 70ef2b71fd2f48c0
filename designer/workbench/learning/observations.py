"""What a brew's log says of the figures of the kitchen.

Readings of the day are asked through the same simulation (`brewday/learning/said_by_day.py`); what
takes no day, what the hydrometer shows in water and what two instruments say of one wort, is taken
as it was read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot
from statistics import fmean

from designer.brewday.explaining.asked import Drawn, GravitySample, Scale, Stirred, Taken, TestCode
from designer.brewday.instrument import WATER_SG, trusted_within
from designer.brewday.learning.figures import Figure, Seen
from designer.brewday.learning.open_figures import OpenFigure, opened
from designer.brewday.learning.said_by_day import Said, SeenOfDay, said_by_day
from designer.brewday.measured.known_plan import KnownPlan
from designer.brewday.measured.observed import Told
from designer.brewday.measured.reading_errors import (
    DIPSTICK,
    EYE_SG,
    FERMENTER_MARK,
    HYDROMETER,
    POT_MARK,
)
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.results import Day
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.recipe.document import Recipe
from designer.recipe.plan import Pour, is_planned, pours, recipe_of_pour
from designer.workbench.brew.afterwards import KeptSample
from designer.workbench.brew.as_brewed import as_brewed, readings_as_brewed
from designer.workbench.brew.brewing import Brewing, Status
from designer.workbench.brew.reckoning import where_it_was
from designer.wort.density import gravity_from_plato, plato_from_gravity
from designer.wort.hydrometer import true_gravity
from designer.wort.numeric import Numeric

DONE_WITHIN_SG = 0.0015
DONE_APART_S = 24 * 3600.0
DONE_AFTER_H = 96.0
"""Two samples so near, so far apart and so long after the yeast tell that a beer is done; as the
trade has it, a stable gravity (common practice)."""
WATER_EYE_SG = 0.0005
PAIR_APART_S = 3 * 3600.0
BRIX_EYE = 0.1
PLATO_OF_SG = 250.0
"""About so many °P are a unit of gravity: a point is a quarter of a degree."""
COOLED_WITHIN_MIN = 3.0
"""By so much a time that was taken by going to the pot is off, half its 5 to 95 % range."""
_POT = frozenset((Figure.EVAPORATION, Figure.LEFT_IN_POT, Figure.COOLING))
_MARKS_OF_POT = (POT_MARK, DIPSTICK, "evaporation", "wort left in the pot")
_SURE_MIXED = (Stirred.HARD, Stirred.POURED)


def observations_of(uid: str, brewing: Brewing) -> tuple[Seen, ...]:
    """Return what the log of a brew of that lasting name says, each figure as the brewer counts it.

    Bitterness is never among it: nobody can taste how many units there are.
    """
    began = brewing.began
    if began is None:
        return ()
    brewing = where_it_was(brewing)
    recipe = as_brewed(brewing.recipe, brewing)
    counts = dict(brewing.after.counts)
    found = [*_of_days(recipe, brewing), *_of_water(brewing), *_of_pairs(recipe, brewing)]
    return tuple(
        Seen(
            said.figure,
            subject,
            said.value,
            said.spread,
            uid,
            began.wall,
            tuple((_named(recipe, key), off) for key, off in said.shared),
            counts.get(str(said.figure)),
        )
        for subject, said in found
    )


def _named(recipe: Recipe, key: str) -> str:
    """Return the name of what others share: marks are those of one vessel."""
    if key in _MARKS_OF_POT:
        return f"{key} {recipe.pot.name}"
    return f"{key} {recipe.fermenter.name}" if key == FERMENTER_MARK else key


_Of = tuple[str, Said]
"""The subject, and what is said of it."""


def _of_days(recipe: Recipe, brewing: Brewing) -> Iterator[_Of]:
    """Yield what the day says, or each of the days of a plan."""
    readings = _with_sampled(recipe, brewing, readings_as_brewed(brewing))
    if not is_planned(recipe):
        told = [Told(each) for each in readings]
        yield from _of_day(recipe, told, _seen_of_day(recipe, brewing, 1, 1))
        return
    plan, seen_boils = KnownPlan(recipe, readings), set[int]()
    all_of = pours(recipe)
    for each in all_of:
        seen = _seen_of_day(recipe_of_pour(recipe, each), brewing, each.boil, each.fermenter)
        for subject, said in _of_day(recipe_of_pour(recipe, each), plan.own(each), seen):
            if _is_of_pour(said.figure, each, all_of, seen_boils):
                yield subject, said
        seen_boils.add(each.boil)


def _is_of_pour(figure: Figure, pour: Pour, all_of: Sequence[Pour], seen: set[int]) -> bool:
    """Whether a pour's day may say it: a boil once, a fermenter where one boil fills it."""
    if figure in _POT:
        return pour.boil not in seen
    return sum(each.fermenter == pour.fermenter for each in all_of) == 1


def _of_day(recipe: Recipe, told: Sequence[Told], seen: Sequence[SeenOfDay]) -> Iterator[_Of]:
    open_recipe, figures = opened(recipe)
    asked = [each for each in figures if _has_subject(recipe, each)]
    for said in said_by_day(open_recipe, told, seen, asked):
        yield _subject(recipe, said.figure), said


def _has_subject(recipe: Recipe, figure: OpenFigure) -> bool:
    """Whether the figure is of something with a name; those of the brewer need none."""
    own = figure.figure in (Figure.STEEP_YIELD, Figure.EXTRACT_BIAS)
    return own or bool(_subject(recipe, figure.figure).strip())


def _subject(recipe: Recipe, figure: Figure) -> str:
    if figure in _POT:
        return recipe.pot.name
    if figure is Figure.VOLUME_BIAS:
        return recipe.fermenter.name
    return recipe.yeast.name if figure is Figure.ATTENUATION else ""


def _with_sampled(
    recipe: Recipe, brewing: Brewing, readings: tuple[Reading, ...]
) -> tuple[Reading, ...]:
    """Return readings with the gravity of a mixed sample, of each fermenter that has none."""
    read = {each.fermenter for each in readings if each.what is Measured.ORIGINAL_GRAVITY}
    found = dict[int, Reading]()
    for kept in brewing.after.samples:
        sample = kept.sample
        is_mixed = sample.stirred in _SURE_MIXED or sample.drawn is Drawn.JAR
        gravity = _gravity_of(recipe, sample)
        if sample.taken is Taken.TOPPED_UP and is_mixed and gravity is not None:
            found[sample.fermenter] = Reading(
                Measured.ORIGINAL_GRAVITY, gravity, sample.by, fermenter=sample.fermenter
            )
    return (*readings, *(each for number, each in found.items() if number not in read))


def _gravity_of(recipe: Recipe, sample: GravitySample) -> float | None:
    """Return the gravity at 20 °C of a hydrometer's sample; None where that cannot be told."""
    if sample.by is not By.HYDROMETER or sample.scale is Scale.BRIX:
        return None
    shown = sample.shown
    if sample.scale is Scale.PLATO:
        shown = float(gravity_from_plato(shown))
    in_water = sample.in_water
    if in_water is None and recipe.process.hydrometer_in_water is not None:
        in_water = recipe.process.hydrometer_in_water.value
    at = sample.made_for_c if sample.sample_c is None else sample.sample_c
    off = 0.0 if in_water is None else in_water - WATER_SG
    return float(true_gravity(shown - off, at, sample.made_for_c))


def _seen_of_day(recipe: Recipe, brewing: Brewing, boil: int, fermenter: int) -> list[SeenOfDay]:
    found = [_final(recipe, brewing, fermenter), _cooling(brewing, boil)]
    return [each for each in found if each is not None]


def _final(recipe: Recipe, brewing: Brewing, fermenter: int) -> SeenOfDay | None:
    """Return the gravity at which a beer stayed; None while it may still fall."""
    after = brewing.after
    own = [
        (each, gravity)
        for each in after.samples
        if each.sample.taken is Taken.FERMENTING
        and each.sample.fermenter == fermenter
        and (gravity := _gravity_of(recipe, each.sample)) is not None
    ]
    if not own or not (after.packaged is not None or _stands_still(brewing, own)):
        return None
    whole = trusted_within(recipe.process) / HALF_WIDTH_SIGMAS
    eye = min(EYE_SG / HALF_WIDTH_SIGMAS, whole / 2.0**0.5)
    return SeenOfDay(
        _final_gravity, own[-1][1], eye, HYDROMETER, max(whole**2 - eye**2, 0.0) ** 0.5
    )


def _final_gravity(day: Day) -> Numeric:
    return day.beer.final_gravity


def _stands_still(brewing: Brewing, own: Sequence[tuple[KeptSample, float]]) -> bool:
    pitched = brewing.finished or brewing.began
    (last, gravity), *before = reversed(own)
    hours = last.sample.hours
    if hours is None and pitched is not None:
        hours = (last.at.wall - pitched.wall) / 3600.0
    if hours is None or hours < DONE_AFTER_H:
        return False
    return any(
        last.at.wall - each.at.wall >= DONE_APART_S and abs(was - gravity) <= DONE_WITHIN_SG
        for each, was in before
    )


def _cooling(brewing: Brewing, boil: int) -> SeenOfDay | None:
    """Return the minutes that a boil's pot took to cool, where both ends were told at the time."""
    read = brewing.reading_at(Measured.COOLED, boil)
    if read is None or read.by_guess:
        return None
    began = None
    for state in brewing.states:
        if state.step.boil != boil:
            continue
        if state.step.kind == "cool":
            break
        if state.step.kind in ("flame-out", "stand") and state.status is Status.DONE:
            entry = brewing.entry(state.entry)
            began = None if entry is None or entry.by_guess else state.at
    if began is None:
        return None
    same = began.boot and began.boot == read.at.boot
    minutes = ((read.at.up - began.up) if same else (read.at.wall - began.wall)) / 60.0
    if minutes <= 0.0:
        return None
    return SeenOfDay(_cooling_min, minutes, COOLED_WITHIN_MIN / HALF_WIDTH_SIGMAS)


def _cooling_min(day: Day) -> Numeric:
    return day.fermenter.cooling_min


def _of_water(brewing: Brewing) -> Iterator[_Of]:
    """Yield what the hydrometer showed in water of the temperature that it is made for."""
    shown = [
        each.answer.value
        for each in brewing.after.answers
        if each.answer.test is TestCode.WATER_CHECK and each.answer.value is not None
    ]
    shown += [e.sample.in_water for e in brewing.after.samples if e.sample.in_water is not None]
    told = list(dict.fromkeys(shown))  # what stands beside each sample was read once
    if told:
        spread = WATER_EYE_SG / HALF_WIDTH_SIGMAS
        yield "", Said(Figure.HYDROMETER, fmean(told), spread)


def _of_pairs(recipe: Recipe, brewing: Brewing) -> Iterator[_Of]:
    """Yield what a refractometer showed of worts over what the hydrometer says is in them."""
    samples = [each for each in brewing.after.samples if each.sample.taken is not Taken.FERMENTING]
    ratios, spreads = [], []
    for each in samples:
        if each.sample.by is not By.REFRACTOMETER or each.sample.scale is not Scale.BRIX:
            continue
        for other in samples:
            gravity = _gravity_of(recipe, other.sample)
            near = abs(other.at.wall - each.at.wall) <= PAIR_APART_S
            if gravity is None or not near or other.sample.taken is not each.sample.taken:
                continue
            plato = float(plato_from_gravity(gravity))
            if plato > 1.0:
                ratios.append(each.sample.shown / plato)
                spreads.append(_pair_spread(recipe, each.sample.shown, plato))
    if ratios:
        own, shared = spreads[0]
        spread = own / len(ratios) ** 0.5
        off = ((HYDROMETER, shared),)
        yield "", Said(Figure.WORT_CORRECTION, fmean(ratios), spread, off)


def _pair_spread(recipe: Recipe, brix: float, plato: float) -> tuple[float, float]:
    """Return how far off the ratio is of one pair: by eye, and by the hydrometer."""
    whole, ratio = trusted_within(recipe.process), brix / plato
    eye = min(EYE_SG, whole / 2.0**0.5)
    by_eye = hypot(BRIX_EYE / brix, PLATO_OF_SG * eye / plato) / HALF_WIDTH_SIGMAS
    offset = max(whole**2 - eye**2, 0.0) ** 0.5
    return ratio * by_eye, ratio * PLATO_OF_SG * offset / plato / HALF_WIDTH_SIGMAS
