"""One quantity in another unit, as `hobwort convert` tells it: by the words that fields take."""

from __future__ import annotations

import math
from typing import NamedTuple

from designer.errors import RefusedInputError
from designer.recipe.kinds import KINDS
from designer.recipe.message import refused, word
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.units.numbers import normalised
from designer.units.pint_units import pint_factor
from designer.units.quick_words import FACTORS
from designer.units.quoting import quoted
from designer.units.reading import read, unit_word
from designer.units.scales import SCALE_WORDS, to_scale
from designer.units.writing import is_bare

MEANT = (*FACTORS, Kind.TEMPERATURE, Kind.GRAVITY, Kind.BEER_COLOUR, Kind.MALT_COLOUR)
"""What is meant where no kind is given, the first one that both words can be of."""

COLDEST_C = -273.15
UNITS_SUCH_AS = message("kg, lb, L, gal, min, °C, °F, °P, EBC, IBU or psi")


class Converted(NamedTuple):
    """A quantity in the unit asked for: its kind, its figure and the ends of its range if any."""

    kind: Kind
    value: float
    ends: tuple[float, float] | None


def convert(text: str, unit: str, kind: Kind | None = None) -> Converted:
    """Return a typed quantity in a unit; with `kind`, only what is of that kind.

    Waits for pint where the unit is a rare one. Raises RefusedInputError.
    """
    word = unit_word(unit)
    kinds = MEANT if kind is None else (kind,)
    known = [each for each in kinds if _is_known(each, word)]
    known = known or [each for each in kinds if word and pint_factor(each, word) is not None]
    if not known:
        if kind is None:
            raise refused(
                "unknown-unit",
                "{unit} is not known as a unit; write {such}",
                unit=quoted(unit),
                such=tr(UNITS_SUCH_AS),
            )
        raise refused(
            "unknown-unit-of",
            "{unit} is not known as a unit of {kind}; write {such}",
            unit=quoted(unit),
            kind=tr(kind.value),
            such=tr(KINDS[kind].accepted),
        )
    refusals = []
    for each in known:
        try:
            return _converted(each, _with_its_unit(each, text), word)
        except RefusedInputError as fault:
            refusals.append(fault)
    raise refusals[0]


def _is_known(kind: Kind, word: str) -> bool:
    return word in FACTORS.get(kind, SCALE_WORDS.get(kind, ()))


def _with_its_unit(kind: Kind, text: str) -> Quantity:
    quantity = read(kind, text)
    if KINDS[kind].bare and is_bare(normalised(quantity.text)):
        raise refused(
            "quantity-without-unit",
            "{text} has no unit; write {accepted}",
            text=quoted(text),
            accepted=word(KINDS[kind].accepted),
        )
    return quantity


def _converted(kind: Kind, quantity: Quantity, word: str) -> Converted:
    ends, range_ends = None, quantity.ends
    if range_ends is None and quantity.spread is not None:
        range_ends = (quantity.value - quantity.spread, quantity.value + quantity.spread)
    if range_ends is not None:
        low, high = range_ends
        ends = (_figure(kind, low, word), _figure(kind, high, word))
    return Converted(kind, _figure(kind, quantity.value, word), ends)


def _figure(kind: Kind, value: float, word: str) -> float:
    if kind is Kind.TEMPERATURE and value < COLDEST_C:
        raise refused(
            "colder-than-all",
            "nothing is colder than {coldest_c} °C; write more degrees",
            coldest_c=COLDEST_C,
        )
    if kind in SCALE_WORDS:
        figure = to_scale(kind, value, word)
    else:
        factor = FACTORS[kind].get(word) or pint_factor(kind, word)
        figure = value / factor if factor else math.inf
    if not math.isfinite(figure):
        raise refused(
            "beyond-all-measure",
            "that is beyond all measure in {word}; choose a larger unit",
            word=word,
        )
    return figure


def plainly(figure: float) -> str:
    """Return a figure to six digits, as it could be typed."""
    return f"{figure:.0f}" if abs(figure) >= 1e6 else f"{figure:.6g}"
