"""What is offered while a name or a time is typed: the catalogue, searched by words.

Every word typed must begin a word of the name, of the kind or of the aroma; failing that, its
letters must occur in order in the name. Case and accents do not matter.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from designer.library import catalogue
from designer.library.catalogue import AidEntry, FermentableEntry, HopEntry, YeastEntry
from designer.library.sources import STYLE_NUMBERS, source_words
from designer.recipe.same_name import folded
from designer.recipe.when_words import said_when
from designer.translation import named, tr
from designer.workbench.flocculation import flocculation_words


class Suggestion(NamedTuple):
    """What is taken over, what is said beside it, and where figures taken over with it are from.

    `standing` is the word for how good that source is, `english` what the catalogue calls it.
    """

    text: str
    beside: str = ""
    standing: str = ""
    source: str = ""
    english: str = ""


Ingredient = FermentableEntry | HopEntry | YeastEntry | AidEntry

_WHENS = {
    "extract whens": ("steep", "boil 60 min", "boil 15 min", "boil 10 min", "flame-out"),
    "hop whens": (
        "first wort", "boil 60 min", "boil 30 min", "boil 15 min", "boil 10 min", "boil 5 min",
        "flame-out", "stand 20 min at 80 °C", "dry hop 4 days",
    ),
    "extra whens": (
        "steep", "boil 15 min", "boil 10 min", "boil 5 min", "flame-out", "fermenter",
        "fermenter 3 days",
    ),
}  # fmt: skip


@cache
def offered(of: str) -> tuple[Suggestion, ...]:
    """Return all that can be offered: "fermentables", "hops", "yeasts", "extras", "styles" …"""
    if of == "fermentables":
        return tuple(
            _offer(each, tr("{kind}, {colour:g} °L", kind=tr(each.kind), colour=each.colour))
            for each in catalogue.fermentables()
        )
    if of == "hops":
        return tuple(
            _offer(
                each,
                tr("{alpha:.3g} %, {aroma}", alpha=100.0 * each.alpha, aroma=aroma_words(each)),
            )
            for each in catalogue.hops()
        )
    if of == "yeasts":
        return tuple(
            _offer(
                each,
                tr(
                    "{form}, {low:.0f} to {high:.0f} %, {flocculates}",
                    form=tr(each.form),
                    low=100 * each.attenuation_low,
                    high=100 * each.attenuation_high,
                    flocculates=flocculation_words(each),
                ),
            )
            for each in catalogue.yeasts()
        )
    if of == "extras":
        return tuple(_offer(each, named(each.purpose)) for each in catalogue.aids())
    if of == "styles":
        styles = catalogue.styles()
        return tuple(
            Suggestion(named(each.name), each.code, source=STYLE_NUMBERS, english=each.name)
            for each in styles
        )
    if of == "all":
        parts = ("fermentables", "hops", "yeasts", "extras")
        return tuple(each for part in parts for each in offered(part))
    return tuple(Suggestion(said_when(each), english=each) for each in _WHENS.get(of, ()))


def _offer(entry: Ingredient, beside: str) -> Suggestion:
    source = source_words(entry.standing, entry.source)
    return Suggestion(named(entry.name), beside, tr(entry.standing), source, entry.name)


def aroma_words(hop: HopEntry) -> str:
    """Return what a variety smells of; where nobody told, what it is used for."""
    return ", ".join(named(each) for each in (hop.aroma or hop.use).split(", "))


def suggest(of: str, typed: str, most: int = 12) -> list[Suggestion]:
    """Return the offers that match what was typed, the best first."""
    words = folded(typed).split()
    if not words:
        return list(offered(of))[:most] if of in _WHENS else []
    scored = [
        (score, len(each.text), number, each)
        for number, each in enumerate(offered(of))
        if (score := _score(each, words)) is not None
    ]
    return [one[-1] for one in sorted(scored, key=lambda one: one[:3])[:most]]


def _score(offer: Suggestion, words: list[str]) -> int | None:
    """How well an offer matches, by its name in the language or in English; None if not at all."""
    found = [_score_of(each, offer, words) for each in {offer.text, offer.english or offer.text}]
    return min((each for each in found if each is not None), default=None)


def _score_of(called: str, offer: Suggestion, words: list[str]) -> int | None:
    """0 for a name that begins so; larger is worse; None where it does not match."""
    name = folded(called)
    if name.startswith(" ".join(words)):
        return 0
    parts = _parts(name)
    if all(any(part.startswith(word) for part in parts) for word in words):
        return 1
    parts += _parts(folded(offer.beside))
    if all(any(part.startswith(word) for part in parts) for word in words):
        return 2
    letters = iter(name)
    if all(sign in letters for word in words for sign in word) and len("".join(words)) > 2:
        return 3
    return None


def _parts(text: str) -> list[str]:
    return text.replace(",", " ").replace("(", " ").replace("/", " ").replace("°", "").split()
