"""What the store holds, as plain values. Numbers of things begin at 1; 0 stands for none.

Each is made of a row by `from_row`, field by field from the column of its name.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, fields
from datetime import UTC, date, datetime
from functools import cache
from typing import Any, TypeVar, cast

from designer.translation import tr

T = TypeVar("T")
LONGEST_FERMENTING_DAYS = 180
"""Beer whose yeast went in so long ago was packaged without a word; half a year, a judgement."""


@dataclass(frozen=True, slots=True)
class Summary:
    """What a version forecasts, worked out by the caller: the store knows no brewing.

    Gravities are SG, `abv` percent by volume, `srm` the beer's colour, volumes L; None where not
    known. `pot_fullest_l` is the pot's volume at its fullest moment, foam not counted. `others`
    holds the forecasts that have no column of their own, as JSON.
    """

    style: str = ""
    fermenter: str = ""
    pot: str = ""
    og: float | None = None
    fg: float | None = None
    abv: float | None = None
    ibu: float | None = None
    srm: float | None = None
    batch_l: float | None = None
    pot_fullest_l: float | None = None
    others: str = ""

    def forecast(self, key: str) -> float | None:
        """Return the forecast of that key; None where it is not known."""
        if key in _COLUMNS:
            value: float | None = getattr(self, _COLUMNS[key])
            return value
        try:
            found = json.loads(self.others).get(key) if self.others else None
        except (ValueError, AttributeError):  # a box that was damaged or tampered with
            return None
        return found if isinstance(found, float) else None


_COLUMNS = {
    "original_gravity": "og",
    "final_gravity": "fg",
    "abv_percent": "abv",
    "bitterness_ibu": "ibu",
    "colour_srm": "srm",
}
"""The columns of forecasts that are searched and sorted by."""


def forecast_columns(values: dict[str, float]) -> dict[str, Any]:
    """Return what a summary holds of forecasts, by column; `values` by the key of each."""
    others = {key: value for key, value in values.items() if key not in _COLUMNS}
    known = {column: values.get(key) for key, column in _COLUMNS.items()}
    return {**known, "others": json.dumps(others) if others else ""}


SUMMARY_COLUMNS = tuple(each.name for each in fields(Summary))


@dataclass(frozen=True, slots=True)
class VersionRow:
    """A version in a list, its document not read.

    `number` counts the recipe's versions from 1, `base` is the id of the version it was made from
    (0 for none), `name` is optional, `saved` a time in UTC (ISO 8601).
    """

    id: int
    recipe: int
    number: int
    name: str
    saved: str
    base: int
    summary: Summary

    @property
    def called(self) -> str:
        """How the version is spoken of."""
        return tr("version {number}", number=self.number)


@dataclass(frozen=True, slots=True)
class Version(VersionRow):
    """One saved version of a recipe; `document` is the text of a recipe file."""

    document: str


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two versions made from the same one: both are kept, `mine` is the newest now.

    `theirs` is the version that another window had saved in between, unknown to the one of `mine`.
    """

    mine: Version
    theirs: Version

    def __str__(self) -> str:
        return tr(
            "This recipe got a version {theirs} while you changed it, and yours, version {mine}, "
            "was not made from that: they are both kept. Yours is the newest; compare the two to "
            "take over what the other has.",
            theirs=self.theirs.number,
            mine=self.mine.number,
        )


@dataclass(frozen=True, slots=True)
class RecipeRow:
    """A recipe in the list: its newest version's summary, and what is kept about it.

    `example` is the name of the example of the program that it is, "" for a brewer's own. Of its
    beers `fermenting` says since when the last is in the fermenter, `packaged` when one went into
    bottles or keg last, `ready` from when the last is ready: days, "" for none.
    """

    id: int
    name: str
    newest: int = 0
    versions: int = 0
    made: str = ""
    changed: str = ""
    trashed: str = ""
    last_brewed: str = ""
    branched_from: int = 0
    example: str = ""
    fermenting: str = ""
    packaged: str = ""
    ready: str = ""
    summary: Summary = Summary()
    tags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Draft:
    """What a window is editing, with the undo history of its documents.

    `recipe` is 0 for a recipe never saved; `base` the version it was opened from. `undo` holds the
    documents of the history, oldest first, and `position` is the present one's place in it.
    `phrases` says beside each of them what was done to reach it; "" or nothing where not known.
    `number` grows with each draft that is written: times are not compared, a clock may be moved.
    """

    window: str
    document: str
    recipe: int = 0
    base: int = 0
    undo: tuple[str, ...] = ()
    position: int = 0
    saved: str = ""
    phrases: tuple[str, ...] = ()
    number: int = 0


def from_row(of: type[T], row: Mapping[str, Any], **given: Any) -> T:
    """Return a value of a class from a row: each field that is not `given` from its column.

    What is null counts as none: 0 or "".
    """
    nones, readers = _columns(cast(Hashable, of), tuple(given))
    for name, none in nones:
        given[name] = none if (value := row[name]) is None else value
    for name, read in readers:
        given[name] = read(given[name])
    return of(**given)


def _date(text: object) -> date | None:
    """Return the date of a text; one that cannot be read counts as not known."""
    try:
        return date.fromisoformat(str(text))
    except ValueError:
        return None


_NONE = {"int": 0, "str": ""}
_READ: dict[str, Callable[[object], object]] = {"bool": bool, "date | None": _date}


@cache
def _columns(
    of: Hashable, given: tuple[str, ...]
) -> tuple[tuple[tuple[str, object], ...], tuple[tuple[str, Callable[[object], object]], ...]]:
    """Return what null counts as in each column, and the columns that are read from a text."""
    kinds = {each.name: str(each.type) for each in fields(cast(Any, of)) if each.name not in given}
    nones = tuple((name, _NONE.get(kind)) for name, kind in kinds.items())
    return nones, tuple((name, _READ[kind]) for name, kind in kinds.items() if kind in _READ)


def now_text() -> str:
    """Return the time now, UTC, to the second."""
    return datetime.now(UTC).isoformat(timespec="seconds")
