"""What a shop would put into a beer of a style, and in which shares, by families of styles.

Every style of the catalogue has a row in `style_grists.csv`: what may go in, in order of
preference. Its family in `style_families.csv` says how much, and how lively such a beer is. Shares
are of all that is weighed in, grain, extract and sugar together.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from designer.library.sources import Standing
from designer.recipe.same_name import name_key
from designer.resource_files import resource_path

Share = tuple[float, float]
"""The least and the most, 0 to 1."""

_SHARE = re.compile(r"^(?P<name>.*?)\s+(?P<low>[\d.]+)-(?P<high>[\d.]+) %$")
_FORM = re.compile(r"^(?P<name>.*) \((?P<form>dry|liquid)\)$")


class StyleFamily(NamedTuple):
    """How much of what beers of a family take; hops in grams a litre of beer.

    `co2_volumes` are the least and the most volumes of gas that they usually have.
    """

    name: str
    crystal: Share
    roast: Share
    sugar_most: float
    dextrin_most: float
    late_hops_g_l: float
    dry_hops_g_l: float
    co2_volumes: tuple[float, float]
    standing: Standing
    source: str


class Portion(NamedTuple):
    """A fermentable that takes a certain share of what is weighed in."""

    name: str
    share: Share


class StyleGrist(NamedTuple):
    """What may go into a beer of a style, the best first; None stands for leaving it out.

    `base` is the extract that makes up what the others leave. Of `roast` several may go in
    together. Yeasts are name and form.
    """

    name: str
    family: StyleFamily
    base: tuple[str, ...]
    beside: tuple[Portion | None, ...]
    crystal: tuple[str | None, ...]
    roast: tuple[tuple[str, ...] | None, ...]
    sugar: tuple[Portion | None, ...]
    bittering: tuple[str, ...]
    late: tuple[str, ...]
    yeast: tuple[tuple[str, str], ...]
    standing: Standing
    source: str


def _rows(file: str) -> Iterator[dict[str, str]]:
    with resource_path(file).open(encoding="utf-8", newline="") as lines:
        yield from csv.DictReader(lines)


@cache
def style_families() -> tuple[StyleFamily, ...]:
    """Return the families of styles."""
    return tuple(map(_family, _rows("style_families.csv")))


def _family(row: dict[str, str]) -> StyleFamily:
    def share(key: str) -> Share:
        low, high = (float(row[f"{key}_percent_{end}"]) / 100.0 for end in ("min", "max"))
        return low, high

    return StyleFamily(
        row["family"],
        share("crystal"),
        share("roast"),
        float(row["sugar_percent_max"]) / 100.0,
        float(row["dextrin_percent_max"]) / 100.0,
        float(row["late_hops_g_l"]),
        float(row["dry_hops_g_l"]),
        (float(row["co2_volumes_min"]), float(row["co2_volumes_max"])),
        Standing(row["standing"]),
        row["source"],
    )


@cache
def style_grists() -> tuple[StyleGrist, ...]:
    """Return what goes into the beers of each style."""
    families = {each.name: each for each in style_families()}
    return tuple(_grist(row, families[row["family"]]) for row in _rows("style_grists.csv"))


def _grist(row: dict[str, str], family: StyleFamily) -> StyleGrist:
    return StyleGrist(
        row["style"],
        family,
        _listed(row["base"]),
        _portions(row["beside"]),
        tuple(None if each == "none" else each for each in _listed(row["crystal"])) or (None,),
        tuple(
            None if each == "none" else tuple(each.split(" + ")) for each in _listed(row["roast"])
        )
        or (None,),
        _portions(row["sugar"]),
        _listed(row["bittering"]),
        _listed(row["late"]),
        tuple(map(_yeast, _listed(row["yeast"]))),
        Standing(row["standing"]),
        row["source"],
    )


def _listed(cell: str) -> tuple[str, ...]:
    return tuple(each.strip() for each in cell.split(";") if each.strip())


def _portions(cell: str) -> tuple[Portion | None, ...]:
    return tuple(map(_portion, _listed(cell))) or (None,)


def _portion(text: str) -> Portion | None:
    found = _SHARE.match(text)
    if found is None:
        return None
    low, high = (float(found[end]) / 100.0 for end in ("low", "high"))
    return Portion(found["name"], (low, high))


def _yeast(text: str) -> tuple[str, str]:
    found = _FORM.match(text)
    return (found["name"], found["form"]) if found is not None else (text, "dry")


@cache
def _by_style() -> dict[str, StyleGrist]:
    return {name_key(each.name): each for each in style_grists()}


def grist_of(style: str) -> StyleGrist:
    """Return what goes into a style; KeyError for one that the catalogue does not have."""
    return _by_style()[name_key(style)]
