"""The text of a quantity as a document holds it: it has one meaning, whoever opens the file.

A document is read without regard to any locale: a point before the decimals, and a comma only where
nothing else can be meant. What was typed stands in it as it was typed where it reads so; else its
numbers are written with a decimal point and no grouping, and only if that will not do is the text
made from the value.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache, lru_cache

from designer.errors import RefusedInputError
from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.units.numbers import leading_number, normalised, with_decimal_sign
from designer.units.pint_units import BeingLookedUpError
from designer.units.reading import read, read_when

NEAR = 0.02
"""A text whose reading is this near to a worked-out value, as a share, is its rounded figure."""

UNITLESS = tuple(kind for kind, facts in KINDS.items() if not facts.bare)
"""Kinds of which a bare number means something by itself."""

ROUNDING = 1e-12
"""Floats this near each other, as a share, are one figure reckoned in two ways."""


@lru_cache(maxsize=4096)
def as_read(kind: Kind, text: str, *, comma: bool = False) -> Quantity | None:
    """Return the quantity that a document's text means; None if it means none.

    With `comma` it is a text as a place with a decimal comma shows it.
    """
    try:
        return read(kind, text, decimal_comma=comma, kept=True)
    except BeingLookedUpError:
        raise  # not known yet: nothing to remember
    except RefusedInputError:
        return None


def reads_back(kind: Kind, quantity: Quantity) -> bool:
    """Whether the quantity's text means its value, spread and unit to whoever opens the file."""
    return same(as_read(kind, quantity.text), quantity)


def same(found: Quantity | None, wanted: Quantity) -> bool:
    """Return whether both are one quantity, but for the last digit of a worked-out float."""
    if found is None or found.unit != wanted.unit:
        return False
    if found == replace(wanted, text=found.text):
        return True
    pairs = _figures(found, wanted)
    return pairs is not None and all(
        math.isclose(*each, rel_tol=ROUNDING, abs_tol=0.0) for each in pairs
    )


def _figures(found: Quantity, wanted: Quantity) -> list[tuple[float, float]] | None:
    """Return the figures of two quantities side by side; None if one has more than the other."""
    if (found.spread is None, found.ends is None) != (wanted.spread is None, wanted.ends is None):
        return None
    pairs = [(found.value, wanted.value), (found.spread or 0.0, wanted.spread or 0.0)]
    return [*pairs, *zip(found.ends or (), wanted.ends or (), strict=True)]


def lasting(kind: Kind, quantity: Quantity) -> Quantity:
    """Return the quantity with a text that reads back as it; the same one if its text does.

    Where a figure was worked out and its text is the rounded one, the text counts: it is what the
    brewer was shown. So it does for the last digit of a float: a file gives back what the text
    reads as, and 2.54 of 0.01 is not the 0.0254 of a reckoning.
    """
    found = as_read(kind, quantity.text)
    if found is not None and same(found, quantity):
        return _with_figures_of(found, quantity)
    pointed = replace(
        quantity, text=with_decimal_sign(quantity.text, from_comma=True, to_comma=False)
    )
    read_pointed = as_read(kind, pointed.text)
    if read_pointed is not None and same(read_pointed, pointed):
        return _with_figures_of(read_pointed, pointed)
    if found is not None and _is_rounding(found, quantity):
        return found
    return _from_value(kind, quantity)


def _with_figures_of(found: Quantity, wanted: Quantity) -> Quantity:
    """Return what is wanted with the figures as they were read; itself if it has them."""
    made = replace(found, text=wanted.text)
    return wanted if made == wanted else made


def _is_rounding(found: Quantity, wanted: Quantity) -> bool:
    pairs = _figures(found, wanted)
    if pairs is None or found.unit != wanted.unit:
        return False
    return all(math.isclose(*each, rel_tol=NEAR, abs_tol=1e-9) for each in pairs)


def _from_value(kind: Kind, quantity: Quantity) -> Quantity:
    """Write the value in full. Where its last digit cannot be met, the text's reading is taken."""
    text = _in_full(kind, quantity.value, quantity.unit)
    if quantity.ends is not None:
        low, high = (_in_full(kind, each, quantity.unit) for each in quantity.ends)
        text = f"{text} ({low} - {high})"
    elif quantity.spread is not None:
        text = f"{text} ± {_in_full(kind, quantity.spread, quantity.unit)}"
    written = as_read(kind, text)
    return replace(quantity, text=text) if written is None else written


def _in_full(kind: Kind, value: float, piece: str) -> str:
    form = KINDS[kind].metric[-1]
    unit, factor = form.unit or piece, form.per_base
    figure = value * factor
    short = float(f"{figure:.12g}")
    if math.isclose(short / factor, value, rel_tol=ROUNDING):
        figure = short
    digits = f"{figure:.0f}" if figure % 1 == 0.0 and abs(figure) < 1e15 else repr(figure)
    return f"{digits} {unit}".rstrip()


def when_in_locale(text: str, *, from_comma: bool, to_comma: bool) -> str:
    """Return the text of a moment in the other decimal sign where it then says the same."""
    other = with_decimal_sign(text, from_comma=from_comma, to_comma=to_comma)
    try:
        here = read_when(text, decimal_comma=from_comma, kept=True)
        there = read_when(other, decimal_comma=to_comma, kept=True)
    except RefusedInputError:
        return text
    return other if replace(there, text=text) == here else text


def lasting_when(when: When) -> When:
    """Return when something goes in with a text that says so to every reader."""
    found = _when_as_read(when.text)
    if found == when:
        return when
    pointed = _when_as_read(with_decimal_sign(when.text, from_comma=True, to_comma=False))
    for each, near in ((pointed, ROUNDING), (found, NEAR)):
        if each is not None and _is_near(each, when, near):
            return each
    return _when_as_read(_when_in_full(when)) or when


def _is_near(found: When, wanted: When, near: float) -> bool:
    pairs = [(found.minutes, wanted.minutes), (found.days, wanted.days)]
    pairs.append((found.temperature or 0.0, wanted.temperature or 0.0))
    return found.stage is wanted.stage and all(math.isclose(*each, rel_tol=near) for each in pairs)


@lru_cache(maxsize=512)
def _when_as_read(text: str) -> When | None:
    try:
        return read_when(text, kept=True)
    except BeingLookedUpError:
        raise
    except RefusedInputError:
        return None


def _when_in_full(when: When) -> str:
    if when.stage is Stage.BOIL:
        return f"boil {when.minutes:.10g} min"
    if when.stage is Stage.STAND:
        return f"stand {when.minutes:.10g} min at {when.temperature:.10g} °C"
    if when.stage is Stage.DRY_HOP or (when.stage is Stage.FERMENTER and when.days > 0.0):
        return f"{when.stage} {when.days:.10g} days"
    return when.stage.value


_EXPONENT_OR_TO = r"(?<=\d)[eE](?=[+-]?\d)|\bto\b"
_UNIT_BEHIND = r"\s*(?!to\b)([^\d\s±+,-][^\d±+]*?)[,\s]*(?=$|[\d±]|\+/?-|-\s*[\d.]|\bto\b|\band\b)"
_UNIT_AT_END = r"[^\d\s.,'+-][^\d]*$"
_FIGURE_UNIT = r"(?<=[\d½⅓⅔¼¾⅛⅜⅝⅞])(?![eE][+-]?\d)(?=[A-Za-zµ°º%])"
_UNIT_FIGURE = r"(?<=[a-z])(?<!\bm)(?<!\de)(?=[½⅓⅔¼¾⅛⅜⅝⅞\d])"


def is_bare(plain: str) -> bool:
    """Whether normalised text is a number, or several of a span or ±, without any unit."""
    if not plain or plain[-1].isalpha() or plain[-1] == "%":
        return False
    if "e" in plain or "E" in plain or "to" in plain:
        plain = re.sub(_EXPONENT_OR_TO, "", plain)
    return re.search(r"[^\d\s.,'+±/-]|'(?!\d)", plain) is None


def unit_of(text: str) -> str:
    """Return the unit of a text such as "250 g", "1 1/2 oz" or "6.5-8.5 %"; that of the larger
    step of a sum; nothing for a text without a number or a unit."""
    plain = normalised(text).partition("(")[0]  # not that of a range behind the figure
    found = leading_number(plain, decimal_comma=False)
    if found is None:
        return ""
    behind = re.match(_UNIT_BEHIND, found[1]) or re.search(_UNIT_AT_END, found[1])
    return behind.group(behind.lastindex or 0).strip() if behind is not None else ""


def tidied(text: str) -> str:
    """Return what was typed with single spaces, and one between each number and its unit."""
    return _untidy().sub(" ", text)


@cache
def _untidy() -> re.Pattern[str]:
    return re.compile(rf"{_FIGURE_UNIT}|{_UNIT_FIGURE}|\s+")
