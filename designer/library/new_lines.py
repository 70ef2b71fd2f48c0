"""A new line from its name, with the figures of the catalogue or of what the name speaks of."""

from __future__ import annotations

from functools import lru_cache

from designer.library import catalogue
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Extra, Fermentable, Hop
from designer.recipe.named import Line
from designer.recipe.quantity import Stage, When
from designer.recipe.same_name import folded

_SUGARS = "sugar zucker sucre honey honig miel dextrose syrup sirup sirop treacle melasse cassonade"
"""Parts of words that name a sugar, folded; English, German, French."""


def new_line(lines: str, name: str) -> Line:
    """Return a line of `fermentables`, `hops` or `extras` with that name."""
    if lines == "fermentables":
        return new_fermentable(name)
    return new_hop(name) if lines == "hops" else new_extra(name)


@lru_cache(maxsize=8192)
def is_known(lines: str, name: str) -> bool:
    """Whether the catalogue has the name in the part that a list takes from."""
    if lines == "fermentables":
        return catalogue.find_fermentable(name) is not None
    if lines == "hops":
        return catalogue.find_hop(name) is not None
    return catalogue.find_aid(name) is not None


def new_fermentable(name: str) -> Fermentable:
    """Return a fermentable, of the kind its name speaks of if the catalogue does not know it."""
    entry = catalogue.find_fermentable(name)
    if entry is not None:
        return catalogue.new_fermentable(entry)
    kind = kind_by_name(name)
    steeps = kind == FermentableKind.STEEPING_GRAIN
    when = When(Stage.STEEP, "steep") if steeps else When(Stage.BOIL, "boil 60 min", 60.0)
    return Fermentable(name=name, kind=kind, when=when)


def kind_by_name(name: str) -> FermentableKind:
    """Return the kind of fermentable that a name speaks of; liquid extract where it says none."""
    plain = folded(name)

    def speaks_of(words: str) -> bool:
        return any(word in plain for word in words.split())

    extract = speaks_of("extract extrakt extrait")
    if speaks_of("kit gehopft houblonn"):
        return FermentableKind.HOPPED_KIT
    if (extract and speaks_of("dry dried trocken sec poudre")) or "dme" in plain.split():
        return FermentableKind.DRY_EXTRACT
    if speaks_of(_SUGARS):
        return FermentableKind.SUGAR
    if extract or not speaks_of("malt malz barley gerste orge grain"):
        return FermentableKind.LIQUID_EXTRACT
    return FermentableKind.STEEPING_GRAIN


def new_hop(name: str) -> Hop:
    """Return a hop with the typical alpha acid of its variety, if the catalogue knows it."""
    entry = catalogue.find_hop(name)
    return catalogue.new_hop(entry) if entry is not None else Hop(name=name)


def new_extra(name: str) -> Extra:
    """Return an extra with its usual dose and time, if the catalogue knows it."""
    entry = catalogue.find_aid(name)
    return catalogue.new_extra(entry) if entry is not None else Extra(name=name)
