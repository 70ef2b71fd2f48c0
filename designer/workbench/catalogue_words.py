"""What the catalogue says of an ingredient or a style, in words, and what leads to it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import Protocol

from designer.library import catalogue
from designer.library.catalogue import (
    AidEntry,
    FermentableEntry,
    HopEntry,
    StyleEntry,
    YeastEntry,
)
from designer.library.flavours import flavour_entries
from designer.library.sources import Standing, source_words
from designer.library.style_grists import grist_of, style_families, style_grists
from designer.recipe.quantity import Kind
from designer.recipe.same_name import folded, is_same_name
from designer.translation import message, named, tr
from designer.workbench.figure_sources import Entry, entry_of, told
from designer.workbench.figures import Figures
from designer.workbench.flocculation import flocculation_words
from designer.workbench.suggestions import aroma_words, suggest


class _Sourced(Protocol):
    @property
    def standing(self) -> Standing: ...


PARTS: dict[str, tuple[str, Callable[[], tuple[Entry, ...]]]] = {
    "fermentables": (message("Fermentables"), catalogue.fermentables),
    "hops": (message("Hops"), catalogue.hops),
    "yeasts": (message("Yeasts"), catalogue.yeasts),
    "extras": (message("Finings and other extras"), catalogue.aids),
    "styles": (message("Styles"), catalogue.styles),
}
"""The parts of the catalogue, by what names of them are offered under: how each is called."""

BEHIND: dict[str, tuple[str, Callable[[], Sequence[_Sourced]]]] = {
    "style_families": (message("Shares in families of styles"), style_families),
    "style_grists": (message("What goes into a style"), style_grists),
    "flavours": (message("Flavours"), flavour_entries),
}
"""What first recipes are made by: told with the styles, and no lines of a recipe."""

MOST = 12
"""Rows that are shown for a name that is none of the catalogue but a part of some."""


def rows_of(name: str) -> list[tuple[str, Entry]]:
    """Return the rows that have a name, or had it once, then those with its words in their names;
    where there are none, those that an editor would offer for it.
    """
    words = folded(name).split()
    offers = [(part, offer.text) for part in PARTS for offer in suggest(part, name, MOST)]
    with_words = [each for each in offers if all(word in folded(each[1]) for word in words)]
    found = [(part, each) for part in PARTS for each in _named(part, name)]
    others = with_words if with_words or found else offers
    found += [(part, each) for part, text in others for each in _named(part, text)]
    return list(dict.fromkeys(found))[:MOST]


def _named(part: str, name: str) -> Iterable[Entry]:
    """Yeasts are sold dry and liquid under one name: all of them."""
    if part != "yeasts":
        entry = entry_of(part, name)
        return () if entry is None else (entry,)
    forms = (entry_of(part, name, form) for form in ("dry", "liquid"))
    same = dict.fromkeys(each for each in forms if each is not None)
    return tuple(same)


def entry_lines(entry: Entry, figures: Figures) -> list[str]:
    """Return a row as text: its name, its figures as its reader writes them, its source."""
    lines = [named(entry.name), _figures(entry, figures), told(entry)]
    return [*lines, _shares(entry.name, figures)] if isinstance(entry, StyleEntry) else lines


def _shares(style: str, figures: Figures) -> str:
    """What a first recipe of a style may hold, and where that is from."""
    family = grist_of(style).family
    return tr(
        "First recipes of this family, {family}: crystal malt {crystal}, roast {roast}, sugar up "
        "to {sugar} of all that is weighed in. {source}",
        family=named(family.name),
        crystal=_span(*(figures.plain(f"{100.0 * each:g}") for each in family.crystal)),
        roast=_span(*(figures.plain(f"{100.0 * each:g}") for each in family.roast)),
        sugar=_percent(family.sugar_most, figures),
        source=source_words(family.standing, family.source),
    )


def title_of(part: str) -> str:
    """Return what a part of the catalogue is called."""
    return tr((PARTS[part] if part in PARTS else BEHIND[part])[0])


def was_called(name: str, entry: Entry) -> str:
    """Say that the catalogue has what was asked for under another name; "" if under that one."""
    code = entry.code if isinstance(entry, StyleEntry) else ""
    if (
        any(is_same_name(name, each) for each in (entry.name, named(entry.name)))
        or name.strip().casefold() == code.casefold()
    ):
        return ""
    return tr("{old} is called {new} here.", old=name, new=named(entry.name))


def _figures(entry: Entry, figures: Figures) -> str:
    match entry:
        case FermentableEntry() if entry.extract == 0.0:
            return tr(
                "{kind}; gives extract only in a mash, of which {fermentable} ferments; colour "
                "{colour}",
                kind=tr(entry.kind),
                fermentable=_percent(entry.fermentability, figures),
                colour=figures.exactly(Kind.MALT_COLOUR, entry.colour),
            )
        case FermentableEntry():
            return tr(
                "{kind}; extract {extract}, of which {fermentable} ferments; colour {colour}",
                kind=tr(entry.kind),
                extract=_percent(entry.extract, figures),
                fermentable=_percent(entry.fermentability, figures),
                colour=figures.exactly(Kind.MALT_COLOUR, entry.colour),
            )
        case HopEntry():
            return tr(
                "{origin}; alpha acid {low} to {high}, typically {typical}; {aroma}",
                origin=entry.origin,
                low=_percent(entry.alpha_low, figures),
                high=_percent(entry.alpha_high, figures),
                typical=_percent(entry.alpha, figures),
                aroma=aroma_words(entry),
            )
        case YeastEntry():
            return tr(
                "{form}; apparent attenuation {low} to {high}; from {coolest} to {warmest}; "
                "{flocculates}",
                form=tr(entry.form),
                low=_percent(entry.attenuation_low, figures),
                high=_percent(entry.attenuation_high, figures),
                coolest=figures.exactly(Kind.TEMPERATURE, entry.lowest_c),
                warmest=figures.exactly(Kind.TEMPERATURE, entry.highest_c),
                flocculates=flocculation_words(entry),
            )
        case AidEntry():
            return tr(
                "{purpose}; {low} to {high} {unit} for {volume}; {when}",
                purpose=named(entry.purpose),
                low=figures.plain(f"{entry.dose_low:g}"),
                high=figures.plain(f"{entry.dose_high:g}"),
                unit=named(entry.unit),
                volume=figures.exactly(Kind.VOLUME, entry.per_volume_l),
                when=named(entry.when),
            )
        case StyleEntry():
            return _style(entry, figures)


def _style(entry: StyleEntry, figures: Figures) -> str:
    gravities = (
        _span(*(figures.exactly(Kind.GRAVITY, each) for each in ends))
        for ends in (entry.original_gravity, entry.final_gravity)
    )
    return tr(
        "{code}; original gravity {og}, final gravity {fg}, {abv} %, {ibu} IBU, colour {colour}",
        code=entry.code,
        og=next(gravities),
        fg=next(gravities),
        abv=_span(*(figures.number(each, 1) for each in entry.abv_percent)),
        ibu=_span(*(figures.plain(f"{each:g}") for each in entry.bitterness_ibu)),
        colour=_span(*(figures.exactly(Kind.BEER_COLOUR, each) for each in entry.colour_srm)),
    )


def _percent(share: float, figures: Figures) -> str:
    return figures.plain(f"{100.0 * share:.3g} %")


def _span(low: str, high: str) -> str:
    """The ends with their unit behind the second alone, where it is the same."""
    figure, _, unit = low.partition(" ")
    return tr("{low} to {high}", low=figure if unit == high.partition(" ")[2] else low, high=high)


def counts() -> dict[str, dict[Standing, int]]:
    """Return how many rows of each part of the catalogue have sources of each standing."""
    found = {part: Counter(row.standing for row in rows()) for part, (_, rows) in PARTS.items()}
    found |= {part: Counter(row.standing for row in rows()) for part, (_, rows) in BEHIND.items()}
    return {part: {each: of[each] for each in Standing} for part, of in found.items()}
