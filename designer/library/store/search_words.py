"""What is typed into the search of the Recipe box, in words of our own.

    porter oat          both words begin a word of name, style, ingredients, notes or tags
    "east kent"         these words one after the other
    ibu 30..40          also og, fg, abv, srm, batch; "30.." and "..40" are open, "ibu 35" is about
    abv <5              below it as it is shown; also <=, > and >=, with a space behind or none
    fits 9 L            a pot of that size has room for it, and for its foam at the boil
    with oats           an ingredient;  without wheat  none such
    style porter        the style;  tagged session  a tag, all of it

Nothing typed is an error: a search is read with each key, and half a word is the usual case. What
cannot be taken is told in `problems` while the rest is searched. One of these words between
quotation marks is a word like others.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from designer.errors import RefusedInputError
from designer.library.names import named_by_words
from designer.library.store.documents import searchable
from designer.recipe.document import Pot
from designer.recipe.fields import number
from designer.recipe.quantity import Kind
from designer.translation import message, spoken, tr
from designer.units import read
from designer.units.pint_units import without_waiting
from designer.units.quoting import quoted
from designer.wort.vessel_fit import foam_limit_l

LONGEST_SEARCH = 500
MOST_WORDS = 20
FIGURES = {
    "og": ("og", 0.0005),
    "fg": ("fg", 0.0005),
    "abv": ("abv", 0.05),
    "ibu": ("ibu", 0.5),
    "srm": ("srm", 0.5),
    "batch": ("batch_l", 0.05),
}
"""The column of each figure, and half the last digit it is shown with: 40.4 IBU is shown as 40."""
SHOWN_UP = 1e-9
"""So little below half a digit, a figure is shown as the lower one."""
EXAMPLES = {"og": "1.040..1.050", "fg": "1.008..1.014", "abv": "4..5.5", "ibu": "30..40"}
_ALSO = {
    "de": {"mit": "with", "ohne": "without", "stil": "style", "stichwort": "tagged",
           "passt": "fits"},
    "fr": {"avec": "with", "sans": "without", "mot-clé": "tagged", "étiquette": "tagged",
           "tient": "fits"},
}  # fmt: skip
"""What may be typed in place of these words, besides the English ones."""
COLUMNS = {"with": "ingredients", "style": "style", "tagged": "tags"}
PIECE = re.compile(r'"([^"]*)"?|(\S+)')
_NUMBER = r"(?:\d+(?:[.,]\d+)?|[.,]\d+)"
_RANGE = re.compile(rf"({_NUMBER})?\s*(\.\.)\s*({_NUMBER})?|({_NUMBER})[.,]?")
_COMPARED = re.compile(rf"(<=|=<|>=|=>|<|>|≤|≥)\s*({_NUMBER})[.,]?%?")
_SIGNS = "<>=≤≥"
_GLUED = re.compile(rf"({'|'.join(FIGURES)})([{_SIGNS}].*)", re.IGNORECASE)
_LETTER = re.compile(r"[^\W_]")
_WANTED = {
    "with": message("an ingredient, as in: with oats"),
    "without": message("an ingredient, as in: without wheat"),
    "style": message("a style, as in: style porter"),
    "tagged": message("a tag, as in: tagged session"),
    "fits": message("the pot's volume, as in: fits 9 L"),
}


def in_english(word: str) -> str:
    """Return the word of a search that the spoken language has for another; else the word."""
    return _ALSO.get(spoken(), {}).get(word, word)


def in_spoken(word: str) -> str:
    """Return what the spoken language has for a word of a search; else the word."""
    return next((also for also, each in _ALSO.get(spoken(), {}).items() if each == word), word)


@dataclass(frozen=True, slots=True)
class Within:
    """A column of figures between two numbers; None where it is open."""

    column: str
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class FittingPot:
    """A pot that is asked for, as it was typed, and the litres up to which wort may stand in it."""

    typed: str
    foam_line_l: float


@dataclass(frozen=True, slots=True)
class Search:
    """A search as it was understood; `match` is for FTS5, None where it names no words.

    `tags` are whole tags: a match alone would find longer ones too.
    """

    match: str | None = None
    names: str | None = None
    within: tuple[Within, ...] = ()
    problems: tuple[str, ...] = ()
    pots: tuple[FittingPot, ...] = ()
    tags: tuple[str, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Whether all recipes are meant."""
        return self.match is None and not self.within


@dataclass(slots=True)
class _Found:
    words: list[str] = field(default_factory=list)
    positive: list[str] = field(default_factory=list)
    negative: list[str] = field(default_factory=list)
    within: list[Within] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)
    pots: list[FittingPot] = field(default_factory=list)
    tags: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Piece:
    text: str
    is_quoted: bool


def read_search(typed: str) -> Search:
    """Return what was typed as a search. Never raises."""
    found = _Found()
    text = typed.replace("\0", " ").encode("utf-8", "replace").decode("utf-8")[:LONGEST_SEARCH]
    pieces = [
        _Piece(part, not plain)
        for between, plain in PIECE.findall(text)
        for part in (_parted(plain) if plain else [between])
    ]
    while pieces:
        _take(pieces, found)
    return _search(found)


def _parted(text: str) -> list[str]:
    """Part a figure's word from the sign behind it: "abv<5" is "abv" and "<5"."""
    glued = _GLUED.fullmatch(text)
    return [glued[1], glued[2]] if glued else [text]


def _take(pieces: list[_Piece], found: _Found) -> None:
    """Move the first piece, with what belongs to it, into what was found."""
    first = pieces.pop(0)
    word = first.text.casefold()
    word = in_english(word)
    if first.is_quoted:
        _add_word(first.text, found)
    elif word in FIGURES and not pieces:
        found.problems.append(_range_wanted(word))
    elif word in FIGURES:
        _take_range(first, pieces, found)
    elif word == "fits":
        _take_volume(pieces, found)
    elif word in _WANTED:
        _take_term(word, pieces, found)
    else:
        _add_word(first.text, found)


def _add_word(text: str, found: _Found) -> None:
    term = _term(text)
    if term and len(found.words) < MOST_WORDS:
        found.words.append(term)


def _term(text: str) -> str:
    """Return the text as FTS5 takes it: quoted, its last word open at the end.

    Recipes keep English names, so what the user's language calls by such words is meant too.
    """
    plain = _plain(text)
    if not _LETTER.search(plain):
        return ""
    others = [f'"{_plain(each)}"' for each in named_by_words(plain)]
    term = f'"{plain}"*'
    return f"({' OR '.join((term, *others))})" if others else term


def _plain(text: str) -> str:
    return " ".join(searchable(text).replace('"', " ").split())


def _take_term(word: str, pieces: list[_Piece], found: _Found) -> None:
    text = pieces.pop(0).text if pieces else ""
    term = _term(text)
    if term and word == "tagged":
        found.tags.append(text)
        found.positive.append(f'{COLUMNS[word]} : "{_plain(text)}"')
    elif not term:
        found.problems.append(tr("“{word}” wants {wanted}", word=word, wanted=tr(_WANTED[word])))
    elif word == "without":
        found.negative.append(f"ingredients : {term}")
    else:
        found.positive.append(f"{COLUMNS[word]} : {term}")


def _take_range(first: _Piece, pieces: list[_Piece], found: _Found) -> None:
    """Read the range after a figure's word; other words after it make it a plain word."""
    word = first.text.casefold()
    column, half = FIGURES[word]
    _join_signs(pieces)
    matched = _RANGE.fullmatch(pieces[0].text)
    compared = _COMPARED.fullmatch(pieces[0].text)
    if matched:
        pieces.pop(0)
        found.within.append(_within(column, half, matched))
    elif compared:
        while compared:  # "abv >4 <5" too
            pieces.pop(0)
            found.within.append(_beyond(column, half, compared))
            _join_signs(pieces)
            compared = _COMPARED.fullmatch(pieces[0].text) if pieces else None
    elif any(sign.isdigit() or sign in _SIGNS for sign in pieces[0].text):
        found.problems.append(
            tr(
                "{part} is not a range; {word}",
                part=quoted(pieces.pop(0).text, 20),
                word=_range_wanted(word),
            )
        )
    else:
        _add_word(first.text, found)


def _join_signs(pieces: list[_Piece]) -> None:
    """Put a sign that stands alone and the number behind it together: "< 5" is "<5"."""
    if len(pieces) > 1 and not pieces[0].text.strip(_SIGNS):
        pieces[:2] = [_Piece(pieces[0].text + pieces[1].text, pieces[0].is_quoted)]


def _range_wanted(word: str) -> str:
    example = EXAMPLES.get(word, "10..20")
    return tr(
        "“{word}” wants a range, as in: {word} {example} or {word} <{limit}",
        word=word,
        example=example,
        limit=example.rpartition("..")[2],
    )


def _within(column: str, half: float, matched: re.Match[str]) -> Within:
    if matched[4] is not None:
        digits = len(re.split("[.,]", matched[4])[1]) if re.search("[.,]", matched[4]) else 0
        near = max(half, 0.5 * 10.0**-digits) if column not in ("og", "fg") else half
        return Within(column, _number(matched[4]) - near, _number(matched[4]) + near)
    low = _number(matched[1]) if matched[1] else None
    high = _number(matched[3]) if matched[3] else None
    if low is not None and high is not None and low > high:
        low, high = high, low
    return Within(
        column, None if low is None else low - half, None if high is None else high + half
    )


def _beyond(column: str, half: float, matched: re.Match[str]) -> Within:
    """Return what is below or above a number as it is shown: 4.95 % is shown as 5 %, not below."""
    sign, limit = matched[1], _number(matched[2])
    with_it = -half - SHOWN_UP if sign in "<>" else half
    if sign in ("<", "<=", "=<", "≤"):
        return Within(column, None, limit + with_it)
    return Within(column, limit - with_it, None)


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _take_volume(pieces: list[_Piece], found: _Found) -> None:
    """Read a volume from as many pieces as make one: "9 L", "9L", "1 1/2 gal"."""
    for count in _lengths(pieces):
        text = " ".join(piece.text for piece in pieces[:count])
        try:
            with without_waiting():
                volume = read(Kind.VOLUME, text)
        except RefusedInputError:
            continue
        del pieces[:count]
        limit = foam_limit_l(volume.value, number(Pot(), "foam_room"))
        found.within.append(Within("pot_fullest_l", None, limit + 0.005))
        found.pots.append(FittingPot(text, limit))
        return
    found.problems.append(tr("“fits” wants {wanted}", wanted=tr(_WANTED["fits"])))
    if pieces and any(sign.isdigit() for sign in pieces[0].text):
        pieces.pop(0)


def _lengths(pieces: list[_Piece]) -> Iterator[int]:
    yield from range(min(len(pieces), 3), 0, -1)


def _search(found: _Found) -> Search:
    """Put the parts together: words anywhere but in `state`, terms in their columns."""
    everywhere = "{name style ingredients notes tags} : "
    positive = [everywhere + term for term in found.words] + found.positive
    match = " AND ".join(f"({each})" for each in positive) or None
    names = " AND ".join(f"(name : {term})" for term in found.words) or None
    if found.negative:
        left_out = " OR ".join(found.negative)
        kept = match or 'state : "kept" OR state : "trashed"'
        match = f"({kept}) NOT ({left_out})"
    only_words = not (found.positive or found.negative)
    return Search(
        match,
        names if only_words else None,
        tuple(found.within),
        tuple(found.problems),
        tuple(found.pots),
        tuple(found.tags),
    )
