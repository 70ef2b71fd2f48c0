"""What a beer may taste of, and what brings it; and what plain words mean for a beer."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from designer.library.sources import Standing
from designer.recipe.same_name import folded
from designer.resource_files import resource_path


class FlavourEntry(NamedTuple):
    """A flavour: its key and its word, and by name what brings it, the surest first."""

    key: str
    name: str
    extract: tuple[str, ...]
    grain: tuple[str, ...]
    hops: tuple[str, ...]
    sugar: tuple[str, ...]
    standing: Standing
    source: str


class PlainWord(NamedTuple):
    """A word or a few: what they speak of, and which way.

    `means` is "style", "flavour" (the `value` its name or key), "sweetness", "strength",
    "bitterness", "colour", "hops" (the `value` from -1 to 1), "negation" or "nothing". `alone` is
    the figure where no style is named: per cent of alcohol, IBU, SRM.
    """

    words: tuple[str, ...]
    means: str
    value: str
    alone: float | None

    @property
    def step(self) -> float:
        """Which way and how far, from -1 to 1."""
        return float(self.value)


def _rows(file: str) -> Iterator[dict[str, str]]:
    with resource_path(file).open(encoding="utf-8", newline="") as lines:
        yield from csv.DictReader(lines)


def _listed(cell: str) -> tuple[str, ...]:
    return tuple(each.strip() for each in cell.split(";") if each.strip())


@cache
def flavour_entries() -> tuple[FlavourEntry, ...]:
    """Return all flavours."""
    return tuple(
        FlavourEntry(
            row["key"],
            row["label"],
            _listed(row["extract"]),
            _listed(row["grain"]),
            _listed(row["hops"]),
            _listed(row["sugar"]),
            Standing(row["standing"]),
            row["source"],
        )
        for row in _rows("flavours.csv")
    )


@cache
def plain_words() -> tuple[PlainWord, ...]:
    """Return the plain words that are understood."""
    return tuple(
        PlainWord(
            tuple(folded(row["words"]).replace("-", " ").replace("'", " ").split()),
            row["means"],
            row["value"],
            float(row["alone"]) if row["alone"] else None,
        )
        for row in _rows("plain_words.csv")
    )
