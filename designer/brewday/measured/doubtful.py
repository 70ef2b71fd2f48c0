"""Readings that no error explains: asked about at once, with the slips that would explain them.

A reading is doubtful that lies further from its forecast than three and a half standard deviations
of both together. What the brewer decides himself (how much water, how hot a steep) may be otherwise
than planned, so there the room is wider. Beyond what can be at all, the limit is told. Nothing is
refused: the brewer may have it measured anyway.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from math import hypot
from typing import Any

from designer.brewday.measured.expecting import expected
from designer.brewday.measured.reading_errors import usual_half_width
from designer.brewday.measured.readings import Measured, Reading
from designer.brewday.measured.slip import IN_POT, KIND_OF, Slip
from designer.brewday.measured.slips import slips_of
from designer.brewday.results import Outlook, Range
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.recipe.document import Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.message import Message, Number, in_turn, say
from designer.recipe.plan import boils_of, fermenters_of, recipe_of_boil
from designer.recipe.quantity import Kind, Quantity

FURTHEST = 3.5
"""Standard deviations beyond which an error explains no reading: one of two thousand, and a sample
that is read at 50 °C is mostly further off."""
FITS_WITHIN = 2.0
"""Standard deviations within which a slip explains a reading."""
MOST_SLIPS = 3
LEAST_GRAVITY_SG, MOST_GRAVITY_SG = 0.98, 1.2
"""Between these lie all worts and beers: spirits are lighter, syrups heavier; common practice."""
MOST_ALPHA = 0.3
COLDEST_C, ABOVE_THE_BOIL_K = -2.0, 2.0
VESSEL_OFF = 1.05
"""A pot may hold a little more than is said of it; common practice, no source."""
DECIDED: dict[Measured, tuple[float, bool]] = {
    Measured.WATER_IN: (0.16, True),
    Measured.STRIKE: (8.0, False),
    Measured.STEEP: (8.0, False),
    Measured.COOLED: (16.0, False),
    Measured.TOPPED_UP: (0.12, True),
    Measured.ALPHA: (0.3, True),
    Measured.WEIGHT: (0.25, True),
}
"""Half widths of what brewers do otherwise than planned, and whether as a part of it; judged."""


@dataclass(frozen=True, slots=True)
class Doubtful:
    """A reading that is asked about: why, what may have been meant, and that it can stay.

    `is_impossible` tells that no day could bring it. `anyway` is None for a text that is no
    reading at all and so cannot stay.
    """

    reading: Reading
    message: Message
    slips: tuple[Slip, ...]
    anyway: Message | None
    is_impossible: bool = False


def misread(
    reading: Reading, outlook: Outlook, recipe: Recipe, typed: str, beside: Sequence[Reading] = ()
) -> Doubtful | None:
    """Return what may have been meant by a text that is no reading, such as 46 for a gravity.

    `reading` has the bare figure of the text. None where no slip explains it.
    """
    found = doubts_of(reading, outlook, recipe, typed=typed, beside=beside)
    if found is None or not found.slips:
        return None
    why = say("reading-none", "“{typed}” is no such reading.", typed=typed)
    return replace(found, message=why, anyway=None)


Expect = Callable[[Reading], Range]
"""Tells what would be read where a reading was taken."""


def doubts_of(
    reading: Reading,
    outlook: Outlook,
    recipe: Recipe,
    *,
    typed: str = "",
    beside: Sequence[Reading] = (),
    expect: Expect | None = None,
    half_width: Callable[[Reading], float] | None = None,
) -> Doubtful | None:
    """Return what is doubtful of a reading; None where an error explains it.

    `outlook` is that of the day before the reading. `typed` is its text, `beside` are the other
    blanks of the day. `expect` and `half_width` tell what would be read there and how far off a
    reading may be; left out, they are those of the outlook and the usual ones.
    """
    expect = expect or partial(_expected, outlook, recipe)
    half_width = half_width or partial(usual_half_width, recipe)
    forecast = expect(reading)
    limit = _limit(reading, outlook, recipe)
    if limit is None and _off(reading, forecast, half_width) <= FURTHEST:
        return None
    kind = KIND_OF[reading.what]
    ranked = sorted(
        _likely(reading, outlook, recipe, expect, half_width, typed, beside),
        key=lambda each: each[0],
    )
    far = say(
        "reading-far",
        "{0} is far from the forecast, {1}: no reading is that far off.",
        (kind, reading.value),
        (kind, forecast.value),
    )
    again = say("reading-again", "Read it again, or have it measured anyway.")
    return Doubtful(
        reading,
        in_turn(limit or far, again),
        tuple(_different([slip for _, slip in ranked]))[:MOST_SLIPS],
        say("reading-anyway", "Measured anyway: {0}", (kind, reading.value)),
        is_impossible=limit is not None,
    )


def _expected(outlook: Outlook, recipe: Recipe, reading: Reading) -> Range:
    """Return what would be read: of the day, or of the line that is weighed."""
    if reading.what not in (Measured.ALPHA, Measured.WEIGHT):
        return expected(outlook, reading)
    boiled = recipe_of_boil(recipe, min(max(reading.boil, 1), len(boils_of(recipe))))
    lists = "hops" if reading.what is Measured.ALPHA else reading.lines
    lines: tuple[Any, ...] = getattr(boiled, lists, ())
    line = next((each for each in lines if each.line_id == reading.line_id), None)
    field = "alpha" if reading.what is Measured.ALPHA else "amount"
    found: Quantity | None = getattr(line, field, None)
    value = reading.value if found is None else found.value
    return Range(value, value, value)


def _off(reading: Reading, forecast: Range, half_width: Callable[[Reading], float]) -> float:
    """Return how far a reading is off, in standard deviations of reading and forecast together."""
    above = reading.value > forecast.value
    own = forecast.high - forecast.value if above else forecast.value - forecast.low
    room, is_part = DECIDED.get(reading.what, (0.0, False))
    room = room * abs(forecast.value) if is_part else room
    sigma = hypot(own, half_width(reading), room) / HALF_WIDTH_SIGMAS
    return abs(reading.value - forecast.value) / max(sigma, 1e-9)


def _likely(
    reading: Reading,
    outlook: Outlook,
    recipe: Recipe,
    expect: Expect,
    half_width: Callable[[Reading], float],
    typed: str,
    beside: Sequence[Reading],
) -> Iterator[tuple[float, Slip]]:
    for slip in slips_of(reading, recipe, expect(reading), typed, beside):
        meant = slip.meant
        if _limit(meant, outlook, recipe) is not None:
            continue
        off = _off(meant, expect(meant), half_width)
        if off <= FITS_WITHIN:
            yield off + slip.odd, slip


def _different(slips: Sequence[Slip]) -> Iterator[Slip]:
    """Yield each that comes to another reading than those before."""
    known: set[tuple[Measured, str]] = set()
    for each in slips:
        means = each.meant.what, f"{each.meant.value:.3g}"
        if KIND_OF[each.meant.what] is Kind.GRAVITY:
            means = each.meant.what, f"{each.meant.value:.3f}"
        if means not in known:
            known.add(means)
            yield each


def _limit(reading: Reading, outlook: Outlook, recipe: Recipe) -> Message | None:
    """Return why no day could bring a reading; None where one could."""
    kind, value = KIND_OF[reading.what], reading.value
    if kind is Kind.GRAVITY:
        return _limit_of_gravity(value)
    if kind is Kind.TEMPERATURE:
        return _limit_of_temperature(value, float(outlook.day.pot.boiling_c))
    if kind is Kind.VOLUME:
        return _limit_of_volume(reading, recipe)
    if kind is Kind.FRACTION and not 0.0 < value <= MOST_ALPHA:
        return say(
            "reading-no-alpha",
            "No hop has {0} of alpha acid; {1} is the most.",
            (kind, value),
            (kind, MOST_ALPHA),
        )
    return None if value > 0.0 else say("reading-nothing", "Nothing was weighed.")


def _limit_of_gravity(value: float) -> Message | None:
    if LEAST_GRAVITY_SG <= value <= MOST_GRAVITY_SG:
        return None
    return say(
        "reading-no-gravity",
        "{figure} is no gravity of wort: that lies between {0} and {1}.",
        (Kind.GRAVITY, LEAST_GRAVITY_SG),
        (Kind.GRAVITY, MOST_GRAVITY_SG),
        figure=Number(f"{value:.4g}"),
    )


def _limit_of_temperature(value: float, boils_c: float) -> Message | None:
    if value > boils_c + ABOVE_THE_BOIL_K:
        figures = (Kind.TEMPERATURE, value), (Kind.TEMPERATURE, boils_c)
        return say("reading-too-hot", "{0} is hotter than it boils, at {1}.", *figures)
    if value < COLDEST_C:
        return say("reading-too-cold", "At {0} it would be ice.", (Kind.TEMPERATURE, value))
    return None


def _limit_of_volume(reading: Reading, recipe: Recipe) -> Message | None:
    if reading.value <= 0.0:
        return say("reading-empty", "That is an empty vessel.")
    in_pot = reading.what in IN_POT
    if in_pot:
        vessel = boils_of(recipe)[min(reading.boil, len(boils_of(recipe))) - 1].pot
        holds = number_or_none(vessel, "volume")
    else:
        fermenters = fermenters_of(recipe)
        holds = number_or_none(
            fermenters[min(reading.fermenter, len(fermenters)) - 1].fermenter, "volume"
        )
    if holds is None or reading.value <= VESSEL_OFF * holds:
        return None
    figures = (Kind.VOLUME, reading.value), (Kind.VOLUME, holds)
    if in_pot:
        return say("reading-over-pot", "{0} is more than the pot holds, {1}.", *figures)
    return say("reading-over-fermenter", "{0} is more than the fermenter holds, {1}.", *figures)
