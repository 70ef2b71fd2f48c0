"""One cell of a pasted table as what its column holds.

Quantities keep the text of the cell, with the unit of its column behind a bare number, and with a
decimal point where a comma would read otherwise on another machine.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity, none_of
from designer.library.table_text import FIELDS
from designer.recipe.choices import HopForm
from designer.recipe.document import FERMENTABLE_KINDS, HOP_FORMS, LINE_TYPES
from designer.recipe.fields import facts_of
from designer.recipe.message import refused, word
from designer.recipe.quantity import Kind, Quantity, When
from designer.units import ShownUnits, read, read_when
from designer.units.numbers import leading_number
from designer.units.pint_units import without_waiting
from designer.units.quick_words import FACTORS
from designer.units.quoting import quoted
from designer.units.reading import WHEN_ACCEPTED

LONGEST_CELL = 100
NUMBER = (
    r"(?:\d+(?:\s+|-)\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d*\s?[½⅓⅔¼¾⅛⅜⅝⅞]|\d+(?:[.,']\d+)*"
    r"|(?<![^\s(])[.,]\d+)"
)
_EXPONENT = re.compile(r"(?<=\d)e(?=[+-]?\d)", re.IGNORECASE)
_UNIT_SIGNS = '%°#"@'
_FIGURE = re.compile(r"\d[\d.,']*\d|\d")
_PIECES = r"tablets?|tabs?|packets?|sachets?|pieces?|tsp|teaspoons?|tbsp|tablespoons?|pinch"


def _either(words: Iterable[str]) -> str:
    return "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))


_MASS, _VOLUME, _TIME = (FACTORS[each] for each in (Kind.MASS, Kind.VOLUME, Kind.TIME))
_MASS_UNIT = _either(word for word in _MASS if word != "#")
_POUNDS, _OUNCES = "lbs?|pounds?", "oz|ounces?"
_SUM = (
    rf"{NUMBER}\s*(?:(?:{_POUNDS})\.?\s*(?:and\s+)?{NUMBER}\s*(?:{_OUNCES})"
    rf"|kg\s*{NUMBER}\s*g)\b\.?"
)
AMOUNT = re.compile(rf"{_SUM}|{NUMBER}\s*(?:{_MASS_UNIT}|ml|{_PIECES})\b\.?", re.IGNORECASE)
_DOSE = re.compile(rf"{NUMBER}\s*(?:{_either([*_MASS, *_VOLUME])}|{_PIECES})\.?", re.IGNORECASE)
_MASSES = re.compile(rf"{NUMBER}\s*(?:{_either(_MASS)})\.?", re.IGNORECASE)
ALPHA_WORD = r"(?:alpha(?:[- ]?acids?)?|\u03b1(?:-acids?)?|a\.?a\.?)"
_ALPHA_BEHIND = re.compile(rf"\s*%?\s*{ALPHA_WORD}$", re.IGNORECASE)
_ALPHA_BEFORE = re.compile(rf"^{ALPHA_WORD}\s*[:=]?\s*", re.IGNORECASE)
COLOUR = re.compile(rf"{NUMBER}(?:\s*-\s*{NUMBER})?\s*(?:°\s*L|EBC|SRM|Lovibond)\b", re.IGNORECASE)
YIELD = re.compile(rf"{NUMBER}(?:\s*-\s*{NUMBER})?\s*(?:ppg\b|L\s?°\s?/\s?kg\b)", re.IGNORECASE)
_FLAME_OUT = re.compile(r"(?:at |@ ?)?(?:flame[- ]?out|end of (?:the )?boil|fo)", re.IGNORECASE)
_DRY = re.compile(rf"(?:dry[- ]?hop(?:ped|ping)?)(?: for)?\s*({NUMBER}\s*\w*)?", re.IGNORECASE)
_DAYS_DRY = re.compile(rf"({NUMBER}\s*(?:d|days?|weeks?)) dry[- ]?hop\w*", re.IGNORECASE)
_AT = re.compile(
    rf"(?:@|at\b)\s*({NUMBER})\s*(?:m|min|mins|minutes?|')?\.?(?:\s*(?:left|remaining))?",
    re.IGNORECASE,
)
_BOILED = re.compile(
    rf"(?:boil(?:ed)?\s*)?(?:for\s+)?({NUMBER}\s*(?:min|mins|minutes?|h|hours?|'))\.?"
    r"(?:\s*(?:boil|left|remaining))?",
    re.IGNORECASE,
)
_WHEN_WORDS = frozenset(
    (
        *_TIME, "steep", "first", "wort", "boil", "boiled", "flame", "out", "flameout", "fo", "hop",
        "stand", "fermenter", "dry", "dryhop", "hopped", "for", "at", "left", "remaining", "end",
        "of", "the", "c", "f", "whirlpool",
    )
)  # fmt: skip
_WORD = re.compile(r"[^\W\d_]+")
_FORMS = {
    "pellet": HopForm.PELLETS,
    "leaf": HopForm.WHOLE,
    "leaves": HopForm.WHOLE,
    "cones": HopForm.WHOLE,
    "cone": HopForm.WHOLE,
    "flowers": HopForm.WHOLE,
    "whole leaf": HopForm.WHOLE,
}


class Signs(NamedTuple):
    """How the figures of a text are written."""

    comma: bool = False
    us: bool = False


def plain(text: str, signs: Signs) -> str:
    """Return a text whose figures read the same on every machine."""

    def written(found: re.Match[str]) -> str:
        token = found.group()
        here = leading_number(token, decimal_comma=signs.comma)
        there = {leading_number(token, decimal_comma=comma) for comma in (True, False)}
        if here is None or there == {here}:
            return token
        return repr(here[0]).removesuffix(".0")

    return _FIGURE.sub(written, text)


def is_number(text: str) -> bool:
    """Whether a cell holds figures without any unit: `20`, `1 1/2`, `1e3`, `5-6`."""
    if text.endswith("'") or not any(sign.isnumeric() for sign in text):
        return False
    return not any(sign.isalpha() or sign in _UNIT_SIGNS for sign in _EXPONENT.sub("", text))


def is_amount(text: str, lines: str) -> bool:
    """Whether a cell is an amount with a unit that the list takes; found without reading it."""
    if len(text) > LONGEST_CELL:
        return False
    pattern = _DOSE if lines == "extras" else _MASSES
    return bool(pattern.fullmatch(text) or AMOUNT.fullmatch(text))


def quantity_of(lines: str, field: str, text: str, unit: str, signs: Signs) -> Quantity:
    """Return the quantity of a cell. Raises RefusedInputError that says why it is none."""
    facts = facts_of(LINE_TYPES[lines], field)
    _refuse_long(text)
    if is_number(text):
        if not unit:
            raise refused(
                "no-unit", "{text} has no unit: say it above the column", text=quoted(text)
            )
        text = f"{text} {unit}"
    with without_waiting():  # a word among pasted ones is no reason to wait for rarer units
        return checked_quantity(facts, read(facts.kind, plain(text, signs)))


def when_of(text: str, unit: str, signs: Signs) -> When:
    """Return when something goes in. Raises RefusedInputError that says why it cannot be read."""
    _refuse_long(text)
    shown = ShownUnits.US if signs.us else ShownUnits.METRIC
    if is_number(text):
        if not unit:
            raise refused(
                "no-unit", "{text} has no unit: say it above the column", text=quoted(text)
            )
        is_dry = unit in ("d", "day", "days")
        return read_when(f"{'dry hop ' if is_dry else 'boil '}{plain(text, signs)} {unit}")
    if not _WHEN_WORDS.issuperset(_WORD.findall(text.lower())):  # no rare unit is looked up
        raise refused(
            "not-one-of",
            "{text} is not one of: {choices}",
            text=quoted(text),
            choices=word(WHEN_ACCEPTED),
        )
    return read_when(_usual_words(plain(text, signs)), shown=shown)


def _usual_words(text: str) -> str:
    """The words that the recipe uses for what letters and spreadsheets say."""
    if _FLAME_OUT.fullmatch(text):
        return "flame-out"
    dry = _DRY.fullmatch(text) or _DAYS_DRY.fullmatch(text)
    if dry is not None:
        return f"dry hop {dry.group(1) or ''}".strip()
    at = _AT.fullmatch(text)
    if at is not None:
        return f"boil {at.group(1)} min"
    boiled = _BOILED.fullmatch(text)
    if boiled is not None and boiled.group(1) != text:
        return f"boil {boiled.group(1)}"
    return text


def is_when(text: str) -> bool:
    """Whether a cell says, with a unit, when something goes in."""
    if len(text) > LONGEST_CELL or is_number(text):
        return False
    try:
        when_of(text, "", Signs())
    except RefusedInputError:
        return False
    return True


def share_of(text: str) -> str:
    """Return a cell that says an alpha acid without the words for it: `AA 4.5`, `4.5% alpha`."""
    told = _ALPHA_BEFORE.sub("", _ALPHA_BEHIND.sub(" %", text))
    return told if told == text or told.endswith("%") else f"{told} %"


def kind_of(lines: str, text: str) -> str:
    """Return the kind, form or purpose that a cell names. Raises RefusedInputError."""
    choices = FIELDS[lines]["kind"].metadata["choices"]
    if not choices:
        return text
    word = text.lower()
    word = _FORMS.get(word, word)
    if word not in choices:
        raise none_of(text, choices)
    return word


def is_kind(text: str) -> bool:
    """Whether a cell names a kind of fermentable or a form of hops."""
    word = text.lower()
    return _FORMS.get(word, word) in (*FERMENTABLE_KINDS, *HOP_FORMS)


def _refuse_long(text: str) -> None:
    if len(text) > LONGEST_CELL:
        raise refused(
            "figure-too-long", "{count} characters are too many for a figure", count=len(text)
        )


_ONE_SIGN = re.compile(r"(?<![\d.,'])(\d+)([.,])(\d+)(?![\d.,'])")
_BOTH_SIGNS = re.compile(r"(?<![\d.,'])\d{1,3}(?:\.\d{3})+(,)\d+|\d{1,3}(?:,\d{3})+(\.)\d+")


def decimal_sign(texts: Iterable[str]) -> str | None:
    """Return the decimal sign that figures in texts show: "," or ".".

    "" where none of them tells, as with whole numbers; None where they contradict each other, or
    where all of them can be read both ways (`1.500`).
    """
    told: set[str] = set()
    open_to_both = False
    for text in texts:
        both = _BOTH_SIGNS.search(text)
        if both is not None:
            told.add(both.group(1) or both.group(2))
            continue
        for whole, sign, rest in _ONE_SIGN.findall(text):
            if len(rest) != 3 or whole == "0" or len(whole) > 3:
                told.add(sign)
            else:
                open_to_both = True
    if len(told) == 1:
        return told.pop()
    return None if told or open_to_both else ""
