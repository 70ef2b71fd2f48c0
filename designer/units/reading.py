"""Reading what a brewer typed into a field of a known kind."""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from designer.errors import RefusedInputError
from designer.recipe.kinds import KINDS
from designer.recipe.limits import LONGEST_QUANTITY
from designer.recipe.message import refused, word
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.recipe.when_words import when_in_english
from designer.translation import message, tr
from designer.units.control_characters import figures_only
from designer.units.numbers import leading_number, normalised
from designer.units.odd_texts import counts_pieces, oddity
from designer.units.piece_words import piece_in_english
from designer.units.pint_units import BeingLookedUpError, pint_factor
from designer.units.quick_words import FACTORS
from designer.units.quoting import one_line, quoted
from designer.units.scales import NotReadError, from_scale, gravity_spread, wrong_unit
from designer.units.shown import ShownUnits

_PLUS_MINUS = re.compile(r"\s*(?:±|\+/-|\+-)\s*")
_SPAN = re.compile(r"(?<=[\d%°a-zA-Z\"'])(?<!\d[eE])\s*(?:-|\bto\b)\s*(?=[+-]?[\d.,])")
_WITH_RANGE = re.compile(r"([^()]*[^()\s])\s*\(([^()]+)\)")
_UNIT_AT_END = re.compile(r"[^\d\s.,'+-][^\d]*$")
_BEFORE_CUBE = "mtndMTND*^"  # the last letters of cm, ft, in and yd
_PER_CENT = ("%", "percent", "pct", "per cent", "prozent", "pour cent")
SHARES = (Kind.FRACTION, Kind.EXTRACT_YIELD)
"""Kinds of which per cent is a unit."""
_CURRENCY = r"[€$£¥]|\b[A-Z]{3}\b|\bkr\b|\bzł\b"


class _How(NamedTuple):
    """How a text is read: the unit system of a bare number, the decimal sign, and whence."""

    shown: ShownUnits
    comma: bool
    kept: bool


def read(
    kind: Kind,
    text: str,
    *,
    shown: ShownUnits = ShownUnits.METRIC,
    decimal_comma: bool = False,
    kept: bool = False,
) -> Quantity:
    """Return the quantity that was typed; a bare number takes the shown unit.

    A text `kept` in a document was taken once, by this program or an older one: it is not asked to
    be well written. Raises RefusedInputError with one line that says what was found and what would
    be taken.
    """
    if len(text) > LONGEST_QUANTITY:
        raise refused(
            "too-long-for-kind",
            "that is too long to be {accepted}",
            accepted=word(KINDS[kind].accepted),
        )
    typed = figures_only(text).strip()
    if not typed:
        raise refused(
            "nothing-typed",
            "nothing is typed; wanted is {accepted}",
            accepted=word(KINDS[kind].accepted),
        )
    try:
        return _read(kind, typed, _How(shown, decimal_comma, kept))
    except NotReadError as fault:
        detail = f" ({one_line(str(fault))})" if str(fault) else ""
        raise refused(
            "not-a-clock-time",
            "{typed} is not {accepted}{detail}",
            typed=quoted(typed, LONGEST_QUANTITY),
            accepted=word(KINDS[kind].accepted),
            detail=detail,
        ) from None


def _read(kind: Kind, typed: str, how: _How) -> Quantity:
    plain = normalised(typed)
    odd = "" if how.kept else oddity(kind, typed, plain)
    if odd:
        raise NotReadError(odd)
    parts = _PLUS_MINUS.split(plain, maxsplit=1)
    if len(parts) == 2:
        return _give_or_take(kind, typed, parts, how)
    ranged = _WITH_RANGE.fullmatch(plain)
    if ranged is not None and kind is not Kind.TIME:
        return _with_range(kind, typed, ranged, how)
    ends = _SPAN.split(plain, maxsplit=1) if kind is not Kind.TIME else [plain]
    if len(ends) == 2 and not _is_fraction_dash(plain):
        return _span(kind, typed, ends, how)
    value, unit = _value(kind, plain, how)
    return Quantity(value, typed, None, unit)


def _unit_of(text: str) -> str:
    found = _UNIT_AT_END.search(text)
    return found.group() if found else ""


def _sharing_unit(kind: Kind, pair: list[str]) -> tuple[str, str]:
    """Give the figure without a unit that of the other: `68-70 F`, `250 g ± 10`.

    A gravity beside points or °P keeps its own scale (`1.050 ± 2 points`), and per cent of a
    quantity is no unit of it.
    """
    first, second = pair
    left, right = _unit_of(first), _unit_of(second)
    if left and not right:
        return first, f"{second} {left}"
    if right and not left and not (right in _PER_CENT and kind not in SHARES):
        found = leading_number(first, decimal_comma=False)
        is_scale = kind is Kind.GRAVITY and found is not None and not 2.0 < found[0] < 100.0
        return (first, second) if is_scale else (f"{first} {right}", second)
    return first, second


def _give_or_take(kind: Kind, typed: str, parts: list[str], how: _How) -> Quantity:
    """`7.2 % ± 0.5 %`: a value and half the width of its range."""
    first, second = _sharing_unit(kind, parts)
    value, unit = _value(kind, first, how)
    spread = _spread(kind, value, unit, (first, second), how)
    if not math.isfinite(spread):
        raise NotReadError(tr("the number is beyond all measure"))
    return Quantity(value, typed, abs(spread), unit)


def _is_fraction_dash(plain: str) -> bool:
    """`1-1/2 oz` is one and a half, not from one to a half."""
    return re.match(r"\d+-\d+\s*/", plain) is not None


def _span(kind: Kind, typed: str, ends: list[str], how: _How) -> Quantity:
    """`6.5-8.5 %`: the middle, give or take half the width."""
    low, high, unit = _ends(kind, ends, how)
    return Quantity(low + (high - low) / 2.0, typed, (high - low) / 2.0, unit)


def _ends(kind: Kind, ends: list[str], how: _How) -> tuple[float, float, str]:
    first, second = _sharing_unit(kind, ends)
    low, low_unit = _value(kind, first, how)
    high, unit = _value(kind, second, how)
    if low > high:
        raise NotReadError(tr("the first figure of a span is the smaller one"))
    if low_unit != unit:
        raise NotReadError(tr("both ends of a span are in the same unit"))
    return low, high, unit


def _with_range(kind: Kind, typed: str, parts: re.Match[str], how: _How) -> Quantity:
    """`6 % (4.5-8.9 %)`: a value, and the range about it."""
    first, behind = _sharing_unit(kind, [parts.group(1), parts.group(2)])
    ends = _SPAN.split(behind, maxsplit=1)
    if len(ends) != 2:
        raise NotReadError(tr("what stands in brackets is a range"))
    value, unit = _value(kind, first, how)
    low, high, range_unit = _ends(kind, ends, how)
    if not low <= value <= high or range_unit != unit:
        raise NotReadError(tr("the range in brackets holds the figure before it"))
    return Quantity(value, typed, (high - low) / 2.0, unit, (low, high))


def _spread(kind: Kind, value: float, unit: str, pair: tuple[str, str], how: _How) -> float:
    """What stands behind ±: a share of the value where it is in per cent, else a difference.

    Points of per cent are a difference where the value is in per cent itself: `78 % ± 2 %`.
    """
    first, text = pair
    number, word = _number_and_word(text, how.comma)
    in_per_cent = kind in SHARES and _unit_of(first).lower() in _PER_CENT
    if word in _PER_CENT and not in_per_cent:
        based = value - 1.0 if kind is Kind.GRAVITY else value
        return number / 100.0 * based
    if kind in (Kind.TEMPERATURE, Kind.TEMPERATURE_DIFFERENCE):
        return _special(Kind.TEMPERATURE_DIFFERENCE, number, word, how.shown)
    if kind is Kind.GRAVITY:
        return gravity_spread(value, number, word)
    if kind is Kind.MALT_COLOUR:  # its scales start at different zeros
        return from_scale(kind, number, word) - from_scale(kind, 0.0, word)
    spread, spread_unit = _value(kind, text, how)
    if spread_unit != unit:
        raise NotReadError(tr("what stands behind ± is in the same unit"))
    return spread


def _value(kind: Kind, text: str, how: _How) -> tuple[float, str]:
    """Return the value in the base unit, and the unit of a dose."""
    unit = ""
    if kind is Kind.MONEY:
        text = re.sub(_CURRENCY, " ", text).strip()
    if kind in FACTORS:
        value = _by_factor(kind, text, how)
    elif kind is Kind.DOSE:
        value, unit = _dose(text, how)
    else:
        number, word = _number_and_word(text, how.comma)
        value = _special(kind, number, word, how.shown)
    if not math.isfinite(value):
        raise NotReadError(tr("the number is beyond all measure"))
    return value, unit


def _number_and_word(text: str, comma: bool) -> tuple[float, str]:
    found = leading_number(text.strip(), decimal_comma=comma)
    if found is None:
        raise NotReadError(tr("no number in it") if text.strip() else "")
    number, rest = found
    return number, unit_word(rest)


def unit_word(text: str) -> str:
    """Return a unit as the tables spell it: no dots (`oz.`, `imp. gal`, `U.S. gal`), one space."""
    plain = text.replace("º", "°").replace(".", "").strip().removesuffix(",")
    return " ".join(plain.lower().split())


def _by_factor(kind: Kind, text: str, how: _How) -> float:
    rest, total, steps, last, sums = text.strip(), 0.0, 0, math.inf, KINDS[kind].sums
    while True:
        found = leading_number(rest, decimal_comma=how.comma)
        if found is None:
            raise NotReadError(tr("no number in it") if rest else "")
        number, after = found
        word, rest = _split_word(after) if sums else (unit_word(after), "")
        if not word and (steps or rest):
            raise NotReadError(tr("a figure without its unit"))
        factor = _factor(kind, word, how.shown)
        if factor >= last and not how.kept:
            raise NotReadError(tr("a sum is of two different units, the larger first"))
        total += number * factor
        steps, last = steps + 1, factor
        if not rest:
            return total


def _split_word(text: str) -> tuple[str, str]:
    """Split ` lb 4 oz` into the unit and what follows it."""
    step = re.match(r"\s*([^\d½¼¾.,+-][^\d]*?)?\s*(?:and\s+)?(?=[\d]|$)", text)
    if step is None:
        return unit_word(text), ""
    word, rest = step.group(1) or "", text[step.end() :]
    if rest == "3" and text[step.end() - 1] in _BEFORE_CUBE:  # in3, m**3, but not 2 kg 3
        return unit_word(text), ""
    return unit_word(word), rest


def _bare(kind: Kind, shown: ShownUnits) -> str:
    """The unit of a bare number as the tables spell it."""
    return KINDS[kind].bare_in(us=shown is ShownUnits.US).lower()


def _factor(kind: Kind, word: str, shown: ShownUnits) -> float:
    word = word or _bare(kind, shown)
    factor = FACTORS[kind].get(word)
    if factor is None:
        factor = pint_factor(kind, word)
    if factor is None:
        raise NotReadError(wrong_unit(kind, word))
    return factor


def _special(kind: Kind, number: float, word: str, shown: ShownUnits) -> float:
    if kind is Kind.MONEY and word:
        raise NotReadError(tr("unit “{word}” is not known here", word=word))
    return from_scale(kind, number, word or _bare(kind, shown))


def _dose(text: str, how: _How) -> tuple[float, str]:
    """`11 g`, `5 mL`, or so many of a piece: `0.5 tablet`; a bare number counts pieces."""
    number, word = _number_and_word(text, how.comma)
    mass, volume = FACTORS[Kind.MASS].get(word), FACTORS[Kind.VOLUME].get(word)
    if mass is not None:
        return number * (mass * 1000.0), "g"
    if volume is not None:
        return number * (volume * 1000.0), "mL"
    if re.fullmatch(r"[^\W\d_][^\d]*|", word) is None:
        raise NotReadError(tr("unit “{word}” is not known here", word=word))
    if not how.kept and not counts_pieces(word):
        raise NotReadError(wrong_unit(Kind.DOSE, word))
    return number, piece_in_english(word) or "piece"


_WHENS = {
    "steep": Stage.STEEP,
    "first wort": Stage.FIRST_WORT,
    "flame-out": Stage.FLAME_OUT,
    "flame out": Stage.FLAME_OUT,
    "flameout": Stage.FLAME_OUT,
    "fermenter": Stage.FERMENTER,
    "dry hop": Stage.DRY_HOP,
}
WHEN_WORDS = (
    *_WHENS, "boil ", "stand ", "hop stand ", "whirlpool ", "fermenter ", "dry hop ", "dry-hop ",
)  # fmt: skip
WHEN_ACCEPTED = message(
    "steep, first wort, boil 60 min, flame-out, stand 20 min at 80 °C, fermenter, fermenter 3 days "
    "or dry hop 4 days"
)


def read_when(
    text: str,
    *,
    shown: ShownUnits = ShownUnits.METRIC,
    decimal_comma: bool = False,
    kept: bool = False,
) -> When:
    """Return when something goes in; a bare time, such as `15 min`, is boil time left.

    `kept` is as in `read`. Raises RefusedInputError with one line that lists what would be taken.
    """
    typed = figures_only(text).strip()
    if len(typed) > LONGEST_QUANTITY:
        raise refused(
            "too-long-for-choice",
            "that is too long to be one of: {choices}",
            choices=word(WHEN_ACCEPTED),
        )
    typed = when_in_english(typed)
    plain = " ".join(normalised(typed).rstrip(".").lower().split())
    stage = _WHENS.get(plain)
    if stage is not None:
        return When(stage, typed, days=3.0 if stage is Stage.DRY_HOP else 0.0)
    try:
        return _timed_when(typed, plain, _How(shown, decimal_comma, kept))
    except BeingLookedUpError:
        raise
    except RefusedInputError:
        raise refused(
            "not-one-of",
            "{typed} is not one of: {choices}",
            typed=quoted(typed),
            choices=word(WHEN_ACCEPTED),
        ) from None


def _timed_when(typed: str, plain: str, how: _How) -> When:
    stand = re.fullmatch(r"(?:(?:hop )?stand|whirlpool) (.+?)(?: at (.+))?", plain)
    if stand:
        if re.search(r" at?$", stand.group(1)):
            raise refused("half-typed-stand", "what it stands at is still to be typed")
        minutes = _figure(Kind.TIME, stand.group(1), how)
        temp = _figure(Kind.TEMPERATURE, stand.group(2) or "80 °C", how)
        if how.shown is ShownUnits.US and re.search(r" at [\d.,]+$", plain):
            typed = f"{typed} °F"  # or the file would mean something else to its next reader
        return When(Stage.STAND, typed, _within(minutes, 1440.0), _within(temp, 105.0))
    late = re.fullmatch(r"(dry[ -]?hop|fermenter) (.+)", plain)
    if late:
        bare = re.fullmatch(r"[\d.,]+", late.group(2))
        minutes = _figure(Kind.TIME, late.group(2) + (" days" if bare else ""), how)
        days = _within(minutes / 1440.0, 365.0)
        if late.group(1) != "fermenter":
            return When(Stage.DRY_HOP, typed, days=days)
        if days == 0.0:  # "fermenter" alone is with the yeast
            raise refused("out-of-range", "out of range")
        return When(Stage.FERMENTER, typed, days=days)
    minutes = _figure(Kind.TIME, plain.removeprefix("boil").strip(), how)
    return When(Stage.BOIL, typed, _within(minutes, 1440.0))


def _figure(kind: Kind, text: str, how: _How) -> float:
    return read(kind, text, shown=how.shown, decimal_comma=how.comma, kept=how.kept).value


def _within(value: float, high: float) -> float:
    if not 0.0 <= value <= high:
        raise refused("out-of-range", "out of range")
    return value
