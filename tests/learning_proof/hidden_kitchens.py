"""Kitchens with hidden figures, brewed in and read as a kitchen reads: what is learned of them?

What a kitchen really is, and how far its instruments are off, is drawn once; every brew scatters
about that and is read anew. Figures and errors are drawn as `priors` and `reading_errors` declare
them. What a figure stands for (`TOLD_ALONG`) is as the recipe says.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from math import exp

import numpy as np

from designer.brewday.day import run_from
from designer.brewday.inputs import gather
from designer.brewday.learning.figures import Figure, Seen, Start
from designer.brewday.learning.learned import learned
from designer.brewday.learning.open_figures import TOLD_ALONG, opened
from designer.brewday.learning.priors import DRIFTS, PRIORS, SCATTERS
from designer.brewday.learning.said_by_day import NEW_EACH_TIME, SeenOfDay, said_by_day
from designer.brewday.measured.looks import LookingRun, read_of
from designer.brewday.measured.observed import Told
from designer.brewday.measured.reading_errors import error_of, instrument_of
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.scores import MovedPlain
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.brewday.tolerances import LatinHypercube, LineInput
from designer.library.recipe_file import load
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path

READ = (
    (Measured.WATER_IN, By.SCALE),
    (Measured.BOIL_START_VOLUME, By.DIPSTICK),
    (Measured.BOIL_END_VOLUME, By.DIPSTICK),
    (Measured.INTO_FERMENTER, By.SCALE),
    (Measured.TOPPED_UP, By.MARK),
    (Measured.ORIGINAL_GRAVITY, By.HYDROMETER),
)
FINAL_EYE_SG = 0.0006
COOLED_MIN = 1.8
"""Standard deviations of a final gravity by eye, and of a time taken at the pot."""
FIGURES = (
    Figure.EVAPORATION,
    Figure.LEFT_IN_POT,
    Figure.COOLING,
    Figure.STEEP_YIELD,
    Figure.EXTRACT_BIAS,
    Figure.VOLUME_BIAS,
    Figure.ATTENUATION,
)


@dataclass(frozen=True, slots=True)
class Hidden:
    """What a kitchen really is: its figures now, how far a brew scatters, its instruments."""

    figures: dict[Figure, float]
    scatters: dict[Figure, float]
    scores: dict[str, float]


def porter():
    """The example, cooled in a bath, its figures open; the hydrometer was floated in water."""
    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    process = replace(
        recipe.process,
        evaporation=None,
        left_in_pot=None,
        cool_to=Quantity(25.0, "25 °C"),
        hydrometer_in_water=Quantity(1.0, "1.000 ± 0.001", 0.001),
    )
    yeast = replace(recipe.yeast, attenuation=None)
    return replace(recipe, process=process, yeast=yeast)


def starts(recipe):
    """What is believed before any brew: what the recipe leaves open, about its usual value."""
    known = {each.figure: each for each in opened(recipe)[1]}
    return [
        Start(figure, "", known[figure].value if figure in known else None) for figure in FIGURES
    ]


def kitchen(rng, recipe):
    """Draw a kitchen."""
    figures, scatters = {}, {}
    for start in starts(recipe):
        prior = PRIORS[start.figure]
        value = prior.value if start.value is None else start.value
        times = rng.choice([each for each, _ in SCATTERS], p=[share for _, share in SCATTERS])
        between = sum(share * (each * prior.scatter) ** 2 for each, share in SCATTERS)
        own = max(prior.half_width**2 - between, (0.5 * prior.half_width) ** 2) ** 0.5
        off = own / HALF_WIDTH_SIGMAS * rng.standard_normal()
        figures[start.figure] = value * exp(off) if prior.ratio else max(value + off, 0.0)
        scatters[start.figure] = times * prior.scatter / HALF_WIDTH_SIGMAS
    sampler = LatinHypercube(2)
    gather(recipe, sampler)
    keys = [*sampler.tolerances, "pot mark", "dipstick", "fermenter mark", "hydrometer"]
    return Hidden(figures, scatters, {key: float(rng.standard_normal()) for key in keys})


def drifted(rng, hidden, faster=DRIFTS[0][0]):
    """Return the kitchen one brew later."""
    moved = {}
    for figure, value in hidden.figures.items():
        step = faster * PRIORS[figure].drift / HALF_WIDTH_SIGMAS * rng.standard_normal()
        moved[figure] = value * exp(step) if PRIORS[figure].ratio else max(value + step, 0.0)
    return replace(hidden, figures=moved)


def of_next(rng, hidden):
    """Return the figures of one brew in it."""
    found = {}
    for figure, value in hidden.figures.items():
        off = hidden.scatters[figure] * rng.standard_normal()
        found[figure] = value * exp(off) if PRIORS[figure].ratio else max(value + off, 0.0)
    return found


def brewed(rng, recipe, hidden, figures, number):
    """Brew in a kitchen whose figures are these today; return what the log says of them."""
    really = _with(recipe, figures)
    scores = {key: score for key, score in hidden.scores.items() if not _is_along(key)}
    scores |= {key: float(rng.standard_normal()) for key in NEW_EACH_TIME}
    told_by = {"evaporation", "wort left in the pot", "cooling constant", "steep yield",
               "attenuation", "fermenter mark"}  # fmt: skip
    seen = {}
    sampler = MovedPlain({key: score for key, score in scores.items() if key not in told_by})
    kind = partial(LookingRun, lefts=frozenset(), seen=seen)
    day = run_from(really, gather(really, sampler), kind, noting=False)
    readings = [_read(rng, recipe, scores, seen, figures, what, by) for what, by in READ]
    offset = 0.001 / 2**0.5 / HALF_WIDTH_SIGMAS
    final = float(day.beer.final_gravity) - offset * scores["hydrometer"]
    of_day = [
        SeenOfDay(lambda day: day.beer.final_gravity, final + FINAL_EYE_SG * rng.standard_normal(),
                  FINAL_EYE_SG, "hydrometer", offset),
        SeenOfDay(lambda day: day.fermenter.cooling_min,
                  float(day.fermenter.cooling_min) + COOLED_MIN * rng.standard_normal(),
                  COOLED_MIN),
    ]  # fmt: skip
    open_recipe, asked = opened(recipe)
    return [
        Seen(each.figure, "", each.value, each.spread, f"{number}", float(number), each.shared)
        for each in said_by_day(open_recipe, [Told(each) for each in readings], of_day, asked)
    ]


def _is_along(key):
    template = key.template if isinstance(key, LineInput) else key
    return any(template in each for each in TOLD_ALONG.values())


def _with(recipe, figures):
    """Return the recipe as the kitchen really brews it; what it holds at its mark is no doubt."""
    told = {figure: Quantity(value, "") for figure, value in figures.items()}
    process = replace(
        recipe.process,
        evaporation=told[Figure.EVAPORATION],
        left_in_pot=told[Figure.LEFT_IN_POT],
        cooling_constant=told[Figure.COOLING],
        steep_yield=told[Figure.STEEP_YIELD],
        extract_got=told[Figure.EXTRACT_BIAS],
    )
    fermenter = replace(recipe.fermenter, marks_hold=told[Figure.VOLUME_BIAS])
    yeast = replace(recipe.yeast, attenuation=told[Figure.ATTENUATION])
    return replace(recipe, process=process, fermenter=fermenter, yeast=yeast)


def _read(rng, recipe, scores, seen, figures, what, by):
    """Return a reading of what is there, as far off as its instrument and the eye are."""
    there = float(read_of(seen, what, 0.0))
    reading = Reading(what, there, by)
    error, key = error_of(recipe, reading), instrument_of(recipe, reading, ())
    shared, own = error.shared / HALF_WIDTH_SIGMAS, error.own / HALF_WIDTH_SIGMAS
    if what is Measured.TOPPED_UP:
        there /= figures[Figure.VOLUME_BIAS]
        return replace(reading, value=there + own * 0.02 * rng.standard_normal())
    value = there - shared * scores.get(key, 0.0) + own * rng.standard_normal()
    return replace(reading, value=value)


def known_after(seens, recipe, brews):
    """Return what is known of each figure after so many brews."""
    until = [each for each in seens if each.at < brews]
    return {each.figure: each for each in learned(until, starts(recipe)) if not each.subject}


def generator(seed):
    """Return the source of chance of a kitchen."""
    return np.random.default_rng(seed)
