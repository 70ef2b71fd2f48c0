"""Where the figures of a recipe's lines are from, if they are those of the catalogue."""

from __future__ import annotations

from functools import lru_cache

from designer.library import catalogue
from designer.library.catalogue import (
    AidEntry,
    FermentableEntry,
    HopEntry,
    StyleEntry,
    YeastEntry,
)
from designer.library.sources import STYLE_NUMBERS, source_words
from designer.recipe.document import Fermentable, Hop
from designer.recipe.named import Line
from designer.translation import tr

Entry = FermentableEntry | HopEntry | YeastEntry | AidEntry | StyleEntry


@lru_cache(maxsize=4096)
def entry_of(part: str, name: str, form: str | None = None) -> Entry | None:
    """Return the row of a part of the catalogue that has the name, or had it once; None if none.

    `form` is that of a yeast, or the kind of a fermentable: of another kind it is another thing.
    """
    if part == "fermentables":
        found = catalogue.find_fermentable(name)
        return found if found is None or form in (None, found.kind) else None
    if part == "hops":
        return catalogue.find_hop(name)
    if part == "yeasts":
        return catalogue.find_yeast(name, form)
    return catalogue.find_aid(name) if part == "extras" else catalogue.find_style(name)


def told(entry: Entry) -> str:
    """Return where the figures of a row are from; of a style, whose it is."""
    if isinstance(entry, StyleEntry):
        return STYLE_NUMBERS
    return source_words(entry.standing, entry.source)


def source_of(part: str, name: str, form: str | None = None) -> str:
    """Return where the figures of a name are from; of one that is not in the catalogue, that."""
    entry = entry_of(part, name, form) if name.strip() else None
    if entry is not None:
        return told(entry)
    if not name.strip():
        return ""
    return tr("Not in the catalogue: its figures are those typed, or usual ones of its kind.")


def source_of_line(line: Line) -> str:
    """Return where the figures of a line of a recipe are from."""
    if isinstance(line, Fermentable):
        return source_of("fermentables", line.name, line.kind)
    return source_of("hops" if isinstance(line, Hop) else "extras", line.name)
