"""Slips that lead to an impossible reading: what may have been meant by it instead.

Units are mixed up, a gravity is written without its point, a hydrometer floats in wort that is
still warm, a digit is another one, a comma moves, or the figure belongs into the blank beside. Each
tells the reading that would then have been meant; which of them is likely, the forecast tells.

The list is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import pi

from designer.brewday.measured.digit_slips import digits_of, figure_in
from designer.brewday.measured.readings import By, Reading
from designer.brewday.measured.slip import CALLED, IN_POT, KIND_OF, Slip, did_you_mean
from designer.brewday.results import Range
from designer.brewday.search import root
from designer.brewday.weighable import KG_PER_LB, KG_PER_OZ, L_PER_GAL
from designer.recipe.document import Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.message import Number, say, word
from designer.recipe.plan import boils_of
from designer.recipe.quantity import Kind
from designer.translation import message
from designer.wort.density import gravity_from_plato
from designer.wort.hydrometer import true_gravity

UNITS: dict[Kind, dict[str, tuple[str, float]]] = {
    Kind.VOLUME: {
        "litres": (message("L"), 1.0),
        "gallons": (message("gal"), L_PER_GAL),
        "quarts": (message("qt"), L_PER_GAL / 4.0),
        "imperial gallons": (message("imp gal"), 4.54609),
        "millilitres": (message("mL"), 0.001),
    },
    Kind.MASS: {
        "grams": (message("g"), 0.001),
        "kilograms": (message("kg"), 1.0),
        "ounces": (message("oz"), KG_PER_OZ),
        "pounds": (message("lb"), KG_PER_LB),
    },
}
"""Units that are mixed up, and what one is in the base unit."""
BARE = {Kind.VOLUME: ("litres",), Kind.MASS: ("grams", "kilograms")}
"""Units in which a figure is taken to be where its text is not known."""
WARMEST_SAMPLE_C, LEAST_WARMER_K, SAMPLE_STEP_C = 60.0, 8.0, 5.0
"""Beyond that a correction says nothing (`designer.wort.hydrometer`); nearer it changes nothing."""


def slips_of(
    reading: Reading,
    recipe: Recipe,
    forecast: Range,
    typed: str = "",
    beside: Sequence[Reading] = (),
) -> Iterator[Slip]:
    """Yield what may have been meant.

    `typed` is the text as it was typed, `beside` are the other blanks, with what is expected there.
    """
    kind = KIND_OF[reading.what]
    if kind is Kind.TEMPERATURE:
        yield from _degrees(reading)
    elif kind is Kind.GRAVITY:
        yield from _gravities(reading)
        yield from _warm(reading, recipe, forecast)
    elif kind in UNITS:
        yield from _other_units(reading, kind, typed)
        yield from _depth(reading, recipe)
    yield from digits_of(reading, kind, forecast, typed)
    yield from _beside(reading, kind, beside)


def _degrees(reading: Reading) -> Iterator[Slip]:
    read = reading.value
    celsius = (read - 32.0) / 1.8
    yield Slip(
        "fahrenheit",
        say(
            "slip-fahrenheit",
            "Was it {figure} °F? That is {0}.",
            (Kind.TEMPERATURE, celsius),
            figure=Number(f"{read:g}"),
        ),
        replace(reading, value=celsius),
    )
    meant = 1.8 * read + 32.0
    yield Slip(
        "celsius",
        say("slip-celsius", "Was it {figure} °C, and not °F?", figure=f"{meant:.0f}"),
        replace(reading, value=meant),
    )


def _gravities(reading: Reading) -> Iterator[Slip]:
    read = reading.value
    written = {
        "points without 1.": 1.0 + read / 1000.0,
        "no decimal point": read / 1000.0,
        "no leading 1": 1.0 + read,
        "hundredths": 1.0 + (read - 1.0) / 10.0,
        "tenths left out": 1.0 + (read - 1.0) * 10.0,
    }
    for code, meant in written.items():
        yield Slip(code, did_you_mean(Kind.GRAVITY, meant), replace(reading, value=meant))
    for plato in (read, 1000.0 * (read - 1.0)):
        if 0.0 < plato < 40.0:
            meant = float(gravity_from_plato(plato))
            text = say(
                "slip-plato",
                "Was it {figure} °P? That is {0}.",
                (Kind.GRAVITY, meant),
                figure=Number(f"{plato:.4g}"),
            )
            yield Slip("plato", text, replace(reading, value=meant))


def _warm(reading: Reading, recipe: Recipe, forecast: Range) -> Iterator[Slip]:
    """A sample that was not cooled reads low: how warm it was, so that it fits."""
    if reading.by is not By.HYDROMETER or not 0.95 < reading.value < 1.2:
        return
    made_for = number(recipe.process, "hydrometer_made_for")
    coolest = made_for + LEAST_WARMER_K

    def gravity(sample_c: float) -> float:
        return float(true_gravity(reading.value, sample_c, made_for))

    first, last = (coolest, gravity(coolest)), (WARMEST_SAMPLE_C, gravity(WARMEST_SAMPLE_C))
    wanted = min(max(forecast.value, first[1]), last[1])
    at_c = SAMPLE_STEP_C * round(root(gravity, wanted, first, last, 1e-5) / SAMPLE_STEP_C)
    meant = gravity(at_c)
    figures = (Kind.TEMPERATURE, at_c), (Kind.GRAVITY, meant)
    text = say("slip-warm", "Was the sample still warm, about {0}? Then it is {1}.", *figures)
    yield Slip("warm", text, replace(reading, value=meant), odd=0.5)


def _other_units(reading: Reading, kind: Kind, typed: str) -> Iterator[Slip]:
    """A figure of one unit that was taken for one of another."""
    units, number_ = UNITS[kind], figure_in(typed)
    for taken, (_, per_taken) in units.items():
        figure = reading.value / per_taken
        is_it = taken in BARE[kind] if number_ is None else abs(figure - number_) < 0.005 * number_
        if not is_it:
            continue
        for code, (unit, per_unit) in units.items():
            if code == taken:
                continue
            meant = figure * per_unit
            text = say(
                "slip-unit",
                "Was it {figure} {unit}? That is {0}.",
                (kind, meant),
                figure=Number(f"{figure:.4g}"),
                unit=word(unit),
            )
            yield Slip(code, text, replace(reading, value=meant))


def _depth(reading: Reading, recipe: Recipe) -> Iterator[Slip]:
    """The depth of a dipstick, typed as litres."""
    boils = boils_of(recipe)
    across_m = number_or_none(boils[min(reading.boil, len(boils)) - 1].pot, "diameter")
    if across_m is None or reading.what not in IN_POT:
        return
    litres = 2.5 * pi * across_m * across_m * reading.value
    text = say(
        "slip-depth",
        "Was it {figure} cm on the dipstick? That is {0}.",
        (Kind.VOLUME, litres),
        figure=Number(f"{reading.value:g}"),
    )
    yield Slip("depth", text, replace(reading, value=litres, by=By.DIPSTICK))


def _beside(reading: Reading, kind: Kind, others: Sequence[Reading]) -> Iterator[Slip]:
    """A figure that belongs to another blank of the day."""
    place = (reading.what, reading.boil, reading.fermenter)
    for each in others:
        if (each.what, each.boil, each.fermenter) == place or KIND_OF[each.what] is not kind:
            continue
        text = say("slip-beside", "Does it belong to {blank}?", blank=word(CALLED[each.what]))
        yield Slip("beside", text, replace(each, value=reading.value), odd=0.7)
