"""One ingredient a line, as people write it in a letter: `20 g Challenger, 60 min`.

A line is taken apart into amount, name, when, alpha acid, colour, yield and kind; what is left over
is not guessed at but told.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from designer.errors import RefusedInputError
from designer.library.new_lines import is_known
from designer.library.pasted.cells import (
    ALPHA_WORD,
    AMOUNT,
    COLOUR,
    NUMBER,
    YIELD,
    Signs,
    is_kind,
    quantity_of,
)
from designer.library.pasted.columns import LIST_OF, Means, Use
from designer.library.pasted.row_reading import NO_AMOUNT
from designer.translation import tr

LONGEST_LINE = 200
LONGEST_NAME_WORDS = 8
USES = tuple(
    Use(means)
    for means in (
        Means.AMOUNT, Means.NAME, Means.WHEN, Means.ALPHA, Means.COLOUR, Means.YIELD, Means.KIND
    )
)  # fmt: skip
"""What the cells of a line that was taken apart are."""

_BULLET = re.compile(r"^(?:(?:[-*•·–—☐☑▪>]|\[[ xX]?\]|\d{1,2}[.)](?=\s))\s*)+")
_PERCENT = rf"{NUMBER}(?:\s*[-–]\s*{NUMBER})?"
_ALPHA = re.compile(
    rf"\b{ALPHA_WORD}\s*[:=]?\s*({_PERCENT})\s*%?"
    rf"|({_PERCENT})\s*%\s*(?:{ALPHA_WORD}(?!\w))?"
    rf"|({_PERCENT})\s*{ALPHA_WORD}(?!\w)",
    re.IGNORECASE,
)
_MINUTES = r"\d+(?:[.,]\d+)?\s*(?:min|mins|minutes?|hours?|h|m|')"
_WHENS = (
    re.compile(
        r"dry[- ]?hop(?:ped|ping)?(?:(?: for)?\s*\d+\s*(?:d|days?|weeks?)\b)?"
        r"|\b\d+\s*(?:d|days?|weeks?) dry[- ]?hop(?:ped|ping)?\b",
        re.IGNORECASE,
    ),
    re.compile(
        rf"(?:hop )?\bstand {_MINUTES}(?: at \d+(?:[.,]\d+)?\s*°?\s*[CF]?\b)?", re.IGNORECASE
    ),
    re.compile(r"(?:\bat |@\s?)?\bflame[- ]?out\b|\bfirst wort\b", re.IGNORECASE),
    re.compile(
        rf"(?:@|\bat\b)\s*(?:{_MINUTES}|\d+)(?![\w%])\.?(?:\s*(?:boil|left|remaining)\b)?"
        rf"|(?:\bboil(?:ed)?\s*)?(?:\bfor\s+)?{_MINUTES}(?![\w%])\.?(?:\s*(?:boil|left|remaining)\b)?",
        re.IGNORECASE,
    ),
)
_TIMES = re.compile(r"\d\s*[x×]\s*(?=\d)", re.IGNORECASE)
_CUT = "\x00"
_BETWEEN = re.compile(rf"([{_CUT}()\[\];]|, )")
_STAGES = ("steep", "fermenter")
_AND = ("and", "&", "und", "et", "the")
_SINGULAR = ("malt", "grain", "extract", "sugar", "hop", "extra", "fining", "other", "malz", "list")
"""Without a colon these may be an ingredient."""
_EDGES = " \t,;:.-–—()[]/|·•=@+&\"'"
_OF = re.compile(r"^(?:of|de|von)\s+", re.IGNORECASE)
_SENTENCE_WORDS = (
    "i we you he she it is are was were the this that my our your me us with and but then when if"
    " or of to on in for at from add added then each about optional start end boil boiled steep"
    " whirlpool day days min minutes not have had has will would can please thanks hello hi dear"
    " ich wir du sie ist sind war der die das und oder mit nicht je nous vous est sont et ou avec"
)
_SENTENCE = frozenset(_SENTENCE_WORDS.split())
_SENTENCE_END = re.compile(r"[!?]|[a-zà-ÿ]{2}\.(?:\s|$)", re.IGNORECASE)


class Apart(NamedTuple):
    """A line taken apart: cells under `USES`, a doubt, and what keeps it from being a line."""

    cells: tuple[str, ...]
    doubt: str = ""
    fault: str = ""


def section_of(line: str) -> str | None:
    """Return the list that a line such as `Hops:` heads; None if it is no such line."""
    words = line.strip(" :*#=_-").lower().split()
    lists = {LIST_OF.get(word) for word in words if word not in _AND}
    has_colon = line.rstrip(" *#=_-").endswith(":")
    if len(lists) != 1 or not (has_colon or (len(words) == 1 and words[0] not in _SINGULAR)):
        return None
    return lists.pop()


def taken_apart(line: str) -> Apart:
    """Return amount, name, when, alpha acid, colour, yield and kind of a line."""
    text = _BULLET.sub("", line.strip())
    if len(text) > LONGEST_LINE:
        return _nothing(text[:LONGEST_LINE], _too_long(text))
    if _TIMES.search(text):
        return _nothing(text, tr("say the amount as one figure, such as 3 kg for 2 x 1.5 kg"))
    rest, amounts = _cut_all(AMOUNT, text)
    if len(amounts) == 2 and _say_the_same(amounts):
        del amounts[1]
    rest, yields = _cut_all(YIELD, rest)
    rest, colours = _cut_colour(rest)
    rest, alphas = _cut_all(_ALPHA, rest)
    rest, whens = _cut_whens(rest)
    kinds, stages, pieces = _pieces(rest)
    whens += stages
    if len(amounts) > 1:
        return _nothing(
            text, tr("it has more than one amount: {amounts}", amounts=", ".join(amounts[:3]))
        )
    name, doubt = _name_of(pieces)
    name, form = _without_kind(name)
    kinds += form
    figures = (whens, alphas, colours, yields, kinds)
    cells = (_one(amounts), name, *map(_one, figures))
    twice = next((each for each in figures if len(each) > 1), None)
    if twice is not None:
        return Apart(cells, fault=tr("it says two things: {things}", things=", ".join(twice[:3])))
    if not name:
        return Apart(
            cells, fault=tr("it has no name") if amounts else tr("there is no ingredient in it")
        )
    if not amounts and not _is_known_anywhere(name):
        doubt = tr(NO_AMOUNT)
    return Apart(cells, doubt or _prose(rest, name))


def _nothing(text: str, fault: str) -> Apart:
    return Apart(as_name(text), fault=fault)


def as_name(text: str) -> tuple[str, ...]:
    """Return the cells of a line that is taken for a name as a whole."""
    return tuple(text if use.means is Means.NAME else "" for use in USES)


def _one(found: list[str]) -> str:
    return found[0] if found else ""


def _cut_all(pattern: re.Pattern[str], text: str) -> tuple[str, list[str]]:
    """Return the text with what matches cut out, and what was: the first group that holds it."""
    found: list[str] = []

    def cut(match: re.Match[str]) -> str:
        found.append(next((group for group in match.groups() if group), match.group()).strip())
        return _CUT

    return pattern.sub(cut, text), [f"{each} %" if pattern is _ALPHA else each for each in found]


def _cut_colour(text: str) -> tuple[str, list[str]]:
    """Cut a colour out, but not of a name that the catalogue knows."""
    found: list[str] = []
    parts = _BETWEEN.split(text)
    for at, part in enumerate(parts):
        if not _is_known_anywhere(part.strip(_EDGES)):
            parts[at], more = _cut_all(COLOUR, part)
            found += more
    return "".join(parts), found


def _cut_whens(text: str) -> tuple[str, list[str]]:
    found: list[str] = []
    for pattern in _WHENS:
        text, more = _cut_all(pattern, text)
        found += more
    return text, found


def _pieces(rest: str) -> tuple[list[str], list[str], list[str]]:
    """Return kinds, stages of the day, and the other pieces of text that are left.

    The first piece is a name even where it is a kind as well, such as `sugar`.
    """
    parts = re.split(rf"{_CUT}|[()\[\]]|\s[-–—|/]\s|,\s|:\s", rest)
    pieces = [_OF.sub("", part.strip(_EDGES)) for part in parts]
    named, *others = [piece for piece in pieces if piece] or [""]
    kinds = [piece for piece in others if is_kind(piece)]
    stages = [piece for piece in others if piece.lower() in _STAGES]
    left = [named, *(piece for piece in others if piece not in (*kinds, *stages))]
    return kinds, stages, [piece for piece in left if piece]


def _name_of(pieces: list[str]) -> tuple[str, str]:
    """Return the name among the pieces, and what is left over as a doubt."""
    joined = ", ".join(pieces)
    if _is_known_anywhere(joined):
        return joined, ""
    known = [piece for piece in pieces if _is_known_anywhere(piece)]
    named = known or [piece for piece in pieces if any(sign.isalpha() for sign in piece)]
    if not named:
        return "", ""
    left = [piece for piece in pieces if piece is not named[0]]
    left_out = ", ".join(left)[:60]
    return named[0], tr("left out: {pieces}", pieces=left_out) if left else ""


def _too_long(text: str) -> str:
    return tr("{count} characters are too many for an ingredient", count=len(text))


def _without_kind(name: str) -> tuple[str, list[str]]:
    """Part `Fuggle pellets` into a variety that is known and the form behind it."""
    before, _, last = name.rpartition(" ")
    if is_kind(last) and not _is_known_anywhere(name) and _is_known_anywhere(before):
        return before, [last]
    return name, []


def _prose(rest: str, name: str) -> str:
    """Say if a line reads like a sentence and not like an ingredient."""
    if _is_known_anywhere(name):
        return ""
    words = name.lower().split()
    if len(words) > LONGEST_NAME_WORDS or _SENTENCE & set(words) or _SENTENCE_END.search(rest):
        return tr("it reads like a sentence")
    if any(sign.isdigit() for sign in name):
        return tr("a figure in the name is not understood")
    return ""


def _is_known_anywhere(name: str) -> bool:
    return any(is_known(lines, name) for lines in ("fermentables", "hops", "extras"))


def _say_the_same(amounts: list[str]) -> bool:
    """`1 oz (28 g)`: one amount in two units, but for rounding."""
    try:
        first, second = (quantity_of("hops", "amount", each, "", Signs()).value for each in amounts)
    except RefusedInputError:
        return False
    return abs(first - second) <= 0.03 * max(first, second)
