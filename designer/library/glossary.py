"""The glossary: what the words of the trade mean that stand on labels, on the sheet, in forecasts.

Terms, their other names and meanings are sentences of the program, looked up by `tr` like any
other; of the names a language lists those forms of a word in which its labels have it. Nothing is
read before somebody asks.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from unicodedata import normalize

from designer.recipe.same_name import folded
from designer.resource_files import resource_path
from designer.translation import tr


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade, other names it goes by, and what it means; all in English.

    `source` says where a figure in the meaning is from; most need none.
    """

    term: str
    names: str
    meaning: str
    source: str = ""

    @property
    def called(self) -> tuple[str, ...]:
        """The term and its other names in the user's language."""
        others = tr(self.names).split(";") if self.names else []
        return (tr(self.term), *(each.strip() for each in others))

    @property
    def in_english(self) -> tuple[str, ...]:
        """The term and its other names in English."""
        return (self.term, *(each.strip() for each in self.names.split(";") if each.strip()))


def terms() -> tuple[Term, ...]:
    """Return all terms, in the order of the alphabet as the user's language calls them."""
    return _in_order(tuple(tr(each.term) for each in written_terms()))


@cache
def written_terms() -> tuple[Term, ...]:
    """Return all terms, in the order they are written down in."""
    import csv  # the window opens without it

    with resource_path("glossary.csv").open(encoding="utf-8", newline="") as lines:
        return tuple(Term(**row) for row in csv.DictReader(lines))


@cache
def _in_order(called: tuple[str, ...]) -> tuple[Term, ...]:
    ordered = sorted(
        zip(called, written_terms(), strict=True), key=lambda each: in_alphabet(each[0])
    )
    return tuple(term for _, term in ordered)


def in_alphabet(name: str) -> str:
    """Return what a name is sorted by: an accent and a degree sign count for nothing."""
    return "".join(
        each for each in normalize("NFKD", name.lower()) if each.isalnum() or each == " "
    )


def terms_in(text: str) -> tuple[Term, ...]:
    """Return the terms that stand in a text, each once, the longer name before what it contains."""
    known, pattern = _known(tuple(each.called for each in terms()))
    found = []
    for match in pattern.finditer(" ".join(text.split())):
        each = known.get(match.group().lower())
        if each is not None and not _is_lowered(match.group(), each.called):
            found.append(each)
    return tuple(dict.fromkeys(found))


def explained(found: tuple[Term, ...]) -> str:
    """Return terms and meanings as plain text, a term a line."""
    return "\n".join(in_words(each) for each in found)


def in_words(found: Term) -> str:
    """Return a term with its meaning, and with its source where it has one."""
    said = tr("{term}: {meaning}", term=headed(found), meaning=tr(found.meaning))
    return tr("{said} Source: {source}.", said=said, source=found.source) if found.source else said


def headed(found: Term) -> str:
    """Return how a meaning is headed: with a capital, and the abbreviation where there is one."""
    name, *others = found.called
    name = name[:1].upper() + name[1:]
    short = ", ".join(each for each in others if each.isupper())
    return tr("{term} ({names})", term=name, names=short) if short else name


def looked_up(text: str) -> tuple[Term, ...]:
    """Return the terms that a search means: called so, else in whose names or meaning it stands.

    What English calls a term is found too, whatever is spoken; accents and umlauts do not matter.
    """
    asked = " ".join(folded(text).split())
    names = {each: [folded(name) for name in (*each.called, *each.in_english)] for each in terms()}
    exact = [each for each, called in names.items() if asked in called]
    named = [each for each, called in names.items() if any(asked in name for name in called)]
    told = [each for each in terms() if asked in folded(tr(each.meaning))]
    return tuple(dict.fromkeys((*exact, *named, *told)))


@cache
def _known(called: tuple[tuple[str, ...], ...]) -> tuple[dict[str, Term], re.Pattern[str]]:
    """The terms by what they are called, and what finds those; anew where the language changes."""
    known = {
        name.lower(): each
        for each, names in zip(terms(), called, strict=True)
        for name in reversed(names)
    }
    longest_first = sorted(known, key=len, reverse=True)
    either = "|".join(map(re.escape, longest_first))
    return known, re.compile(rf"(?<![\w°])(?:{either})(?!\w)", re.IGNORECASE)


def _is_lowered(text: str, called: tuple[str, ...]) -> bool:
    """Whether an abbreviation, such as OG, is met in small letters: that is another word."""
    return any(name.lower() == text.lower() and name.isupper() and text != name for name in called)
